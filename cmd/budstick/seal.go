package main

import (
	"bytes"
	"fmt"
	"slices"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/source"
)

var sealCommand = &command{
	name:    "seal",
	summary: "close the journal so far, so that any later change above is found",
	usage:   filesUsage,
	long: `Writes a seal at the end of each file, or of that of --only: the SHA-256 of all that stands above it, the seal before among
it. lint then finds any change above a seal, format and rename leave it alone, and guard refuses it. A journal with errors is
not sealed, since a slip above a seal can't be mended any more, only struck.

` + aboutFiles,
	example: "--only season-2025.bud",
	setup: func(flags *pflag.FlagSet) action {
		only := ""
		flags.StringVar(&only, "only", "", "seal `FILE` alone, of those that are read")
		return func(t *terminal, args []string) (status, error) { return seal(t, args, only) }
	},
}

func seal(t *terminal, args []string, only string) (status, error) {
	if slices.Contains(args, stdinFile) {
		return statusCannot, usageError{"a seal is written into a file, and standard input is none", "budstick seal --help"}
	}
	j, err := load(t, args, "")
	if err != nil {
		return statusCannot, err
	}
	_, found := j.lint(t)
	if errs := errorsIn(found); len(errs) > 0 {
		return refuseFor(t, errs, "so nothing is sealed")
	}
	pages := j.pages
	if only != "" {
		i, err := j.at(only)
		if err != nil {
			return statusCannot, err
		}
		pages = pages[i : i+1]
	}
	for _, p := range pages {
		if err := sealPage(t, p); err != nil {
			return statusCannot, err
		}
	}
	return statusDone, nil
}

// sealPage seals one file, if anything stands below its last seal.
func sealPage(t *terminal, p *entry.Page) error {
	if n := len(p.Entries); n == 0 || isSeal(p.Entries[n-1]) {
		t.say("%s: nothing stands below the last seal", p.File.Path)
		return nil
	}
	text := p.File.Bytes
	end := lineEnding(text)
	if !bytes.HasSuffix(text, []byte("\n")) {
		text = append(bytes.Clone(text), end...)
	}
	digest := source.New(p.File.Path, text).Digest(int32(len(text)))
	sealed := append(bytes.Clone(text), fmt.Sprintf("seal sha256 %s%s", digest, end)...)
	if err := rewriteFile(p.File.Path, p.File.Bytes, sealed); err != nil {
		return err
	}
	t.say("%s: sealed", p.File.Path)
	return nil
}

func isSeal(e fact.Entry) bool { _, ok := e.Effect.(*fact.Seal); return ok }

// lineEnding is what ends the first line of a text: LF where there is none.
func lineEnding(text []byte) string {
	if i := bytes.IndexByte(text, '\n'); i > 0 && text[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}
