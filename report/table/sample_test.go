package table

import "math"

// The reports that the golden files are made of. The farm, its people and its
// cultivars are invented, and so are the figures, all but the intervals: those of the take
// are Wilson's at 95 %, reckoned apart from this program.

func takeSample() Doc {
	rows := Table{
		Name: "rows", Grouped: true,
		Columns: []Column{
			{Name: "method", Kind: KindText, Group: true},
			{Name: "lots", Kind: KindCount, Spare: 3},
			{Name: "attempts", Kind: KindCount, Spare: 1},
			{Name: "known", Kind: KindCount},
			{Name: "took", Kind: KindCount},
			{Name: "waiting", Kind: KindCount, Spare: 2},
			{Name: "rate", Heading: "take", Kind: KindRate, Low: "low", High: "high"},
			{Name: "low", Kind: KindRate, For: Machines},
			{Name: "high", Kind: KindRate, For: Machines},
		},
		Notes: []string{"Intervals hold the true take 19 times in 20."},
	}
	rows.Add(Text("whip and tongue"), Count(12), Count(1480), Count(1400), Count(1050), Count(80),
		Rate(0.75), Rate(0.726654), Rate(0.771977))
	rows.Add(Text("chip bud"), Count(3), Count(44), Count(40), Count(30), Count(4),
		Rate(0.75).With(Provisional), Rate(0.598060), Rate(0.858129))
	rows.Add(Text("cleft"), Count(1), Count(2), Count(2), Count(2).With(Estimated), Count(0),
		Rate(1).With(FewData, Estimated), Rate(0.342380), Rate(1))
	rows.Add(Text("side veneer"), Count(1), Count(6), Count(0), Count(0), Count(6),
		Unknown(), Unknown(), Unknown())
	rows.Total = []Cell{Text("all"), Count(17), Count(1532), Count(1442), Count(1082), Count(90),
		Rate(1082.0 / 1442), Rate(0.727362), Rate(0.772001)}
	return Doc{
		Name: "take", Title: "Take by method",
		AsAt:    "2026-09-30",
		Period:  Period{Name: "season 2026", From: "2025-10-01", To: "2026-09-30"},
		Basis:   Cohort,
		Filters: []Filter{{"variety", "Amberlight"}, {"worker", "Ines"}},
		Cautions: []string{
			"Blades that met a sick tree carry it to the next: clean them between mothers, as the label of the cleaner says.",
		},
		Body: []Block{
			rows,
			Dots{
				Title: "Take by method", Axis: "take",
				Desc: "Chip bud and whip and tongue both take three times in four; the range for chip bud is far wider.",
				Rows: []Dot{
					{"whip and tongue", Rate(0.726654), Rate(0.75), Rate(0.771977)},
					{"chip bud", Rate(0.598060), Rate(0.75), Rate(0.858129)},
					{"side veneer, set by Ru in the lean-to against the north wall", Unknown(), Unknown(), Unknown()},
				},
				Reference: Rate(0.75),
			},
		},
		Notes: []string{"An attempt is one stock worked once. Only first attempts are counted."},
	}
}

func profitSample() Doc {
	rows := Table{
		Name: "rows", Title: "By variety",
		Columns: []Column{
			{Name: "variety", Kind: KindText, Group: true},
			{Name: "sold", Kind: KindCount, Unit: "trees"},
			{Name: "revenue", Kind: KindMoney},
			{Name: "cost_of_sold", Kind: KindMoney, Spare: 1},
			{Name: "margin", Kind: KindMoney},
			{Name: "last_sale", Kind: KindDate, Spare: 4},
			{Name: "bench_time", Heading: "hours", Kind: KindQuantity, Unit: "h", Spare: 3},
		},
	}
	rows.Add(Text("Amberlight"), Count(120), Money("3000.00", "EUR"), Money("1204.335", "EUR"), Money("1795.665", "EUR"), Date("2026-09-12"), Quantity("41.5"))
	rows.Add(Text("Firstfig"), Count(8), Money("96", "EUR"), Money("110.4", "EUR"), Money("-14.4", "EUR"), Unknown(), Quantity("3.25"))
	rows.Add(Text("枇杷 Café"), Count(0), Unknown(), Unknown(), Unknown(), Unknown(), Unknown())
	rows.Total = []Cell{Text("all"), Count(128), Money("3096.00", "EUR"), Money("1314.735", "EUR"), Money("1781.265", "EUR"), Date("2026-09-12"), Quantity("44.75")}
	return Doc{
		Name: "profit", Title: "What the season earned", AsAt: "2026-09-30",
		Period: Period{Name: "season 2026"}, Basis: Calendar,
		Body: []Block{
			rows,
			Facts{Name: "identity", Title: "Where the money went", Items: []Fact{
				{Name: "opening", Heading: "opening stock", Value: Money("400.00", "EUR")},
				{Name: "spent", Heading: "spent in the season", Value: Money("2100.00", "EUR").With(Estimated)},
				{Name: "sold", Heading: "cost of plants sold", Value: Money("1314.74", "EUR")},
				{Name: "closing", Heading: "closing stock", Value: Money("1185.26", "EUR")},
				{Name: "days", Heading: "days counted", Value: Days(365)},
			}},
			Bars{Title: "Revenue by variety", Axis: "revenue",
				Desc: "Amberlight brings in nearly everything.",
				Rows: []Bar{{"Amberlight", Money("3000.00", "EUR")}, {"Firstfig", Money("96", "EUR")}, {"枇杷 Café", Unknown()}}},
			Tornado{Title: "What the margin hangs on", Axis: "margin",
				Desc: "The price of a tree moves the margin most.",
				Base: Money("1781.27", "EUR"),
				Swings: []Swing{
					{"price of a tree", "20", "30", Money("1200.00", "EUR"), Money("2360.00", "EUR")},
					{"take", "62 %", "81 %", Money("1500.00", "EUR"), Money("1990.00", "EUR")},
					{"wage", "18", "14", Money("1700.00", "EUR"), Money("1860.00", "EUR")},
				}},
		},
	}
}

func survivalSample() Doc {
	curves := Table{
		Name: "curves", Nest: "points", Grouped: true,
		Columns: []Column{
			{Name: "method", Kind: KindText, Group: true},
			{Name: "day", Kind: KindDays},
			{Name: "at_risk", Kind: KindCount},
			{Name: "alive_share", Heading: "alive", Kind: KindRate, Low: "low", High: "high"},
			{Name: "low", Kind: KindRate, For: Machines},
			{Name: "high", Kind: KindRate, For: Machines},
		},
	}
	whip := Line{Name: "whip and tongue", End: 300}
	chip := Line{Name: "chip bud", End: 240}
	for _, s := range []Step{{30, 0.95, 0.9, 0.98}, {60, 0.82, 0.74, 0.88}, {110, 0.78, 0.7, 0.85}} {
		curves.Add(Text("whip and tongue"), Days(int(s.At)), Count(100), Rate(s.Share), Rate(s.Low), Rate(s.High))
		whip.Steps = append(whip.Steps, s)
	}
	for _, s := range []Step{{25, 0.9, 0.8, 0.95}, {90, 0.55, 0.4, 0.68}, {200, 0.5, math.NaN(), math.NaN()}} {
		curves.Add(Text("chip bud"), Days(int(s.At)), Count(40), Rate(s.Share), Rate(s.Low), Rate(s.High))
		chip.Steps = append(chip.Steps, s)
	}
	return Doc{
		Name: "survival", Title: "Alive after grafting", AsAt: "2026-09-30", Basis: Cohort,
		Body: []Block{
			Curve{Title: "Share alive", Axis: "days since the graft", Lines: []Line{whip, chip},
				Desc: "Most losses come in the first hundred days, and more of them in chip buds."},
			curves,
			Facts{Name: "logrank", Title: "Do the groups differ?", Items: []Fact{
				{Name: "chi_square", Value: Number(7.3124)},
				{Name: "df", Heading: "degrees of freedom", Value: Count(1)},
				{Name: "p", Value: PValue(0.0069)},
			}},
		},
	}
}

func kinshipSample() Doc {
	return Doc{
		Name: "kinship", Title: "Kinship of the varieties", AsAt: "2026-09-30",
		Body: []Block{
			Facts{Items: []Fact{
				{Name: "names", Value: List{Text("Amberlight"), Text("Firstfig"), Text("Hollow Red")}, For: Machines},
				{Name: "coancestry", Value: Matrix{Names: []string{"Amberlight", "Firstfig", "Hollow Red"}, Rows: [][]Cell{
					{Number(0.5), Number(0.25), Number(0)},
					{Number(0.25), Number(0.5), Number(0.03125)},
					{Number(0), Number(0.03125), Number(0.625)},
				}}},
				{Name: "inbreeding", Value: List{Number(0), Number(0), Number(0.25)}},
			}},
			Outline{Title: "Mothers", Roots: []Branch{
				{Label: "Amberlight", Detail: "mother M7", Branches: []Branch{
					{Label: "lot G14", Detail: "40 grafts, 2026-03-14", Marks: []Mark{Mixed}, Branches: []Branch{{Label: "bundle B2", Detail: "to the school at Low Ford"}}},
					{Label: "lot G15"},
				}},
				{Label: "Firstfig"},
			}},
		},
	}
}

func lineageSample() Doc {
	return Doc{
		Name: "lineage", Title: "Where M41 comes from", AsAt: "2026-09-30",
		Body: []Block{Graph{
			Title: "Its line", Desc: "M41 is a graft of M7, which was declared, on quince from Valley Liners.",
			Nodes: []Node{
				{Label: "M41", Detail: "Amberlight, planted 2026-10-09", Focus: true},
				{Label: "AM26", Detail: "Amberlight, grafted 2026-03-02 by whip-and-tongue, Ines + Ru"},
				{Label: "W7"},
				{Label: "M7", Detail: "Amberlight, planted 2013"},
				{Label: `the "big" liners \ <north> bench`, Detail: "Quince BA, bought 2025-11-03"},
				{Label: "Valley Liners", Detail: "party", Outside: true},
			},
			Edges: []Edge{{1, 0, 0}, {2, 1, 0}, {3, 2, 0}, {4, 1, 1}, {5, 4, 2}, {3, 1, 1}},
			Lines: []string{"scion line", "stock", "bought from", "seed"},
		}},
	}
}

func labelSample() Doc {
	return Doc{
		Name: "label", Title: "Labels for AM26", AsAt: "2026-09-30",
		Body: []Block{Labels{
			Title: "Labels for AM26, sheet 1 of 1", Desc: "Labels to print and cut apart.",
			Heading: "Amberlight on Quince BA, and a name that goes on for longer than one line of it",
			Lines:   []string{"A Eriobotrya japonica", "B ES-KH-0417", "C AM26", "D ES"},
			Code:    "A Eriobotrya japonica\nB ES-KH-0417\nC AM26\nD ES",
			Count:   3, Foot: "Ask the authority.",
		}},
	}
}

func chartSample() Doc {
	return Doc{
		Name: "slip", Title: "Take through the season", AsAt: "2026-09-30", Basis: Cohort,
		Body: []Block{Chart{
			Title: "Take by fortnight", Axis: "fortnight begun", Centre: 0.74,
			Desc: "The fortnight of 9 April fell below its limit.",
			Points: []Sample{
				{"2026-02-26", 0.78, 0.61, 0.87, false},
				{"2026-03-12", 0.71, 0.64, 0.84, false},
				{"2026-03-26", 0.8, 0.64, 0.84, false},
				{"2026-04-09", 0.52, 0.6, 0.88, true},
				{"2026-04-23", 0.7, 0.55, 0.93, false},
			},
		}, Table{Name: "terms", Title: "What made the difference", Columns: []Column{
			{Name: "factor", Kind: KindText},
			{Name: "level", Kind: KindText},
			{Name: "odds_ratio", Kind: KindNumber, Low: "low", High: "high"},
			{Name: "low", Kind: KindNumber, For: Machines},
			{Name: "high", Kind: KindNumber, For: Machines},
			{Name: "p", Kind: KindPValue},
			{Name: "difference", Kind: KindChange, Low: "less", High: "more"},
			{Name: "less", Kind: KindChange, For: Machines},
			{Name: "more", Kind: KindChange, For: Machines},
		}, Rows: [][]Cell{
			{Text("worker"), Text("Ines"), Number(2.4), Number(1.2), Number(4.9), PValue(0.0149), Change(0.12), Change(0.02), Change(0.215)},
			{Text("worker"), Text("Ru"), Number(0.004), Number(0), Number(math.Inf(1)), PValue(1e-7), Change(-0.31), Change(-0.42), Change(-0.2)},
		}}, Dots{Title: "Odds ratios", Axis: "odds ratio", Log: true, Reference: Number(1),
			Desc: "Ines does better than the rest; nothing can be said of Ru.",
			Rows: []Dot{{"Ines", Number(1.2), Number(2.4), Number(4.9)}, {"Ru", Number(0), Number(0.4), Number(math.Inf(1))}}}},
	}
}

func bookSample() Doc {
	return Doc{
		Name: "season", Title: "The book of season 2026", AsAt: "2026-09-30",
		Period:   Period{Name: "season 2026", From: "2025-10-01", To: "2026-09-30"},
		Chapters: []Doc{takeSample(), survivalSample(), chartSample(), profitSample(), kinshipSample()},
		Notes:    []string{"Kestrel Hollow keeps this book for itself."},
	}
}

// samples are the reports by the name of their golden files.
var samples = map[string]func() Doc{
	"take": takeSample, "profit": profitSample, "survival": survivalSample,
	"kinship": kinshipSample, "slip": chartSample, "book": bookSample, "lineage": lineageSample, "label": labelSample,
}
