package main

import (
	"bytes"
	"errors"
	"fmt"
	"os/exec"
	"strings"

	"github.com/budstick/budstick/grammar/source"
)

// A repository is a git checkout, asked through git itself. Paths in it are
// relative to its top, as git lists them, whatever signs they hold.
type repository struct{ top string }

// repositoryHere is the checkout of the folder at hand.
func repositoryHere() (repository, error) {
	out, err := git("", "rev-parse", "--show-toplevel")
	if err != nil {
		return repository{}, fmt.Errorf("this needs a git checkout: %w", err)
	}
	return repository{strings.TrimSuffix(string(out), "\n")}, nil
}

// git runs git in a folder and returns what it prints.
func git(folder string, args ...string) ([]byte, error) {
	c := exec.Command("git", args...)
	c.Dir = folder
	out, err := c.Output()
	var failed *exec.ExitError
	if errors.As(err, &failed) {
		if said := strings.TrimSpace(string(failed.Stderr)); said != "" {
			return nil, errors.New(said)
		}
	}
	return out, err
}

// journals lists the journal files of a version: "HEAD", or "" for what is
// staged. A repository without a commit has none in HEAD.
func (r repository) journals(version string) ([]string, error) {
	args := []string{"ls-files", "-z"}
	if version != "" {
		if _, err := git(r.top, "rev-parse", "--verify", "--quiet", version); err != nil {
			return nil, nil
		}
		args = []string{"ls-tree", "-r", "-z", "--name-only", version}
	}
	out, err := git(r.top, args...)
	if err != nil {
		return nil, err
	}
	var list []string
	for path := range bytes.SplitSeq(out, []byte{0}) {
		if bytes.HasSuffix(path, []byte(suffix)) {
			list = append(list, string(path))
		}
	}
	return list, nil
}

// file reads a journal of a version.
func (r repository) file(version, path string) (*source.File, error) {
	b, err := git(r.top, "cat-file", "blob", version+":"+path)
	if err != nil {
		return nil, err
	}
	return source.New(path, b), nil
}

// files reads all journals of a version.
func (r repository) files(version string) ([]*source.File, error) {
	paths, err := r.journals(version)
	if err != nil {
		return nil, err
	}
	list := make([]*source.File, 0, len(paths))
	for _, path := range paths {
		f, err := r.file(version, path)
		if err != nil {
			return nil, err
		}
		list = append(list, f)
	}
	return list, nil
}
