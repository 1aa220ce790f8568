package rule

import (
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

var sealBroken = &Rule{
	Name: "seal-broken", Severity: finding.Error, binding: true,
	Summary: "something above a seal has been changed since it was sealed",
	Why: "A seal is the SHA-256 of all that stands above it, the seal before among it. It shows a buyer, an inspector or your own later self that the record " +
		"is what it was on the day it was closed. A slip above a seal is put right below it, with strike and a new entry. The bytes as they were are in the " +
		"version that was committed.",
	Bad:  strings.Replace(sealed(kestrel), "100 liners", "101 liners", 1),
	Good: sealed(kestrel),
	check: func(p *pass) {
		for _, page := range p.Pages {
			for i := range page.Entries {
				e := &page.Entries[i]
				f, ok := e.Effect.(*fact.Seal)
				if ok && !strings.EqualFold(f.Hash.Text, e.File.Digest(e.Span.Start)) {
					p.reportf(e, f.Hash.Span, nil, "what stands above this seal is not what was sealed; bring the old text back (the last commit has it), and put a slip right by strike and a new entry below")
					break // the seals that follow hash this one's text too
				}
			}
		}
	},
}

// sealed closes a journal.
func sealed(journal string) string {
	return journal + "seal sha256 " + source.New("", []byte(journal)).Digest(int32(len(journal))) + "\n"
}
