//go:build unix

package main

import (
	"os"
	"syscall"
)

// lockFolder keeps other runs from writing in a folder until the function that
// it returns is called, or the program ends in whatever way. It waits its turn.
func lockFolder(path string) (unlock func(), err error) {
	d, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	if err := syscall.Flock(int(d.Fd()), syscall.LOCK_EX); err != nil {
		d.Close()
		return nil, err
	}
	return func() { d.Close() }, nil
}
