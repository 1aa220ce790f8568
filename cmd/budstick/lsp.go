package main

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/lsp"
	"github.com/budstick/budstick/grammar/source"
)

var lspCommand = &command{
	name:    "lsp",
	summary: "serve an editor: findings, names and layout while one writes",
	long: `It speaks the Language Server Protocol 3.17 on standard input and output, so an editor starts it and not a person. The journals
in the folder that is open in the editor, and below it, are one journal; a file that lies in no such folder is one with those
beside it.

A name is changed everywhere or nowhere: where it stands above a seal, or in what git has committed, it stays as it is.`,
	example: "--stdio",
	setup:   setupLSP,
}

// setupLSP takes the flag that some editors give every server; there is no
// other way to talk.
func setupLSP(flags *pflag.FlagSet) action {
	flags.Bool("stdio", true, "talk on standard input and output, as it always does")
	return serve
}

// seldom is how far a server's memory may grow, in per cent, before what is no
// longer used of it is looked for: between often and rarely, since it stays
// beside much else and is waited for at each keystroke. With a journal of
// 100,000 entries it then takes 320 MB, and with often 220.
const seldom = 200

func serve(t *terminal, args []string) (status, error) {
	if len(args) > 0 {
		return statusCannot, usageError{"lsp is told by the editor what to read; leave out " + args[0], "budstick lsp --help"}
	}
	debug.SetGCPercent(seldom)
	in, ok := t.in.(io.ReadCloser)
	if !ok {
		in = io.NopCloser(t.in)
	}
	return status(lsp.Serve(context.Background(), in, t.data.live(), lsp.Options{
		Version:   strings.TrimPrefix(version(), "budstick "),
		Today:     today,
		Journals:  journalsIn,
		File:      fileNamed,
		Committed: committed,
	})), nil
}

// journalsIn reads the journals in a folder, and with deep in those below it. A
// folder that is not there holds none: a file may be open that was never saved.
func journalsIn(folder string, deep bool) ([]*source.File, error) {
	if _, err := os.Stat(folder); errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	list := beside
	if deep {
		list = below
	}
	paths, err := list(folder)
	faults := []error{err}
	var files []*source.File
	for _, path := range distinct(paths) {
		f, err := fileNamed(path)
		if faults = append(faults, err); err == nil {
			files = append(files, f)
		}
	}
	return files, errors.Join(faults...)
}

// beside lists the journals that lie in a folder itself.
func beside(folder string) ([]string, error) {
	entries, err := os.ReadDir(folder)
	faults := []error{err}
	var paths []string
	for _, e := range entries {
		path := filepath.Join(folder, e.Name())
		if strings.HasPrefix(e.Name(), ".") || !strings.HasSuffix(path, suffix) {
			continue
		}
		ok, err := isJournal(path)
		if faults = append(faults, err); ok {
			paths = append(paths, path)
		}
	}
	return paths, errors.Join(faults...)
}

func fileNamed(path string) (*source.File, error) {
	b, err := readFile(path)
	if err != nil {
		return nil, unreadable(path, err)
	}
	return source.New(path, b), nil
}

// committed is a file as git has it in HEAD, or nil where git does not have it or
// is not there.
func committed(path string) (*source.File, error) {
	folder := filepath.Dir(path)
	if _, err := git(folder, "rev-parse", "--verify", "--quiet", "HEAD"); err != nil {
		return nil, nil
	}
	name := "HEAD:./" + filepath.Base(path)
	if _, err := git(folder, "cat-file", "-e", name); err != nil {
		return nil, nil
	}
	b, err := git(folder, "cat-file", "blob", name)
	if err != nil {
		return nil, err
	}
	return source.New(path, b), nil
}
