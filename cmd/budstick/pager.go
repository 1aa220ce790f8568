package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"os/signal"

	"golang.org/x/term"
)

// A pager holds what is written to a terminal until a piece of output is whole.
// What is longer than the screen goes through the program of PAGER, or through
// less or more, and the rest straight to the screen.
type pager struct {
	screen  *os.File
	command string // for a shell (POSIX, "Environment Variables": PAGER); empty for none
	env     []string
	held    bytes.Buffer
}

func newPager(screen *os.File, env func(string) string) *pager {
	p := &pager{screen: screen, command: env("PAGER")}
	for _, name := range []string{"less", "more"} {
		if _, err := exec.LookPath(name); err == nil && p.command == "" {
			p.command = name
		}
	}
	if env("LESS") == "" {
		p.env = []string{"LESS=FR"} // to show colours, and to end at once where all fits
	}
	return p
}

func (p *pager) Write(b []byte) (int, error) { return p.held.Write(b) }

// show shows what is held.
func (p *pager) show() error {
	defer p.held.Reset()
	_, rows, err := term.GetSize(int(p.screen.Fd()))
	if err != nil || p.command == "" || bytes.Count(p.held.Bytes(), []byte("\n")) < rows || !p.run() {
		_, err := p.screen.Write(p.held.Bytes())
		return err
	}
	return nil
}

// The status with which a shell says that there is no such program, or none that
// it may run.
const notRun, notFound = 126, 127

// run shows what is held through the program, and reports whether that could be
// started. Ctrl-C is for the program alone.
func (p *pager) run() bool {
	interrupts := make(chan os.Signal, 1)
	signal.Notify(interrupts, os.Interrupt)
	defer signal.Stop(interrupts)
	c := exec.Command("sh", "-c", p.command)
	c.Env = append(c.Environ(), p.env...)
	c.Stdin, c.Stdout, c.Stderr = bytes.NewReader(p.held.Bytes()), p.screen, p.screen
	err := c.Run()
	var exit *exec.ExitError
	return err == nil || errors.As(err, &exit) && exit.ExitCode() != notFound && exit.ExitCode() != notRun
}
