package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/guard"
	"github.com/budstick/budstick/grammar/render"
	"github.com/budstick/budstick/grammar/screen"
	"github.com/budstick/budstick/grammar/source"
)

var guardCommand = &command{
	name:    "guard",
	summary: "see that every committed entry still stands, in its place and with its meaning",
	long: `Compares each journal of the last commit with the file at hand, or with what is staged. Every committed entry must stand in
its place with its meaning unchanged, and above a seal every byte. What format tidies below the last seal passes, and is
said. Anything else is refused, with the entry then and now.

While a branch is being merged, its entries must stand in what is staged too: under the last day, with happened and the day
it was, where days have gone on.

A record is put right by adding to it: strike the entry that was wrong, with the reason, and write the right one below.`,
	example: "--staged",
	setup: func(flags *pflag.FlagSet) action {
		onlyStaged, since := false, lastOnes
		flags.BoolVar(&onlyStaged, "staged", false, "look at what is staged, instead of the files at hand")
		flags.StringVar(&since, "since", since, "compare with this `COMMIT`")
		return func(t *terminal, args []string) (status, error) {
			if len(args) > 0 {
				return statusCannot, usageError{"guard looks at all journals of the checkout and takes no files", "budstick guard --help"}
			}
			r, err := repositoryHere()
			if err != nil {
				return statusCannot, err
			}
			list, err := r.guard(t, since, onlyStaged)
			if err != nil {
				return statusCannot, err
			}
			return tellOf(t, list)
		}
	},
}

// tellOf writes findings as lint does, and ends as lint does.
func tellOf(t *terminal, list []finding.Finding) (status, error) {
	if err := t.data.findings(render.All[0], render.Result{Findings: list}); err != nil {
		return statusCannot, err
	}
	if len(list) > 0 {
		return statusFound, nil
	}
	return statusDone, nil
}

// guard compares all journals of a commit with what became of them.
func (r repository) guard(t *terminal, since string, onlyStaged bool) ([]finding.Finding, error) {
	committed, err := r.files(since)
	if err != nil {
		return nil, err
	}
	now, err := r.now(onlyStaged)
	if err != nil {
		return nil, err
	}
	var list []finding.Finding
	for _, then := range committed {
		here, ok := becameOf(then, now, committed)
		if !ok {
			list = append(list, goneWhole(then, "was committed"))
			continue
		}
		v := guard.Compare(then, here)
		list = append(list, v.Findings...)
		if v.Tidied {
			t.say("%s: the layout of committed entries was tidied; their meaning stands", screen.Visible(here.Path))
		}
	}
	if onlyStaged && r.has(joining) {
		lost, err := r.lostInMerge(now)
		if err != nil {
			return nil, err
		}
		list = append(list, lost...)
	}
	return finding.Sort(list), nil
}

// lostInMerge looks for what the branch that is being merged holds.
func (r repository) lostInMerge(now []*source.File) ([]finding.Finding, error) {
	theirs, err := r.files(joining)
	if err != nil {
		return nil, err
	}
	var list []finding.Finding
	for _, then := range theirs {
		here, ok := becameOf(then, now, theirs)
		if !ok {
			list = append(list, goneWhole(then, "is in the branch that is merged"))
			continue
		}
		list = append(list, guard.Lost(then, here)...)
	}
	return list, nil
}

// goneWhole says that a whole journal is not there any more.
func goneWhole(then *source.File, was string) finding.Finding {
	return finding.Finding{
		File: source.New(then.Path, nil), Severity: finding.Error, Rule: guard.Rule,
		Message: "this journal " + was + " and is gone; bring it back, or move it whole under another name",
	}
}

// becameOf is the file that another one is now: that of its name or, where there
// is none, a new one that begins as it did.
func becameOf(then *source.File, now, committed []*source.File) (*source.File, bool) {
	i := slices.IndexFunc(now, func(f *source.File) bool { return f.Path == then.Path })
	if i < 0 {
		i = movedTo(then, now, committed)
	}
	if i < 0 {
		return nil, false
	}
	return now[i], true
}

// now reads the journals as they are: as staged, or as the files at hand.
func (r repository) now(onlyStaged bool) ([]*source.File, error) {
	if onlyStaged {
		return r.files(staged)
	}
	paths, err := below(r.top)
	if err != nil {
		return nil, err
	}
	list := make([]*source.File, 0, len(paths))
	for _, path := range paths {
		b, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		name, err := filepath.Rel(r.top, path)
		if err != nil {
			return nil, err
		}
		list = append(list, source.New(filepath.ToSlash(name), b))
	}
	return list, nil
}

// movedTo finds a new file that begins as a vanished one did, or -1.
func movedTo(then *source.File, now, committed []*source.File) int {
	return slices.IndexFunc(now, func(f *source.File) bool {
		old := slices.ContainsFunc(committed, func(c *source.File) bool { return c.Path == f.Path })
		return !old && bytes.HasPrefix(f.Bytes, then.Bytes) && len(then.Bytes) > 0
	})
}
