package rule

import (
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The rules about what was not written, or was written twice.
var (
	unusedLot = &Rule{
		Name: "unused-lot", Severity: finding.Hint, Limits: []string{"unused-lot"},
		Summary: "plants are on hand of which nothing was heard for a long time",
		Why:     "They were forgotten, or died or were sold without a word. Count them, or write what became of them.",
		Bad:     kestrel + "2027-03-02\nnote M7 \"in bloom\"\n",
		Good:    kestrel + "2026-11-02\ncount QB25 100\n2027-03-02\nnote M7 \"in bloom\"\n",
		check: func(p *pass) {
			after := p.gauge("unused-lot")
			p.lots(func(l *nursery.Lot) {
				last := l.Entries[len(l.Entries)-1]
				if p.Last-last.Date < 90 || l.Free(fact.AnyState) == 0 || last.Date == 0 {
					return
				}
				if most, ok := after.of(p.Last, l.Top.Variety, nil); ok && p.Last-last.Date > most.Days() {
					p.reportf(last, firstLine(last), []string{l.Name}, "this is the last word on %s, of which %s are on hand %d days later (%s is long, %s); count them, or say what became of them",
						l.Name, plants(l.Free(fact.AnyState)), p.Last-last.Date, most, most.Mark)
				}
			})
		},
	}
	dateGap = &Rule{
		Name: "date-gap", Severity: finding.Warning, Limits: []string{"date-gap"},
		Summary: "a day follows years after the one before",
		Why: "Mostly a slip in the year, and all that follows would have to be dated after it. The tool does not look at the clock: a journal must lint the same " +
			"in ten years.",
		Bad:  kestrel + "2062-03-02\nlose QB25 to frost\ncause frost\n",
		Good: kestrel + "2026-03-02\nlose QB25 to frost\ncause frost\n",
		check: func(p *pass) {
			var before *fact.Entry
			gap := p.gauge("date-gap")
			p.entries(func(e *fact.Entry) {
				if before == nil || before.Date == 0 || e.Date == before.Date {
					before = e
					return
				}
				if l, ok := gap.of(e.Date, nil, nil); ok && e.Date-before.Date > l.Days() {
					f := p.reportf(e, firstLine(e), p.farm(), "%s is %d months after the entry before it, more than %s (%s); is the year right?", e.Date.Long(), (e.Date-before.Date)/30, l, l.Mark)
					also(f, before, "the entry before")
				}
				before = e
			})
		},
	}
	pastedTwice = &Rule{
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
	returnOtherParty = &Rule{
		Name: "return-other-party", Severity: finding.Warning,
		Summary: "plants come back from someone to whom they were not sold",
		Why:     "Mostly the buyer's name is spelled in two ways, or the plants are of another lot.",
		Bad:     bench + "party Ada as customer\n2026-11-20\nsell 5 of AM26 to Bob at 19.00 each\nreturn 1 living of AM26 from Ada as RT26 for 19.00\n",
		Good:    bench + "2026-11-20\nsell 5 of AM26 to Bob at 19.00 each\nreturn 1 living of AM26 from Bob as RT26 for 19.00\n",
		check: func(p *pass) {
			known := map[*nursery.Lot]map[*nursery.Party]bool{}
			each(p, func(e *fact.Entry, f *fact.Return) {
				l := p.lot(f.Of)
				if l == nil || !f.From.Given() {
					return
				}
				if known[l] == nil {
					known[l] = p.buyers(l)
				}
				who, _ := p.Party(f.From.Text)
				if buyers := known[l]; !buyers[who] && !buyers[nil] {
					p.reportf(e, f.From.Span, []string{l.Name, f.From.Text}, "nothing of %s was sold to %s; mend the buyer's name, or the lot", l.Name, f.From.Text)
				}
			})
		},
	}
)

// buyers are all to whom plants of a lot went; nil is among them where an entry
// does not say to whom.
func (p *pass) buyers(l *nursery.Lot) map[*nursery.Party]bool {
	buyers := map[*nursery.Party]bool{}
	for _, e := range l.Entries {
		if f, ok := e.Effect.(*fact.Leave); ok && (f.How == fact.Sold || f.How == fact.Given) {
			who, _ := p.Party(f.To.Text)
			buyers[who] = true
		}
	}
	return buyers
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
	case *fact.Remark:
		return len(f.Of) > 0 && f.Of[0].Text == name
	case *fact.Stocktake:
		return f.Lots[0].Text == name
	}
	return true
}
