package lsp

import (
	"context"
	"encoding/json"

	"github.com/sourcegraph/jsonrpc2"
)

// requests are the requests that are answered. Any other is refused.
var requests = map[string]func(*server, json.RawMessage) (answer, error){
	"shutdown":                          (*server).shutdown,
	"workspace/symbol":                  (*server).workspaceSymbol,
	"textDocument/completion":           about(complete),
	"textDocument/hover":                about(hover),
	"textDocument/definition":           about(definition),
	"textDocument/references":           about(references),
	"textDocument/documentHighlight":    about(highlight),
	"textDocument/prepareRename":        about(prepareRename),
	"textDocument/rename":               about(rename),
	"textDocument/documentSymbol":       about(documentSymbol),
	"textDocument/formatting":           about(formatting),
	"textDocument/rangeFormatting":      about(rangeFormatting),
	"textDocument/onTypeFormatting":     about(onTypeFormatting),
	"textDocument/foldingRange":         about(foldingRange),
	"textDocument/semanticTokens/full":  about(semanticTokens),
	"textDocument/semanticTokens/range": about(semanticTokensRange),
	"textDocument/codeAction":           about(codeAction),
	"textDocument/inlayHint":            about(inlayHint),
}

// notifications are those that are heeded. Any other is passed over.
var notifications = map[string]func(*server, json.RawMessage) error{
	"initialized":                         (*server).initialized,
	"textDocument/didOpen":                told((*server).didOpen),
	"textDocument/didChange":              told((*server).didChange),
	"textDocument/didClose":               told((*server).didClose),
	"workspace/didChangeWatchedFiles":     told((*server).didChangeWatchedFiles),
	"workspace/didChangeWorkspaceFolders": told((*server).didChangeWorkspaceFolders),
}

// decode reads parameters.
func decode[P any](raw json.RawMessage) (P, error) {
	var p P
	if err := json.Unmarshal(raw, &p); err != nil {
		return p, invalid("the parameters can't be read: %v", err)
	}
	return p, nil
}

// told makes a function that is told something of one that reads it first.
func told[P any](f func(*server, P) error) func(*server, json.RawMessage) error {
	return func(s *server, raw json.RawMessage) error {
		p, err := decode[P](raw)
		if err != nil {
			return err
		}
		return f(s, p)
	}
}

// A document is what a request is about: one file of a journal, as both were
// when the request came.
type document struct {
	*server
	*file
	journal *snapshot
	known   verdict // of the journal
}

// about makes a request of a function that answers about a document.
func about[P any](f func(context.Context, document, P) (any, error)) func(*server, json.RawMessage) (answer, error) {
	return func(s *server, raw json.RawMessage) (answer, error) {
		p, err := decode[P](raw)
		if err != nil {
			return nil, err
		}
		at, err := decode[struct {
			TextDocument textDocument `json:"textDocument"`
		}](raw)
		if err != nil {
			return nil, err
		}
		d, err := s.document(at.TextDocument.URI)
		if err != nil {
			return nil, err
		}
		return func(ctx context.Context) (any, error) { return f(ctx, d, p) }, nil
	}
}

// document finds the file that a request names.
func (s *server) document(uri string) (document, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	path := pathOfURI(uri)
	if j := s.journals[s.journalKey(path)]; j != nil {
		if f := j.snap.file(path); f != nil {
			return document{s, f, j.snap, j.known}, nil
		}
	}
	return document{}, invalid("%.200q is not open here and in no journal", uri)
}

// asked finds the answer to a request.
func (s *server) asked(method string, params json.RawMessage) (answer, error) {
	s.mu.Lock()
	now := s.phase
	s.mu.Unlock()
	ask := requests[method]
	switch {
	case method == "initialize" && now == fresh:
		return s.initialize(params)
	case method == "initialize", now == down:
		return nil, &jsonrpc2.Error{Code: jsonrpc2.CodeInvalidRequest, Message: method + " comes too late in this session"}
	case now == fresh:
		return nil, &jsonrpc2.Error{Code: codeNotInitialized, Message: "the session begins with initialize"}
	case ask == nil:
		return nil, &jsonrpc2.Error{Code: jsonrpc2.CodeMethodNotFound, Message: method + " is not answered here"}
	}
	return ask(s, params)
}

// notified heeds a notification. Only exit counts before the session has begun
// or after it has ended.
func (s *server) notified(method string, params json.RawMessage) error {
	switch {
	case method == "exit":
		s.exit()
		return nil
	case method == "$/cancelRequest":
		return s.cancel(params)
	}
	s.mu.Lock()
	now := s.phase
	s.mu.Unlock()
	if heed := notifications[method]; heed != nil && now == ready {
		return heed(s, params)
	}
	return nil
}

// cancel gives up a request, unless it is answered already.
func (s *server) cancel(params json.RawMessage) error {
	p, err := decode[struct {
		ID jsonrpc2.ID `json:"id"`
	}](params)
	if err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if stop := s.running[p.ID]; stop != nil {
		stop()
	}
	return nil
}
