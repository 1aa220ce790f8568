package lsp

import (
	"context"
	"encoding/json"
	"slices"

	"github.com/budstick/budstick/grammar/source"
)

// object is a JSON object that is written only once.
type object = map[string]any

// initialize begins the session.
func (s *server) initialize(raw json.RawMessage) (answer, error) {
	p, err := decode[initializeParams](raw)
	if err != nil {
		return nil, err
	}
	s.client = p.Capabilities
	name := "utf-16"
	if slices.Contains(p.Capabilities.General.PositionEncodings, "utf-8") {
		name, s.encoding = "utf-8", source.UTF8
	}
	s.mu.Lock()
	s.folders = foldersOf(p)
	s.phase = ready
	s.mu.Unlock()
	return func(context.Context) (any, error) {
		return object{
			"serverInfo":   object{"name": "budstick", "version": s.Version},
			"capabilities": capabilities(name),
		}, nil
	}, nil
}

// foldersOf is the folders that the editor works in. What is older in the
// protocol counts where what is newer is not said.
func foldersOf(p initializeParams) []string {
	var list []string
	for _, f := range p.WorkspaceFolders {
		list = append(list, pathOfURI(f.URI))
	}
	switch {
	case len(list) > 0:
	case p.RootURI != nil:
		list = []string{pathOfURI(*p.RootURI)}
	case p.RootPath != nil:
		list = []string{*p.RootPath}
	}
	return slices.DeleteFunc(list, func(folder string) bool { return folder == "" })
}

// capabilities is what the server can do.
func capabilities(encoding string) object {
	return object{
		"positionEncoding": encoding,
		"textDocumentSync": object{"openClose": true, "change": 2},
		"completionProvider": object{
			"triggerCharacters": []string{" ", ",", ":", "\""},
		},
		"hoverProvider":              true,
		"definitionProvider":         true,
		"referencesProvider":         true,
		"documentHighlightProvider":  true,
		"renameProvider":             object{"prepareProvider": true},
		"documentSymbolProvider":     true,
		"workspaceSymbolProvider":    true,
		"documentFormattingProvider": true, "documentRangeFormattingProvider": true,
		"documentOnTypeFormattingProvider": object{"firstTriggerCharacter": "\n"},
		"foldingRangeProvider":             true,
		"semanticTokensProvider":           object{"legend": tokenLegend(), "full": true, "range": true},
		"codeActionProvider":               object{"codeActionKinds": []string{kindQuickFix}},
		"inlayHintProvider":                true,
		"workspace":                        object{"workspaceFolders": object{"supported": true, "changeNotifications": true}},
	}
}

// initialized asks the editor to watch the disk.
func (s *server) initialized(json.RawMessage) error {
	if !s.client.Workspace.DidChangeWatchedFiles.DynamicRegistration {
		return nil
	}
	s.tasks.Go(func() {
		// The answer says nothing, and a refusal only means that files are read
		// when they are opened.
		_ = s.conn.Call(s.ctx, "client/registerCapability", object{"registrations": []object{{
			"id": "journals", "method": "workspace/didChangeWatchedFiles",
			"registerOptions": object{"watchers": []object{{"globPattern": "**/*" + suffix}}},
		}}}, nil)
	})
	return nil
}

// shutdown ends the session in order; exit follows.
func (s *server) shutdown(json.RawMessage) (answer, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.phase = down
	return func(context.Context) (any, error) { return nil, nil }, nil
}

// exit ends the connection.
func (s *server) exit() {
	s.mu.Lock()
	if s.phase == down {
		s.status = 0
	}
	s.mu.Unlock()
	_ = s.conn.Close() // nothing is lost that could still be read
}
