package report

import (
	"fmt"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// deferral stands on everything that is made for an authority.
const deferral = "This helps to keep records and decides nothing: which law applies to these plants, and whether this is enough for it, your plant health authority or extension office can say."

var record = &Report{
	Name:    "record",
	Summary: "what others ask to see: the inspector's sheet, or passport data of the trees as germplasm",
	Long: `--for inspection: for a season or any stretch of days what came in and from whom, what went out and to whom, moves between
places, treatments, inspections with their certificates, losses, plants marked sick or untrue, and what stands at the
end. These are the items that the rules of plant health of the European Union, of the United States and of its states
share.

--for germplasm: every standing tree as an accession, under the descriptors of the Multi-crop Passport Descriptors (FAO and
Bioversity International, V.2.1, 2015), in their order and by their codes. As CSV the header has their names. What the
journal does not know is left empty.

` + deferral,
	Example: "--for inspection --season 2026",
	Takes:   Spans | Filters | Purposes,
	For:     []string{"inspection", "germplasm"},
	Build:   buildRecord,
}

func buildRecord(n *nursery.Nursery, o Options) (*table.Doc, error) {
	switch o.For {
	case "", "inspection":
		if len(o.Filters) > 0 {
			return nil, fmt.Errorf("an inspector's sheet is of the whole nursery; leave out --%s", o.Filters[0].Name)
		}
		return inspection(n, o), nil
	case "germplasm":
		return germplasm(n, o)
	}
	return nil, fmt.Errorf("there is no record for %s", o.For)
}
