package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// replaceFile puts b in place of what a file holds, or makes the file: it
// writes a new file beside it, sees it safe on the disk, and gives it the name
// in one step. So whoever reads the file finds the old text or the new, also
// after a loss of power, and when anything fails the old one is untouched. The
// file keeps its mode; where the name is a link, the file behind it is replaced.
func replaceFile(path string, b []byte) (err error) {
	defer func() {
		if err != nil {
			err = fmt.Errorf("%s can't be written: %w", path, reason(err))
		}
	}()
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	mode := fs.FileMode(0o644)
	if info, err := os.Stat(path); err == nil {
		if !info.Mode().IsRegular() {
			return fmt.Errorf("it is no file but a folder, a pipe or a device")
		}
		mode = info.Mode().Perm()
	}
	// The name begins with a dot, so a run at the same time does not read it.
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*")
	if err != nil {
		return err
	}
	if err := fill(f, b, mode); err != nil {
		os.Remove(f.Name())
		return err
	}
	if err := os.Rename(f.Name(), path); err != nil {
		os.Remove(f.Name())
		return err
	}
	return syncFolder(filepath.Dir(path))
}

// fill writes a new file to the disk and closes it.
func fill(f *os.File, b []byte, mode fs.FileMode) error {
	_, err := f.Write(b)
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
