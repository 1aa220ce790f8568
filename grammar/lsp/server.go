// Package lsp lets an editor write journals: it speaks LSP 3.17 over a pair of
// streams, and says while one writes what the other packages know.
//
// The way of a keystroke: it makes another text of the file, in which only the
// block that it touches is read again (text.go), and with that another state of
// the journal (journal.go). What reading alone finds is told at once; the
// journal is then replayed and all rules are asked, unless the next keystroke
// comes first (diagnose.go). States are never changed, so a request is answered
// from the one that was there when it came, however long it takes.
//
// One file holds one feature. Nothing here asks the clock or the disk: Options
// does.
package lsp

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"runtime/debug"
	"sync"

	"github.com/sourcegraph/jsonrpc2"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/source"
)

// Options is what the server asks of the world.
type Options struct {
	Version string
	// Today is the day on the clock.
	Today func() fact.Date
	// Journals reads the journal files in a folder, and with deep in all below
	// it, in any order. What could be read is returned beside an error.
	Journals func(folder string, deep bool) ([]*source.File, error)
	// File reads one file; the error is fs.ErrNotExist where it is not there.
	File func(path string) (*source.File, error)
	// Committed is a file as it was last committed, or nil where it never was.
	Committed func(path string) (*source.File, error)
}

// Serve answers an editor until it says exit or ends the input, and returns
// the status to end with: 0 after an orderly shutdown, else 1 (LSP 3.17, Exit
// Notification).
func Serve(ctx context.Context, in io.ReadCloser, out io.Writer, o Options) int {
	s := newServer(ctx, o)
	s.run(in, out)
	return s.status
}

// A server is one session.
type server struct {
	Options
	ctx    context.Context
	wire   *wire
	conn   *jsonrpc2.Conn
	tasks  sync.WaitGroup // answers and checks that are under way
	status int

	// What the editor said of itself; it is set once, before any answer reads it.
	client   clientCapabilities
	encoding source.Encoding

	mu       sync.Mutex // guards what follows
	phase    phase
	folders  []string
	journals map[string]*journal // by key, see journalOf
	openings int                 // how many files have been opened
	running  map[jsonrpc2.ID]context.CancelFunc

	telling sync.Mutex      // is held while findings are told, and guards sent
	sent    map[string]sent // by path

	settled func(*snapshot) // for tests: a state has been checked and told
	broken  func(any)       // for tests: something panicked
}

type phase uint8

const (
	fresh phase = iota
	ready
	down
)

func newServer(ctx context.Context, o Options) *server {
	return &server{
		Options: o, ctx: ctx, status: 1,
		journals: map[string]*journal{}, running: map[jsonrpc2.ID]context.CancelFunc{}, sent: map[string]sent{},
		settled: func(*snapshot) {}, broken: func(any) {},
	}
}

// run serves until the connection ends.
func (s *server) run(in io.ReadCloser, out io.Writer) {
	ctx, stop := context.WithCancel(s.ctx)
	s.ctx = ctx
	s.wire = newWire(in, out)
	begin := make(chan struct{}) // no message is handled before conn is known
	s.conn = jsonrpc2.NewConn(ctx, s.wire, handler(func(r *jsonrpc2.Request) { <-begin; s.handle(r) }), jsonrpc2.SetLogger(silent{}))
	close(begin)
	<-s.wire.ended
	stop()
	s.tasks.Wait()
	s.wire.out.flush()
}

// handler takes messages one after another.
type handler func(*jsonrpc2.Request)

func (h handler) Handle(_ context.Context, _ *jsonrpc2.Conn, r *jsonrpc2.Request) { h(r) }

// silent keeps the connection from writing to the terminal.
type silent struct{}

func (silent) Printf(string, ...any) {}

// handle takes one message in. Notifications are done at once and in order;
// requests are answered when their answer is ready.
func (s *server) handle(r *jsonrpc2.Request) {
	defer s.survive(func(string) {})
	params := json.RawMessage("null")
	if r.Params != nil {
		params = *r.Params
	}
	if r.Notif {
		if err := s.notified(r.Method, params); err != nil {
			s.log(fmt.Sprintf("%s: %v", r.Method, err))
		}
		return
	}
	if int64(r.ID.Num) < 0 {
		s.wire.refuse(int64(r.ID.Num), jsonrpc2.CodeInvalidRequest, "an id is a text or a whole number from 0")
		return
	}
	answer, err := s.asked(r.Method, params)
	switch {
	case err != nil:
		s.reply(r.ID, nil, err)
	case r.Method == "initialize", r.Method == "shutdown": // nothing is said before they are answered
		result, err := answer(s.ctx)
		s.reply(r.ID, result, err)
	default:
		s.start(r.ID, answer)
	}
}

// An answer is worked out from the state that was there when it was asked for.
type answer func(context.Context) (any, error)

// start works out an answer beside all others, until it is cancelled.
func (s *server) start(id jsonrpc2.ID, a answer) {
	ctx, cancel := context.WithCancel(s.ctx)
	s.mu.Lock()
	s.running[id] = cancel
	s.mu.Unlock()
	s.tasks.Go(func() {
		defer func() {
			cancel()
			s.mu.Lock()
			delete(s.running, id)
			s.mu.Unlock()
		}()
		defer s.survive(func(what string) { s.reply(id, nil, errors.New(what)) })
		result, err := a(ctx)
		if err != nil && ctx.Err() != nil {
			err = &jsonrpc2.Error{Code: codeRequestCancelled, Message: "cancelled"}
		}
		s.reply(id, result, err)
	})
}

// survive keeps the session alive where a mistake of the program's own shows,
// and tells of it.
func (s *server) survive(tell func(string)) {
	if p := recover(); p != nil {
		tell(s.report(p))
	}
}

// report tells of a mistake of the program's own.
func (s *server) report(fault any) string {
	s.broken(fault)
	what := fmt.Sprintf("a mistake in budstick: %v", fault)
	s.log(what + "\n" + string(debug.Stack()))
	return what
}

// reply answers a request, also when the session is ending.
func (s *server) reply(id jsonrpc2.ID, result any, err error) {
	r := &jsonrpc2.Response{ID: id}
	if err == nil {
		err = r.SetResult(result)
	}
	if err != nil {
		r.Result = nil
		if !errors.As(err, &r.Error) {
			r.Error = &jsonrpc2.Error{Code: jsonrpc2.CodeInternalError, Message: err.Error()}
		}
	}
	s.wire.send(r)
}

// failed is an answer that can't be given, in words for the person who asked.
func failed(format string, args ...any) error {
	return &jsonrpc2.Error{Code: codeRequestFailed, Message: fmt.Sprintf(format, args...)}
}

func invalid(format string, args ...any) error {
	return &jsonrpc2.Error{Code: jsonrpc2.CodeInvalidParams, Message: fmt.Sprintf(format, args...)}
}

// The types of messages to the person at the editor (MessageType).
const (
	messageError = 1
	messageLog   = 4
)

// log writes to the editor's log.
func (s *server) log(message string) { s.tell("window/logMessage", messageLog, message) }

// show puts a message before the person at the editor.
func (s *server) show(message string) { s.tell("window/showMessage", messageError, message) }

func (s *server) tell(method string, kind int, message string) {
	s.wire.notify(method, struct {
		Type    int    `json:"type"`
		Message string `json:"message"`
	}{kind, message})
}
