package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"
	"syscall"

	"github.com/fsnotify/fsnotify"
	"github.com/spf13/pflag"

	"github.com/budstick/budstick/report"
)

// watchCommand is made when it is asked for, since it runs other commands and is
// one itself.
func watchCommand() *command {
	return &command{
		name:    "watch",
		summary: "look the journal over, and make a report of it, again at each save",
		usage:   filesUsage + " [-- REPORT …]",
		long: `Does what lint does each time that one of the journals is saved, by whatever editor, or that one comes or goes. Behind -- stands
a report with its flags, that is made as well where there is no error. Ctrl-C ends it.

` + aboutFiles,
		example: "-- take --by method,worker",
		setup: func(flags *pflag.FlagSet) action {
			return func(t *terminal, args []string) (status, error) {
				paths, wanted := args, []string(nil)
				if dash := flags.ArgsLenAtDash(); dash >= 0 {
					paths, wanted = args[:dash], args[dash:]
				}
				return watch(t, paths, wanted)
			}
		},
	}
}

// watch runs until it is told to end. What can't be done once may be done at the
// next save, so it goes on.
func watch(t *terminal, paths, wanted []string) (status, error) {
	if err := watchable(paths, wanted); err != nil {
		return statusCannot, err
	}
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return statusCannot, fmt.Errorf("the files can't be watched: %w", err)
	}
	defer w.Close()
	v := vigil{w, paths}
	if err := v.begin(); err != nil {
		return statusCannot, err
	}
	ended, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	t.data.atOnce()
	still := newLull()
	for {
		select {
		case <-ended.Done():
			return statusDone, nil
		case e := <-w.Events:
			if v.matters(e) {
				still.stir()
			}
		case err := <-w.Errors:
			t.say("budstick: %v", err)
		case <-still.told():
			lookAgain(t, paths, wanted)
		}
	}
}

// watchable finds what is wrong with the arguments before it would be said at
// each save.
func watchable(paths, wanted []string) error {
	if slices.Contains(paths, stdinFile) {
		return usageError{"standard input can't be watched", "budstick watch --help"}
	}
	if len(wanted) == 0 {
		return nil
	}
	if _, ok := report.Named(wanted[0]); ok {
		return nil
	}
	names := make([]string, len(report.All))
	for i, r := range report.All {
		names[i] = r.Name
	}
	return usageError{fmt.Sprintf("%s is no report%s", wanted[0], orMeant(wanted[0], names)), "budstick help"}
}

// lookAgain lints the journal and, where it has no error, makes the report.
func lookAgain(t *terminal, paths, wanted []string) {
	t.say("\n%s", timeOfDay())
	runs := [][]string{append([]string{lintCommand.name, "--"}, paths...)}
	if len(wanted) > 0 {
		runs = append(runs, slices.Concat(wanted, []string{"--"}, paths))
	}
	for _, args := range runs {
		code, err := dispatch(t, args)
		if err != nil {
			t.complain(err)
		}
		if code != statusDone {
			return
		}
	}
}

// A vigil watches the folders that journals lie in. Many editors write a new file
// and give it the name of the old one, so it is no use to watch the files.
type vigil struct {
	*fsnotify.Watcher
	paths []string
}

// begin watches the folders of all journals, and those in which new ones may
// come.
func (v vigil) begin() error {
	paths := v.paths
	if len(paths) == 0 {
		paths = []string{"."}
	}
	for _, path := range paths {
		info, err := os.Stat(path)
		switch {
		case err != nil:
			return unreadable(path, err)
		case info.IsDir():
			err = v.folders(path)
		default:
			err = errors.Join(v.Add(filepath.Dir(path)), v.Add(filepath.Dir(behindLinks(path))))
		}
		if err != nil {
			return fmt.Errorf("%s can't be watched: %w", path, err)
		}
	}
	return nil
}

// folders watches a folder and those below it that are read.
func (v vigil) folders(root string) error {
	return filepath.WalkDir(root+string(filepath.Separator), func(path string, e fs.DirEntry, err error) error {
		if err != nil || !e.IsDir() {
			return nil // what can't be read is told when it is read
		}
		if strings.HasPrefix(e.Name(), ".") && filepath.Clean(path) != filepath.Clean(root) {
			return fs.SkipDir
		}
		return v.Add(path)
	})
}

// matters reports whether something happened to a journal. A new folder is
// watched from now on, and there may be journals in it already.
func (v vigil) matters(e fsnotify.Event) bool {
	if e.Op == fsnotify.Chmod || strings.HasPrefix(filepath.Base(e.Name), ".") {
		return false
	}
	if info, err := os.Stat(e.Name); err == nil && info.IsDir() {
		return e.Has(fsnotify.Create) && v.folders(e.Name) == nil
	}
	named := slices.ContainsFunc(v.paths, func(path string) bool {
		return filepath.Base(path) == filepath.Base(e.Name) || filepath.Base(behindLinks(path)) == filepath.Base(e.Name)
	})
	return named || strings.HasSuffix(e.Name, suffix)
}
