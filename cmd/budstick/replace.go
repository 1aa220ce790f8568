package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// errChanged says that a file is not what it was when it was read.
var errChanged = errors.New("it was changed by someone else meanwhile, so it is left alone; run this again")

// rewriteFile puts b in place of what a file was when it was read, nil meaning
// that it was not there. Runs that write in one folder wait for one another, and
// what was changed since it was read is left alone: the error is then errChanged.
func rewriteFile(path string, was, b []byte) error {
	target := behindLinks(path)
	unlock, err := lockFolder(filepath.Dir(target))
	if err != nil {
		return cannotWrite(path, err)
	}
	defer unlock()
	now, err := os.ReadFile(target)
	switch {
	case errors.Is(err, fs.ErrNotExist) && was == nil:
	case err != nil:
		return cannotWrite(path, err)
	case was == nil, !bytes.Equal(now, was):
		return cannotWrite(path, errChanged)
	}
	return replaceFile(path, b)
}

// replaceFile puts b in place of what a file holds, or makes the file: it
// writes a new file beside it, sees it safe on the disk, and gives it the name
// in one step. So whoever reads the file finds the old text or the new, also
// after a loss of power, and when anything fails the old one is untouched. The
// file keeps its mode; where the name is a link, the file behind it is replaced.
func replaceFile(path string, b []byte) error {
	return replaceWith(path, func(w io.Writer) error {
		_, err := w.Write(b)
		return err
	})
}

// replaceWith does the same with what is written as it comes.
func replaceWith(path string, write func(io.Writer) error) error {
	target := behindLinks(path)
	mode := fs.FileMode(0o644)
	if info, err := os.Stat(target); err == nil {
		if !info.Mode().IsRegular() {
			return cannotWrite(path, errors.New("it is no file but a folder, a pipe or a device"))
		}
		mode = info.Mode().Perm()
	}
	if err := files.replace(target, write, mode); err != nil {
		return cannotWrite(path, err)
	}
	return nil
}

// behindLinks is the name of the file itself, where path is a link to it.
func behindLinks(path string) string {
	if target, err := filepath.EvalSymlinks(path); err == nil {
		return target
	}
	return path
}

func cannotWrite(path string, err error) error {
	return fmt.Errorf("%s can't be written: %w", path, reason(err))
}

// files is how all files are written. Tests put in a disk that fails.
var files = disk{
	create: func(folder, pattern string) (draft, error) { return os.CreateTemp(folder, pattern) },
	rename: os.Rename,
	sync:   syncFolder,
}

// A disk is the steps in which a file is written.
type disk struct {
	create func(folder, pattern string) (draft, error)
	rename func(from, to string) error
	sync   func(folder string) error
}

// A draft is a new file that has no name of its own yet.
type draft interface {
	io.WriteCloser
	Name() string
	Chmod(fs.FileMode) error
	Sync() error
}

func (d disk) replace(path string, write func(io.Writer) error, mode fs.FileMode) error {
	// The name begins with a dot, so a run at the same time does not read it.
	f, err := d.create(filepath.Dir(path), "."+filepath.Base(path)+".*")
	if err != nil {
		return err
	}
	if err = fill(f, write, mode); err == nil {
		err = d.rename(f.Name(), path)
	}
	if err != nil {
		os.Remove(f.Name())
		return err
	}
	return d.sync(filepath.Dir(path))
}

// fill writes a new file to the disk and closes it.
func fill(f draft, write func(io.Writer) error, mode fs.FileMode) error {
	err := write(f)
	for _, step := range []func() error{func() error { return f.Chmod(mode) }, f.Sync} {
		if err == nil {
			err = step()
		}
	}
	if closing := f.Close(); err == nil {
		err = closing
	}
	return err
}

// syncFolder makes a new name safe on the disk too. Some systems can't, and the
// file is whole without it, so its failure is none.
func syncFolder(path string) error {
	if d, err := os.Open(path); err == nil {
		_ = d.Sync()
		return d.Close()
	}
	return nil
}
