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
func git(folder string, args ...string) ([]byte, error) { return gitWith(nil, folder, args...) }

// gitWith is git with something to read on its standard input.
func gitWith(in []byte, folder string, args ...string) ([]byte, error) {
	c := exec.Command("git", args...)
	c.Dir, c.Stdin = folder, bytes.NewReader(in)
	out, err := c.Output()
	var failed *exec.ExitError
	if errors.As(err, &failed) {
		if said := strings.TrimSpace(string(failed.Stderr)); said != "" {
			return nil, errors.New(said)
		}
	}
	return out, err
}

// The versions of a checkout that are named in no other way.
const (
	staged   = ""           // what the next commit will hold
	lastOnes = "HEAD"       // what the last commit holds
	joining  = "MERGE_HEAD" // what the branch holds that is being merged, if one is
)

// has reports whether there is a commit of the name.
func (r repository) has(commit string) bool {
	_, err := git(r.top, "rev-parse", "--verify", "--quiet", commit+"^{commit}")
	return err == nil
}

// A blob is a journal as git keeps it.
type blob struct{ path, id string }

// plainMode begins the mode of a plain file. A link is none: what it leads to is
// listed too, or is not of this checkout.
const plainMode = "100"

// journals lists the journals of a version. As when a folder is read, what
// begins with a dot is passed over. A checkout without a commit has none in HEAD.
func (r repository) journals(version string) ([]blob, error) {
	args := []string{"ls-files", "--stage", "-z"}
	if version != staged {
		switch {
		case r.has(version):
		case version == lastOnes:
			return nil, nil
		default:
			return nil, fmt.Errorf("there is no commit %s", version)
		}
		args = []string{"ls-tree", "-r", "-z", version}
	}
	out, err := git(r.top, args...)
	if err != nil {
		return nil, err
	}
	var list []blob
	for line := range strings.SplitSeq(string(out), "\x00") {
		about, path, _ := strings.Cut(line, "\t")
		if !strings.HasSuffix(path, suffix) || strings.HasPrefix(path, ".") || strings.Contains(path, "/.") || !strings.HasPrefix(about, plainMode) {
			continue
		}
		// A mode, an id and a stage; or a mode, a type and an id.
		words := strings.Fields(about)
		switch {
		case version == staged && words[2] != "0":
			return nil, fmt.Errorf("%s is in the middle of a merge; settle what the two sides have there, and then: git add", path)
		case version == staged:
			list = append(list, blob{path, words[1]})
		default:
			list = append(list, blob{path, words[2]})
		}
	}
	return list, nil
}

// files reads all journals of a version.
func (r repository) files(version string) ([]*source.File, error) {
	blobs, err := r.journals(version)
	if err != nil {
		return nil, err
	}
	var ask bytes.Buffer
	for _, b := range blobs {
		ask.WriteString(b.id + "\n")
	}
	out, err := gitWith(ask.Bytes(), r.top, "cat-file", "--batch")
	if err != nil {
		return nil, err
	}
	list := make([]*source.File, len(blobs))
	for i, b := range blobs {
		var text []byte
		if text, out, err = nextBlob(out); err != nil {
			return nil, fmt.Errorf("%s can't be read from git: %w", b.path, err)
		}
		list[i] = source.New(b.path, text)
	}
	return list, nil
}

// nextBlob takes the first answer from what cat-file --batch prints: a line with
// an id, a type and a length, so many bytes, and the end of a line.
func nextBlob(out []byte) (text, rest []byte, err error) {
	head, rest, _ := bytes.Cut(out, []byte{'\n'})
	var id, kind string
	var length int
	if _, err := fmt.Sscan(string(head), &id, &kind, &length); err != nil || kind != "blob" || length >= len(rest) {
		return nil, nil, fmt.Errorf("git says %q", head)
	}
	return rest[:length:length], rest[length+1:], nil
}
