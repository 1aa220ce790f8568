package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/fatih/color"
	"golang.org/x/term"
	"golang.org/x/text/language"

	"github.com/budstick/budstick/grammar/render"
	"github.com/budstick/budstick/grammar/screen"
	"github.com/budstick/budstick/report/table"
)

// This file is the only one that prints or colours. What a command was asked
// for goes to standard output and nothing else does; all that is said about it
// goes to standard error. Whether there is colour is decided for each of the
// two by itself, and everything can be read without it.

// A terminal is the three streams of a run.
type terminal struct {
	in      io.Reader
	data    *stream       // standard output
	talk    *stream       // standard error
	page    int           // the width asked for, or that of text which goes to no terminal
	answers *bufio.Reader // in, where a person can be asked there; else nil
}

// A stream is one of the two that are written.
type stream struct {
	out    *bufio.Writer
	screen bool   // a person looks at it, on a terminal
	dumb   bool   // it can only be written on, line by line
	pager  *pager // shows what is longer than the screen; nil where nothing does
	colour bool
	width  int          // in cells
	tongue language.Tag // how numbers are written for people
}

// plainWidth is the width of text that goes to no terminal.
const plainWidth = 80

func newTerminal(stdin io.Reader, stdout, stderr io.Writer, env func(string) string) *terminal {
	t := &terminal{in: stdin, data: newStream(stdout, env), talk: newStream(stderr, env), page: plainWidth}
	if f, ok := stdin.(*os.File); ok && t.talk.screen && term.IsTerminal(int(f.Fd())) {
		t.answers = bufio.NewReader(f)
	}
	if t.data.screen && !t.data.dumb {
		t.data.pager = newPager(stdout.(*os.File), env)
		t.data.out.Reset(t.data.pager)
	}
	return t
}

// asks reports whether there is a person who can be asked.
func (t *terminal) asks() bool { return t.answers != nil }

// ask puts a question and returns the line that is answered, or an error where
// the answers end.
func (t *terminal) ask(question string) (string, error) {
	if err := t.talk.print(question + " "); err != nil {
		return "", err
	}
	return t.answers.ReadString('\n')
}

func newStream(w io.Writer, env func(string) string) *stream {
	s := &stream{out: bufio.NewWriterSize(w, 1<<16), width: plainWidth}
	if f, ok := w.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		s.screen, s.dumb = true, env("TERM") == "dumb"
		s.tongue = tongueOf(env)
		if width, _, err := term.GetSize(int(f.Fd())); err == nil && width > 0 {
			s.width = width
		}
	}
	s.colour = wantsColour(s.screen && !s.dumb, env)
	return s
}

// wantsColour decides by the environment: NO_COLOR and FORCE_COLOR count where
// they are not empty (no-color.org, force-color.org), the first before the
// second.
func wantsColour(able bool, env func(string) string) bool {
	switch {
	case env("NO_COLOR") != "":
		return false
	case env("FORCE_COLOR") != "":
		return true
	}
	return able
}

// tongueOf is the language of numbers that the environment asks for (POSIX,
// "Environment Variables": the first that is set counts).
func tongueOf(env func(string) string) language.Tag {
	for _, name := range []string{"LC_ALL", "LC_NUMERIC", "LANG"} {
		if value := env(name); value != "" {
			value, _, _ = strings.Cut(value, ".")
			value, _, _ = strings.Cut(value, "@")
			tag, err := language.Parse(value)
			if err != nil { // C and POSIX among them
				return language.Und
			}
			return tag
		}
	}
	return language.Und
}

// The words of --color.
const (
	colourAuto   = "auto"
	colourAlways = "always"
	colourNever  = "never"
)

// set lets flags say more than the environment; a width of 0 says nothing.
func (t *terminal) set(colour string, width int) {
	if width > 0 {
		t.page = width
	}
	for _, s := range []*stream{t.data, t.talk} {
		switch colour {
		case colourAlways:
			s.colour = true
		case colourNever:
			s.colour = false
		}
		if width > 0 {
			s.width = width
		}
	}
}

// say writes a message, made fit for a terminal.
func (t *terminal) say(format string, args ...any) {
	for line := range strings.SplitSeq(fmt.Sprintf(format, args...), "\n") {
		fmt.Fprintln(t.talk.out, screen.Visible(line))
	}
	t.talk.out.Flush()
}

// doing tells on a terminal what takes longer than a second, and for how long
// already, until the function that it returns is called.
func (t *terminal) doing(what string) (done func()) {
	const back, clear = "\r", "\x1b[K"
	if !t.talk.screen || t.talk.dumb {
		return func() {}
	}
	told := false
	stop := everySecond(func(seconds int) {
		told = true
		fmt.Fprintf(t.talk.out, "%s%s … %d s%s", back, what, seconds, clear)
		t.talk.out.Flush()
	})
	return func() {
		if stop(); told {
			fmt.Fprint(t.talk.out, back+clear)
			t.talk.out.Flush()
		}
	}
}

// onPaper is a stream into a file or memory, for text that nobody looks at yet.
func (t *terminal) onPaper(w io.Writer) *stream {
	return &stream{out: bufio.NewWriter(w), width: t.page}
}

// print writes text that the program has composed: help and pages.
func (s *stream) print(text string) error {
	_, err := s.out.WriteString(text)
	return s.flush(err)
}

// flush ends a piece of output; err is what went wrong with it before it came
// to writing.
func (s *stream) flush(err error) error {
	failed := s.out.Flush()
	if s.pager != nil {
		failed = errors.Join(failed, s.pager.show())
	}
	if failed != nil {
		return fmt.Errorf("the output can't be written: %w", reason(failed))
	}
	return err
}

// findings writes what a run of the linter found.
func (s *stream) findings(form render.Form, r render.Result) error {
	return s.flush(form.Write(s.out, r, render.Options{Width: s.width, Colour: s.colour}))
}

// write writes what f writes.
func (s *stream) write(f func(io.Writer) error) error { return s.flush(f(s.out)) }

// atOnce shows long text without a pager.
func (s *stream) atOnce() {
	if s.pager != nil {
		s.pager.command = ""
	}
}

// live is a writer from which every write goes out at once, to a program that
// waits for it.
func (s *stream) live() io.Writer { return live{s} }

type live struct{ *stream }

func (l live) Write(b []byte) (int, error) {
	n, err := l.out.Write(b)
	return n, l.flush(err)
}

// paint is a function that colours text for the stream.
func (s *stream) paint(attributes ...color.Attribute) func(string) string {
	c := color.New(attributes...)
	if s.colour {
		c.EnableColor()
	} else {
		c.DisableColor()
	}
	return func(text string) string { return c.Sprint(text) }
}

// heading is the style of headings in help and pages.
func (s *stream) heading(text string) string { return s.paint(color.Bold)(text) }

// style is how the text of a report is coloured.
func (s *stream) style() table.Style {
	return table.Style{
		Heading: s.paint(color.Bold),
		Strong:  s.paint(color.FgGreen),
		Dim:     s.paint(color.Faint),
		Warn:    s.paint(color.FgYellow),
	}
}
