package lsp

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
)

func framed(body string) string { return fmt.Sprintf("Content-Length: %d\r\n\r\n%s", len(body), body) }

func longer(body string, by int) string {
	return fmt.Sprintf("Content-Length: %d\r\n\r\n%s", len(body)+by, body)
}

// What is no message is refused in words, and the next message is answered all
// the same.
func TestWhatIsNoMessageIsRefused(t *testing.T) {
	const request = `{"jsonrpc":"2.0","id":7,"method":"none"}`
	for name, c := range map[string]struct{ raw, says string }{
		"no JSON":                {framed(`{"jsonrpc":`), "is no JSON"},
		"too short":              {longer(request, -3), "is no JSON"},
		"too short by one":       {longer(request, -1), "is no JSON"},
		"too long by one":        {longer(request, 1), "is no JSON"},
		"too long by a header":   {longer(request, 18), "is no JSON"},
		"too long by much":       {longer(request, 40), "is no JSON"},
		"cut":                    {longer(`{"jsonrpc":"2.0","id":7,"me`, 13), "is no JSON"},
		"cut, into the header":   {longer(`{"jsonrpc":"2.0","id":7,"me`, 5), "is no JSON"},
		"cut, before the number": {longer(`{"jsonrpc":"2.0","id":7,"me`, 16), "is no JSON"},
		"cut, into the number":   {longer(`{"jsonrpc":"2.0","id":7,"me`, 17), "is no JSON"},
		"no length":              {"Content-Type: x\r\n\r\n", "without Content-Length"},
		"no number":              {"Content-Length: ten\r\n\r\n", `Content-Length is "ten"`},
		"below zero":             {"Content-Length: -5\r\n\r\n", `Content-Length is "-5"`},
		"nothing":                {"Content-Length: 0\r\n\r\n", `Content-Length is "0"`},
		"endless":                {"Content-Length: 99999999999999999999\r\n\r\n", "Content-Length is"},
		"more than any journal":  {"Content-Length: 99999999999\r\n\r\n", "Content-Length is"},
		"a line of prose":        {"hello there, server\r\n", "is no header"},
		"a long line":            {strings.Repeat("hello there ", 2000), "is no header"},
		"a request alone":        {request, "is no header"},
		"a list":                 {framed(`[` + request + `]`), "no message of JSON-RPC"},
		"an empty list":          {framed(`[]`), "no message of JSON-RPC"},
		"a number":               {framed(`7`), "no message of JSON-RPC"},
		"null":                   {framed(`null`), "no message of JSON-RPC"},
		"neither":                {framed(`{"jsonrpc":"2.0"}`), "no message of JSON-RPC"},
		"both":                   {framed(`{"method":"x","result":1}`), "no message of JSON-RPC"},
		"a method of numbers":    {framed(`{"id":99,"method":5}`), "no message of JSON-RPC"},
		"an id in pieces":        {framed(`{"id":{"a":1},"method":"x"}`), "no message of JSON-RPC"},
		"an id with a fraction":  {framed(`{"id":1.5,"method":"x"}`), "no message of JSON-RPC"},
		"an id below zero":       {framed(`{"id":-4,"method":"x"}`), "an id is a text or a whole number"},
	} {
		t.Run(name, func(t *testing.T) {
			c1 := newClient(t, diskOptions())
			c1.begin(t.TempDir())
			c1.raw(c.raw)
			c1.barrier()
			c1.mu.Lock()
			defer c1.mu.Unlock()
			said := append([]json.RawMessage(nil), c1.refused...)
			for _, id := range []string{"-4", "1.5", "99"} {
				said = append(said, c1.answers[id])
			}
			for _, one := range said {
				if strings.Contains(strings.ReplaceAll(string(one), `\"`, `"`), c.says) {
					return
				}
			}
			t.Errorf("refused with %s, want %q", said, c.says)
		})
	}
}

// The names of headers have no case, and there may be others.
func TestHeaders(t *testing.T) {
	c := newClient(t, diskOptions())
	c.begin(t.TempDir())
	const body = `{"jsonrpc":"2.0","id":"x","method":"shutdown"}`
	c.raw(fmt.Sprintf("Content-Type: application/vscode-jsonrpc; charset=utf-8\r\ncontent-length:%d\r\n\r\n%s", len(body), body))
	if err := c.answer(`"x"`, nil); err != nil {
		t.Error(err)
	}
	c.notify("exit", nil)
	if code := <-c.code; code != 0 {
		t.Errorf("status %d", code)
	}
}

// The input may end anywhere.
func TestInputEnds(t *testing.T) {
	for _, raw := range []string{"", "Content-Le", "Content-Length: 50\r\n", "Content-Length: 50\r\n\r\n", "Content-Length: 50\r\n\r\n{\"json", "hello"} {
		c := newClient(t, diskOptions())
		c.begin(t.TempDir())
		c.raw(raw)
		c.in.Close()
		if code := <-c.code; code != 1 {
			t.Errorf("%q: status %d, want 1", raw, code)
		}
	}
}
