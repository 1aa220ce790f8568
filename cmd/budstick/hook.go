package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
)

var hookCommand = &command{
	name:    "hook",
	summary: "have git look a journal over before each commit",
	usage:   "install | remove | run",
	long: `install puts a pre-commit hook into this checkout (also where core.hooksPath says so, and in a worktree), and the like
before a merge. It never overwrites a hook of somebody else's: then it says what to add to that one. remove takes it out
again.

run is what the hook calls: it lints the journals as they are staged, not as they lie in the folder, and refuses a commit
that has an error in it or that changes what was committed before (see guard). Where git commits by itself, as revert and
rebase do, it asks no hook: let a server run guard --since with the commit that it had.`,
	example: "install",
	setup: func(*pflag.FlagSet) action {
		acts := map[string]func(*terminal, repository) (status, error){"install": installHook, "remove": removeHook, "run": runHook}
		return func(t *terminal, args []string) (status, error) {
			if len(args) != 1 || acts[args[0]] == nil {
				return statusCannot, usageError{"hook takes one word: install, remove or run", "budstick hook --help"}
			}
			r, err := repositoryHere()
			if err != nil {
				return statusCannot, err
			}
			return acts[args[0]](t, r)
		}
	},
}

// hookLine is the one line that does the work, wherever it stands.
const hookLine = "budstick hook run"

// hookText is the whole hook, by which it is told from hooks of others. Where git
// is started from a window, its PATH may be another than that of a terminal.
const hookText = `#!/bin/sh
# Put here by budstick hook install; budstick hook remove takes it out.
if ! command -v budstick >/dev/null; then
  echo "budstick is not where git looks for programs (PATH), so nobody looks the journals over." >&2
  echo "Put it there; until then git commit --no-verify commits without." >&2
  exit 1
fi
exec ` + hookLine + `
`

// hookNames are what git runs before a commit, and before one that it makes by
// itself when a branch is merged.
var hookNames = []string{"pre-commit", "pre-merge-commit"}

// A hook is one of those of this checkout, as it is.
type hook struct {
	path string
	text string // of the file
	is   bool   // there is something
}

func (h hook) ours() bool { return h.is && h.text == hookText }

// hooks reads the hooks of this checkout, where git looks for them.
func hooks(r repository) ([]hook, error) {
	var list []hook
	for _, name := range hookNames {
		out, err := git(r.top, "rev-parse", "--git-path", "hooks/"+name)
		if err != nil {
			return nil, err
		}
		h := hook{path: strings.TrimSuffix(string(out), "\n")}
		if !filepath.IsAbs(h.path) {
			h.path = filepath.Join(r.top, h.path)
		}
		if _, err := os.Lstat(h.path); err == nil {
			h.is = true
			// What can't be read, such as a link to nothing, is not ours.
			text, _ := os.ReadFile(h.path)
			h.text = string(text)
		}
		list = append(list, h)
	}
	return list, nil
}

func installHook(t *terminal, r repository) (status, error) {
	list, err := hooks(r)
	if err != nil {
		return statusCannot, err
	}
	for _, h := range list {
		if h.is && !strings.Contains(h.text, hookLine) {
			return statusCannot, fmt.Errorf("%s is there already and is not ours; add this line to it, and then run this again: %s || exit 1", h.path, hookLine)
		}
	}
	for _, h := range list {
		if h.is {
			t.say("it is called there already: %s", h.path)
			continue
		}
		if err := os.MkdirAll(filepath.Dir(h.path), 0o755); err != nil {
			return statusCannot, cannotWrite(h.path, err)
		}
		if err := replaceFile(h.path, []byte(hookText)); err != nil {
			return statusCannot, err
		}
		if err := os.Chmod(h.path, 0o755); err != nil {
			return statusCannot, cannotWrite(h.path, err)
		}
		t.say("git now looks the journals over before each commit: %s", h.path)
	}
	return statusDone, nil
}

func removeHook(t *terminal, r repository) (status, error) {
	list, err := hooks(r)
	if err != nil {
		return statusCannot, err
	}
	code := statusDone
	for _, h := range list {
		switch {
		case !h.is:
			t.say("there is no hook %s", h.path)
		case !h.ours():
			t.say("%s is not the hook that budstick put there, so it is left alone", h.path)
			code = statusCannot
		default:
			if err := os.Remove(h.path); err != nil {
				return statusCannot, cannotWrite(h.path, err)
			}
			t.say("the hook is gone: %s", h.path)
		}
	}
	return code, nil
}

// runHook lints what is staged and guards what was committed.
func runHook(t *terminal, r repository) (status, error) {
	files, err := r.files(staged)
	if err != nil {
		return statusCannot, err
	}
	pages := make([]*entry.Page, len(files))
	each(len(files), func(i int) { pages[i] = entry.Read(files[i]) })
	_, found := journal{pages}.lint(t)
	list := errorsIn(found)
	changed, err := r.guard(t, lastOnes, true)
	if err != nil {
		return statusCannot, err
	}
	list = finding.Sort(append(list, changed...))
	code, err := tellOf(t, list)
	if code == statusFound {
		t.say("\nThe commit is refused: %s in the journals as they are staged.", tally(list))
	}
	return code, err
}
