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
	in     pushback
	closer io.Closer
	closed atomic.Bool
	ended  chan struct{} // closed when nothing more will be read
	out    outbox
}

// maxMessage is the longest message that is read: a whole journal with every
// character escaped.
const maxMessage = source.MaxBytes + source.MaxBytes/2

func newWire(in io.ReadCloser, out io.Writer) *wire {
	w := &wire{in: pushback{in: bufio.NewReaderSize(in, 1<<16)}, closer: in, ended: make(chan struct{})}
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
			w.surplus(body)
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
	n, err := io.CopyN(&b, &w.in, length)
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
		name, value, _ := strings.Cut(text, ":")
		switch {
		case text == "" && length >= 0:
			return length, nil
		case text == "" && lines == 0:
			continue // blank lines between messages do no harm
		case text == "":
			return 0, wireError{"a header without Content-Length; a message begins with: Content-Length: and its number of bytes"}
		case strings.EqualFold(name, "Content-Type"): // it is always the same
		case !strings.EqualFold(name, "Content-Length"):
			return 0, w.garbage(line)
		default:
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
// At the very end it may be there in part.
var announces = regexp.MustCompile(`(?i)content-length:[ \t]*[0-9]*[ \t]*\r?(\n|$)`)

const announcement = "content-length:"

// announced is where a header begins in text, or may begin at its end; -1 where
// none does.
func announced(text string) int {
	if at := announces.FindStringIndex(text); at != nil {
		return at[0]
	}
	for n := min(len(text), len(announcement)); n > 0; n-- {
		if strings.EqualFold(text[len(text)-n:], announcement[:n]) {
			return len(text) - n
		}
	}
	return -1
}

// garbage refuses what is no header, and goes on at the next one.
func (w *wire) garbage(line string) error {
	refused := wireError{fmt.Sprintf("%.60q is no header; a message begins with: Content-Length: and its number of bytes", strings.TrimSpace(line))}
	for {
		if at := announces.FindStringIndex(line); at != nil {
			w.in.unread([]byte(line[at[0]:]))
			return refused
		}
		next, err := w.line()
		if err != nil {
			w.refuse(nil, jsonrpc2.CodeParseError, refused.Error())
			return err
		}
		const overlap = 64 // a header may be cut in two by the end of a very long line
		line = line[max(0, len(line)-overlap):] + next
	}
}

// surplus puts back what was read of the next message with a body that is
// shorter than its header says.
func (w *wire) surplus(body []byte) {
	d := json.NewDecoder(bytes.NewReader(body))
	if err := d.Decode(new(json.RawMessage)); err == nil {
		w.in.unread(body[d.InputOffset():])
	} else if at := announced(string(body)); at >= 0 {
		w.in.unread(body[at:])
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

// A pushback is a reader of which something can be read again.
type pushback struct {
	back []byte
	in   *bufio.Reader
}

// unread puts back what was read.
func (p *pushback) unread(b []byte) { p.back = append(b[:len(b):len(b)], p.back...) }

func (p *pushback) ReadByte() (byte, error) {
	if len(p.back) == 0 {
		return p.in.ReadByte()
	}
	c := p.back[0]
	p.back = p.back[1:]
	return c, nil
}

func (p *pushback) Read(b []byte) (int, error) {
	if len(p.back) == 0 {
		return p.in.Read(b)
	}
	n := copy(b, p.back)
	p.back = p.back[n:]
	return n, nil
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
