package lsp

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/sourcegraph/jsonrpc2"

	"github.com/budstick/budstick/grammar/source"
)

// A wire carries messages framed as LSP 3.17 has it (Base Protocol): a header
// that says how long the message is, and the message.
//
// What can't be read is refused with an error that answers no request (its id
// is null, as JSON-RPC 2.0 wants it), and reading goes on at the next header:
// one message that was cut short must not take the editor's session with it.
type wire struct {
	in     *bufio.Reader
	closer io.Closer
	closed atomic.Bool
	ended  chan struct{} // closed when nothing more will be read
	out    outbox
}

// maxMessage is the longest message that is read: a whole journal with every
// character escaped.
const maxMessage = source.MaxBytes + source.MaxBytes/2

func newWire(in io.ReadCloser, out io.Writer) *wire {
	w := &wire{in: bufio.NewReaderSize(in, 1<<16), closer: in, ended: make(chan struct{})}
	w.out.start(out)
	return w
}

// ReadObject reads the next message that makes sense. It is not called again
// after an error.
func (w *wire) ReadObject(v any) (err error) {
	defer func() {
		if err != nil {
			close(w.ended)
		}
	}()
	for !w.closed.Load() {
		body, err := w.body()
		if fault := (wireError{}); errors.As(err, &fault) {
			w.refuse(nil, jsonrpc2.CodeParseError, fault.Error())
			continue
		} else if err != nil {
			return err
		}
		switch err := json.Unmarshal(body, v); {
		case err == nil:
			return nil
		case json.Valid(body):
			w.refuse(idOf(body), jsonrpc2.CodeInvalidRequest, "this is no message of JSON-RPC 2.0: "+err.Error())
		default:
			w.refuse(nil, jsonrpc2.CodeParseError, fmt.Sprintf("a message of %d bytes, by its Content-Length, is no JSON: %v", len(body), err))
			w.unread(body)
		}
	}
	return io.EOF
}

// A wireError says what is wrong with a header.
type wireError struct{ message string }

func (e wireError) Error() string { return e.message }

// body reads one header and what it announces. After a wireError the next call
// goes on behind it.
func (w *wire) body() ([]byte, error) {
	length, err := w.header()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	n, err := io.CopyN(&b, w.in, length)
	if err == io.EOF && n < length {
		w.refuse(nil, jsonrpc2.CodeParseError, fmt.Sprintf("the input ends %d bytes before the message does, by its Content-Length", length-n))
	}
	return b.Bytes(), err
}

// header reads up to the blank line and gives the length of the message.
func (w *wire) header() (int64, error) {
	length, lines := int64(-1), 0
	for {
		line, err := w.line()
		if err != nil {
			return 0, err
		}
		text := strings.TrimRight(line, "\r\n")
		name, value, ok := strings.Cut(text, ":")
		switch {
		case text == "" && length >= 0:
			return length, nil
		case text == "" && lines == 0:
			continue // blank lines between messages do no harm
		case text == "":
			return 0, wireError{"a header without Content-Length; a message begins with: Content-Length: and its number of bytes"}
		case !ok || strings.ContainsAny(name, " \t{}\""):
			return 0, w.garbage(line)
		case strings.EqualFold(name, "Content-Length"):
			if length, err = strconv.ParseInt(strings.TrimSpace(value), 10, 64); err != nil || length <= 0 || length > maxMessage {
				return 0, wireError{fmt.Sprintf("Content-Length is %.40q; it is the number of bytes of the message, from 1 to %d", strings.TrimSpace(value), int64(maxMessage))}
			}
		}
		lines++
	}
}

// longestLine is more than any line of a header has.
const longestLine = 4096

// line reads a line, or as much of it as a header may have.
func (w *wire) line() (string, error) {
	var b []byte
	for len(b) < longestLine {
		c, err := w.in.ReadByte()
		if err != nil {
			return "", err
		}
		if b = append(b, c); c == '\n' {
			break
		}
	}
	return string(b), nil
}

// announces finds the header of a message within what should be something else.
var announces = regexp.MustCompile(`(?i)content-length:[ \t]*[0-9]+[ \t]*\r?\n`)

// garbage refuses what is no header, and goes on at the next one.
func (w *wire) garbage(line string) error {
	refused := wireError{fmt.Sprintf("%.60q is no header; a message begins with: Content-Length: and its number of bytes", strings.TrimSpace(line))}
	for {
		if at := announces.FindStringIndex(line); at != nil {
			w.in = bufio.NewReaderSize(io.MultiReader(strings.NewReader(line[at[0]:]), w.in), 1<<16)
			return refused
		}
		next, err := w.line()
		if err != nil {
			w.refuse(nil, jsonrpc2.CodeParseError, refused.Error())
			return err
		}
		line = next
	}
}

// unread puts a message back that was read as the end of one that is shorter
// than its header says.
func (w *wire) unread(body []byte) {
	if at := announces.FindIndex(body); at != nil {
		w.in = bufio.NewReaderSize(io.MultiReader(bytes.NewReader(body[at[0]:]), w.in), 1<<16)
	}
}

// idOf is the id of a request that can't be answered otherwise, or nil.
func idOf(body []byte) any {
	var m struct {
		ID any `json:"id"`
	}
	_ = json.Unmarshal(body, &m) // a list of messages has none
	switch m.ID.(type) {
	case string, float64:
		return m.ID
	}
	return nil
}

func (w *wire) refuse(id any, code int, message string) {
	w.send(map[string]any{"jsonrpc": "2.0", "id": id, "error": jsonrpc2.Error{Code: int64(code), Message: message}})
}

// notify tells the editor something.
func (w *wire) notify(method string, params any) {
	w.send(struct {
		Version string `json:"jsonrpc"`
		Method  string `json:"method"`
		Params  any    `json:"params"`
	}{"2.0", method, params})
}

// WriteObject writes a message. It is whole before any of it is written.
func (w *wire) WriteObject(v any) error {
	body, err := json.Marshal(v)
	if err != nil {
		return err
	}
	w.out.put(body)
	return nil
}

// send is WriteObject for values of this package, which can all be written.
func (w *wire) send(v any) {
	if err := w.WriteObject(v); err != nil {
		panic(err)
	}
}

// Close ends reading; what is to be written is still written.
func (w *wire) Close() error {
	w.closed.Store(true)
	return w.closer.Close()
}

// An outbox writes messages in the order in which they are put, and never lets
// anyone wait: the reader of messages must go on reading also where the editor
// does not.
type outbox struct {
	mu      sync.Mutex
	wake    sync.Cond
	list    [][]byte
	closed  bool
	written sync.WaitGroup
}

func (o *outbox) start(w io.Writer) {
	o.wake.L = &o.mu
	o.written.Go(func() {
		for body, ok := o.next(); ok; body, ok = o.next() {
			if _, err := fmt.Fprintf(w, "Content-Length: %d\r\n\r\n%s", len(body), body); err != nil {
				o.close()
			}
		}
	})
}

func (o *outbox) next() ([]byte, bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	for len(o.list) == 0 && !o.closed {
		o.wake.Wait()
	}
	if len(o.list) == 0 {
		return nil, false
	}
	body := o.list[0]
	o.list = o.list[1:]
	return body, true
}

func (o *outbox) put(body []byte) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if !o.closed {
		o.list = append(o.list, body)
		o.wake.Signal()
	}
}

// close lets the outbox end when it is empty.
func (o *outbox) close() {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.closed = true
	o.wake.Signal()
}

// flush ends the outbox and waits until all is written.
func (o *outbox) flush() {
	o.close()
	o.written.Wait()
}
