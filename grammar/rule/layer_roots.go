package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var hardToLayer = &Rule{
	Name: "layer-roots", Severity: finding.Hint, Limits: []string{"layer-roots"},
	Summary: "layers are set of a kind that roots badly",
	Why:     "Mango, sapodilla, carambola and a few others root seldom and slowly as layers; plan for few, or graft. Said once for each variety.",
	Bad:     kestrel + mangoTree + "layer 8 on H1 as HL26 worker Ines\n",
	Good:    kestrel + "layer 8 on M7 as AL26 worker Ines\n",
	check: func(p *pass) {
		most := p.gauge("layer-roots")
		said := map[*nursery.Variety]bool{}
		p.batches(func(b *nursery.Batch) {
			if b.Kind != nursery.LayerBatch || b.Top.Variety == nil || said[b.Top.Variety] {
				return
			}
			if l, ok := most.of(b.Entry.Date, b.Top.Variety, b.Method); ok && l.Value < rootsWell {
				said[b.Top.Variety] = true
				p.reportf(b.Entry, firstLine(b.Entry), []string{b.Lot.Name, b.Top.Variety.Name}, "of layers of %s seldom more than %s root (%s); plan for few, or graft", b.Top.Species(), l, l.Mark)
			}
		})
	},
}

// rootsWell is the share of layers, in percent, of a species that roots well
// enough to say nothing.
const rootsWell = 75
