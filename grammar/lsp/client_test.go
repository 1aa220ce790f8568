package lsp

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/source"
)

// A client is an editor at the other end of a pair of pipes. It frames its
// messages itself, and keeps its own texts.
type client struct {
	t      testing.TB
	server *server
	in     *os.File // to the server
	code   chan int

	mu      sync.Mutex
	changed sync.Cond
	answers map[string]json.RawMessage // whole messages, by id as it is written
	refused []json.RawMessage          // answers to nothing
	found   map[string]publishParams   // by URI
	said    []string                   // what the server logged or showed
	checked *snapshot                  // that was told of last
	gone    bool                       // the server has closed its end

	next int
}

// today is the day of all sessions.
var today, _ = fact.ParseDate("2026-11-25")

// diskOptions answers from the disk, without git.
func diskOptions() Options {
	return Options{
		Version: "test",
		Today:   func() fact.Date { return today },
		Journals: func(folder string, deep bool) (list []*source.File, err error) {
			err = filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error {
				switch {
				case err != nil:
					return err
				case e.IsDir() && path != folder && !deep:
					return fs.SkipDir
				case !e.IsDir() && strings.HasSuffix(path, suffix):
					b, err := os.ReadFile(path)
					list = append(list, source.New(path, b))
					return err
				}
				return nil
			})
			return list, err
		},
		File: func(path string) (*source.File, error) {
			b, err := os.ReadFile(path)
			return source.New(path, b), err
		},
		Committed: func(string) (*source.File, error) { return nil, nil },
	}
}

// newClient starts a server at the other end of two pipes.
func newClient(t testing.TB, o Options) *client {
	t.Helper()
	toServer, in, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	out, fromServer, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	c := &client{
		t: t, server: newServer(context.Background(), o), in: in, code: make(chan int, 1),
		answers: map[string]json.RawMessage{}, found: map[string]publishParams{},
	}
	c.changed.L = &c.mu
	c.server.settled = func(s *snapshot) { c.note(func() { c.checked = s }) }
	c.server.broken = func(p any) { t.Errorf("the server panicked: %v", p) }
	go func() {
		c.server.run(toServer, fromServer)
		fromServer.Close()
		c.code <- c.server.status
	}()
	go c.listen(bufio.NewReader(out))
	t.Cleanup(func() {
		in.Close()
		c.wait(func() bool { return c.gone })
	})
	return c
}

func (c *client) note(f func()) {
	c.mu.Lock()
	defer c.mu.Unlock()
	f()
	c.changed.Broadcast()
}

// wait waits until something is so; it fails the test after a minute.
func (c *client) wait(so func() bool) {
	c.t.Helper()
	late := false
	timer := time.AfterFunc(time.Minute, func() { c.note(func() { late = true }) })
	defer timer.Stop()
	c.mu.Lock()
	defer c.mu.Unlock()
	for !so() && !late {
		c.changed.Wait()
	}
	if !so() {
		c.t.Fatal("the server does not answer")
	}
}

// listen reads what the server says, to its end.
func (c *client) listen(r *bufio.Reader) {
	defer c.note(func() { c.gone = true })
	for {
		var length int
		for {
			line, err := r.ReadString('\n')
			if err != nil {
				return
			}
			if line == "\r\n" {
				break
			}
			if _, err := fmt.Sscanf(line, "Content-Length: %d\r\n", &length); err != nil {
				c.t.Errorf("the server wrote the header %q", line)
				return
			}
		}
		body := make([]byte, length)
		if _, err := io.ReadFull(r, body); err != nil {
			c.t.Errorf("the server's message is cut short: %v", err)
			return
		}
		c.hear(body)
	}
}

func (c *client) hear(body []byte) {
	var m struct {
		ID     json.RawMessage `json:"id"`
		Method string          `json:"method"`
		Params json.RawMessage `json:"params"`
	}
	if err := json.Unmarshal(body, &m); err != nil {
		c.t.Errorf("the server wrote %s: %v", body, err)
		return
	}
	switch {
	case m.Method == "textDocument/publishDiagnostics":
		var p publishParams
		if err := json.Unmarshal(m.Params, &p); err != nil {
			c.t.Error(err)
		}
		c.note(func() { c.found[p.URI] = p })
	case m.Method == "window/logMessage", m.Method == "window/showMessage":
		var p struct{ Message string }
		_ = json.Unmarshal(m.Params, &p)
		c.note(func() { c.said = append(c.said, p.Message) })
	case m.Method != "":
		c.send(fmt.Sprintf(`{"jsonrpc":"2.0","id":%s,"result":null}`, m.ID))
	case string(m.ID) == "null":
		c.note(func() { c.refused = append(c.refused, body) })
	default:
		c.note(func() { c.answers[string(m.ID)] = body })
	}
}

// send writes one message.
func (c *client) send(body string) {
	c.raw(fmt.Sprintf("Content-Length: %d\r\n\r\n%s", len(body), body))
}

func (c *client) raw(text string) {
	c.t.Helper()
	if _, err := io.WriteString(c.in, text); err != nil && !errors.Is(err, fs.ErrClosed) && !errors.Is(err, syscall.EPIPE) {
		c.t.Errorf("writing to the server: %v", err)
	}
}

func toJSON(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	return string(b)
}

func (c *client) notify(method string, params any) {
	c.send(fmt.Sprintf(`{"jsonrpc":"2.0","method":%q,"params":%s}`, method, toJSON(params)))
}

// ask sends a request and returns its id.
func (c *client) ask(method string, params any) string {
	c.next++
	id := fmt.Sprint(c.next)
	c.send(fmt.Sprintf(`{"jsonrpc":"2.0","id":%s,"method":%q,"params":%s}`, id, method, toJSON(params)))
	return id
}

// An answerError is an error that the server answered with.
type answerError struct {
	Code    int    `json:"code"`
	Message string `json:"message"`
}

func (e *answerError) Error() string { return fmt.Sprintf("%s (%d)", e.Message, e.Code) }

// answer waits for the answer to a request and reads its result, if to is given.
func (c *client) answer(id string, to any) error {
	c.t.Helper()
	c.wait(func() bool { return c.answers[id] != nil || c.gone })
	c.mu.Lock()
	body := c.answers[id]
	c.mu.Unlock()
	var m struct {
		Result json.RawMessage
		Error  *answerError
	}
	if err := json.Unmarshal(body, &m); err != nil {
		c.t.Fatalf("no answer to %s: %s", id, body)
	}
	if m.Error != nil {
		return m.Error
	}
	if to != nil {
		if err := json.Unmarshal(m.Result, to); err != nil {
			c.t.Fatalf("the answer is %s: %v", m.Result, err)
		}
	}
	return nil
}

// call sends a request and waits for its answer.
func (c *client) call(method string, params, to any) error {
	c.t.Helper()
	return c.answer(c.ask(method, params), to)
}

// begin is the beginning of a session in a folder, by an editor that can do
// everything.
func (c *client) begin(folder string, encodings ...string) {
	c.t.Helper()
	params := object{
		"workspaceFolders": []object{{"uri": uriOfPath(folder), "name": "journal"}},
		"capabilities": object{
			"general":   object{"positionEncodings": encodings},
			"workspace": object{"workspaceEdit": object{"documentChanges": true}, "didChangeWatchedFiles": object{"dynamicRegistration": true}},
			"textDocument": object{
				"completion":         object{"completionItem": object{"snippetSupport": true}},
				"hover":              object{"contentFormat": []string{"markdown"}},
				"documentSymbol":     object{"hierarchicalDocumentSymbolSupport": true},
				"publishDiagnostics": object{"relatedInformation": true, "versionSupport": true},
			},
		},
	}
	if err := c.call("initialize", params, nil); err != nil {
		c.t.Fatal(err)
	}
	c.notify("initialized", object{})
}

// end ends the session in order and returns the server's status.
func (c *client) end() int {
	c.t.Helper()
	if err := c.call("shutdown", nil, nil); err != nil {
		c.t.Error(err)
	}
	c.send(`{"jsonrpc":"2.0","method":"exit"}`)
	select {
	case code := <-c.code:
		return code
	case <-time.After(time.Minute):
		c.t.Fatal("the server does not end")
		return 0
	}
}

func (c *client) open(uri, text string, version int) {
	c.notify("textDocument/didOpen", object{"textDocument": object{"uri": uri, "languageId": "budstick", "version": version, "text": text}})
}

// barrier waits until the server has heeded all that was said before.
func (c *client) barrier() {
	c.t.Helper()
	if err := c.call("there/is/none", nil, nil); err == nil {
		c.t.Fatal("a method that there is none of was answered")
	}
}

// settle waits until all that was said before is checked and told.
func (c *client) settle() {
	c.t.Helper()
	c.barrier()
	c.wait(func() bool {
		c.server.mu.Lock()
		defer c.server.mu.Unlock()
		for _, key := range slices.Sorted(maps.Keys(c.server.journals)) {
			if snap := c.server.journals[key].snap; snap != c.checked && len(c.server.journals) == 1 {
				return false
			}
		}
		return true
	})
	c.barrier() // what was told before it has arrived
}

// text is the server's own text of a file, and whether it is open there.
func (c *client) text(uri string) (string, bool) {
	c.server.mu.Lock()
	defer c.server.mu.Unlock()
	for _, j := range c.server.journals {
		if f := j.snap.file(pathOfURI(uri)); f != nil && f.open {
			return string(f.bytes(0, f.len())), true
		}
	}
	return "", false
}
