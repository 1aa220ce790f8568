package rule

import (
	"fmt"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
)

// A pass is one rule asking one nursery. A rule says at the start what it wants
// to look at; the things of which a journal has very many are then looked at
// once for all rules, see scan.
type pass struct {
	*nursery.Nursery
	rule     *Rule
	memory   *Memory
	scan     *scan
	findings []finding.Finding
}

// lots asks about every lot, in the order in which they came to be.
func (p *pass) lots(ask func(*nursery.Lot)) { p.scan.lots = append(p.scan.lots, ask) }

// batches asks about all attempts, and grafts about those that are grafts.
func (p *pass) batches(ask func(*nursery.Batch)) { p.scan.batches = append(p.scan.batches, ask) }

// grafts asks about every batch of grafts, with what its entry says.
func (p *pass) grafts(ask func(*nursery.Batch, *fact.Graft)) {
	p.batches(func(b *nursery.Batch) {
		if b.Kind == nursery.GraftBatch {
			ask(b, b.Entry.Effect.(*fact.Graft))
		}
	})
}

// moves asks about every move of plants by one act, in order.
func (p *pass) moves(how fact.How, ask func(*nursery.Move)) {
	p.scan.moves[how] = append(p.scan.moves[how], ask)
}

// entries asks about every entry, in order, after all lots, batches and moves.
func (p *pass) entries(ask func(*fact.Entry)) { p.scan.entries = append(p.scan.entries, ask) }

// each asks about every entry of one effect, in order, after all lots, batches
// and moves. Entries that contradict the book are passed over.
func each[F fact.Effect](p *pass, ask func(*fact.Entry, F)) {
	var none F
	k := kindOf(none)
	p.scan.effects[k] = append(p.scan.effects[k], func(e *fact.Entry) {
		if f, ok := e.Effect.(F); ok { // the last kind is of many effects
			ask(e, f)
		}
	})
}

// end runs when everything has been looked at.
func (p *pass) end(f func()) { p.scan.ends = append(p.scan.ends, f) }

// thing finds what an entry names, or nil.
func (p *pass) thing(name fact.Name) nursery.Thing { return p.scan.thing(name.Text) }

// lot finds the lot that an entry names, or nil.
func (p *pass) lot(name fact.Name) *nursery.Lot {
	l, _ := p.thing(name).(*nursery.Lot)
	return l
}

// reportf says that the rule's question has a bad answer at a place of an
// entry. About names what the finding is about, for `allow`.
func (p *pass) reportf(e *fact.Entry, at source.Span, about []string, format string, args ...any) *finding.Finding {
	p.findings = append(p.findings, finding.Finding{
		File: e.File, Span: at, Severity: p.rule.Severity, Rule: p.rule.Name,
		Message: fmt.Sprintf(format, args...), About: about,
	})
	return &p.findings[len(p.findings)-1]
}

// farm is what a finding about the whole journal is about: the farm's name.
func (p *pass) farm() []string {
	if p.Farm == nil {
		return []string{"farm"}
	}
	return []string{p.Farm.Name.Text}
}

// also shows another place beside a finding.
func also(f *finding.Finding, e *fact.Entry, message string) {
	f.Related = append(f.Related, finding.Related{File: e.File, Span: e.Span, Message: message})
}
