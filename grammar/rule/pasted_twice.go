package rule

import (
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var pastedTwice = &Rule{
	Name: "pasted-twice", Severity: finding.Warning,
	Summary: "the same entry stands twice on one day",
	Why:     "A line pasted twice sells the same plants twice. If both are meant, a note or the buyer's name on one of them says so.",
	Bad:     bench + "2026-11-20\nsell 5 of AM26 to Bob at 19.00 each\nsell 5 of AM26 to Bob at 19.00 each\n",
	Good:    bench + "2026-11-20\nsell 5 of AM26 to Bob at 19.00 each\nsell 5 of AM26 to Bob at 19.00 each note \"came back for more\"\n",
	check: func(p *pass) {
		ask := func(e, before *fact.Entry, about string) {
			f := p.reportf(e, firstLine(e), []string{about}, "this stands twice on %s, word for word; strike one of them, or put a note on it if both are meant", e.Date.Long())
			also(f, before, "the first")
		}
		p.lots(func(l *nursery.Lot) {
			for i, e := range l.Entries {
				for j := i - 1; j >= max(0, i-nearby) && l.Entries[j].Date == e.Date; j-- {
					if before := l.Entries[j]; before != e && sameEntry(before, e) && namesFirst(e, l.Name) {
						ask(e, before, l.Name)
						break
					}
				}
			}
		})
		day := map[string]*fact.Entry{}
		var today fact.Date
		p.entries(func(e *fact.Entry) {
			switch e.Effect.(type) {
			case *fact.Spend, *fact.Work, *fact.Pick:
			default:
				return
			}
			if e.Date != today {
				today = e.Date
				clear(day)
			}
			text := words(e.File.Text(e.Span))
			if before := day[text]; before != nil {
				ask(e, before, e.Verb)
			} else {
				day[text] = e
			}
		})
	},
}

// nearby is how many entries of a lot on one day are compared with each.
const nearby = 12

// sameEntry reports whether two entries say the same, word for word.
func sameEntry(a, b *fact.Entry) bool {
	const glance = 12 // bytes; mostly enough to see a difference
	x, y := a.File.Text(a.Span), b.File.Text(b.Span)
	return x[:min(glance, len(x))] == y[:min(glance, len(y))] && words(x) == words(y)
}

// words is the text of an entry without its comments, and with one blank for
// every run of them.
func words(text string) string {
	if !strings.ContainsAny(text, "#\n\t") && !strings.Contains(text, "  ") {
		return text
	}
	var out []string
	for line := range strings.Lines(text) {
		quoted := false
		end := strings.IndexFunc(line, func(c rune) bool {
			quoted = quoted != (c == '"')
			return c == '#' && !quoted
		})
		if end >= 0 {
			line = line[:end]
		}
		out = append(out, strings.Fields(line)...)
	}
	return strings.Join(out, " ")
}

// namesFirst reports whether the lot is the first that an entry names, so that
// an entry on several lots is reported once.
func namesFirst(e *fact.Entry, name string) bool {
	switch f := e.Effect.(type) {
	case *fact.Spend, *fact.Work:
		return false // asked about by day
	case *fact.Tend:
		return f.Lots[0].Text == name
	case *fact.Treat:
		return f.Of[0].Text == name
	case *fact.Inspect:
		return f.Of[0].Text == name
	case *fact.Remark:
		return len(f.Of) > 0 && f.Of[0].Text == name
	case *fact.Stocktake:
		return f.Lots[0].Text == name
	}
	return true
}
