package table_test

import (
	"fmt"
	"os"

	"github.com/budstick/budstick/report/table"
)

func Example() {
	rows := table.Table{
		Name: "rows",
		Columns: []table.Column{
			{Name: "method", Kind: table.KindText, Group: true},
			{Name: "took", Kind: table.KindCount},
			{Name: "rate", Heading: "take", Kind: table.KindRate, Low: "low", High: "high"},
			{Name: "low", Kind: table.KindRate, For: table.Machines},
			{Name: "high", Kind: table.KindRate, For: table.Machines},
		},
	}
	rows.Add(table.Text("chip bud"), table.Count(30), table.Rate(0.75), table.Rate(0.598060), table.Rate(0.858129))
	rows.Add(table.Text("cleft"), table.Count(2), table.Rate(1).With(table.FewData), table.Rate(0.34238), table.Rate(1))
	d := table.Doc{Name: "take", Title: "Take by method", AsAt: "2026-09-30", Body: []table.Block{rows}}

	if err := table.WriteText(os.Stdout, d, table.TextOptions{Width: 60}); err != nil {
		fmt.Println(err)
	}
	// Output:
	// Take by method
	// As known on 2026-09-30.
	//
	// method    took   take  interval  0%               100%
	// ──────────────────────────────────────────────────────
	// chip bud    30   75%     60–86%              ├──●─┤
	// cleft        2  100%*   34–100%         ├────────────●
	// * few data: too few to judge by
}
