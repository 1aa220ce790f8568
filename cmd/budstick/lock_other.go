//go:build !unix

package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// lockFolder keeps other runs from writing in a folder until the function that
// it returns is called, by a file that only one run can make. It waits its turn
// for some seconds.
func lockFolder(path string) (unlock func(), err error) {
	name := filepath.Join(path, ".budstick.lock")
	for range 100 {
		f, err := os.OpenFile(name, os.O_CREATE|os.O_EXCL, 0o644)
		if err == nil {
			f.Close()
			return func() { os.Remove(name) }, nil
		}
		if !errors.Is(err, fs.ErrExist) {
			return nil, err
		}
		time.Sleep(100 * time.Millisecond)
	}
	return nil, errors.New("another run is writing here; if none is, remove " + name)
}
