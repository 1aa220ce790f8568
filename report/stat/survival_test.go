package stat

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// survivalCase is 04_survival.json. Computed with R 4.2.2 and survival 3.5-3.
type survivalCase struct {
	KM struct {
		SixMP, Placebo kmCase
		Published      struct {
			Alive []float64 `json:"surv_6mp"`
			Error []float64 `json:"se_6mp"`
			Times []int
			Chi   float64 `json:"logrank_chisq"`
		}
		LogRank struct {
			Expected map[string]float64 `json:"exp"`
			ChiSq    float64
			DF       int
			P        float64
		}
	}
	IntervalCensored struct {
		Turnbull []spanCase
	} `json:"interval_censored"`
	Visits struct {
		KM       kmCase `json:"km_death_dated_at_first_dead_visit"`
		Turnbull []spanCase
	} `json:"graft_visits"`
}

type kmCase struct {
	Table []struct {
		Time     int
		NRisk    int      `json:"n_risk"`
		NEvent   int      `json:"n_event"`
		NCensor  int      `json:"n_censor"`
		Surv     float64  `json:"surv"`
		SE       *float64 `json:"greenwood_se"`
		LoPlain  *float64 `json:"lo_plain"`
		HiPlain  *float64 `json:"hi_plain"`
		LoLog    *float64 `json:"lo_log"`
		HiLog    *float64 `json:"hi_log"`
		LoLogLog *float64 `json:"lo_loglog"`
		HiLogLog *float64 `json:"hi_loglog"`
	}
	Median *int
}

type spanCase struct {
	From int
	To   *int
	Mass float64
}

func readSurvival(t *testing.T) survivalCase {
	t.Helper()
	// The names of the two groups differ by an underscore only from those of
	// the struct, which the decoder does not bridge.
	var named struct {
		KM struct {
			SixMP kmCase `json:"six_mp"`
		}
	}
	var c survivalCase
	readCase(t, "04_survival.json", &c)
	readCase(t, "04_survival.json", &named)
	c.KM.SixMP = named.KM.SixMP
	return c
}

// remission is the weeks in remission of 42 children, E. J. Freireich et al.
// (1963), Blood 21:699-716, in pairs on 6-mercaptopurine and placebo.
func remission(t *testing.T, group string) []Exit {
	t.Helper()
	var exits []Exit
	for _, r := range readTable(t, "04_freireich.csv") {
		if r["group"] == group {
			died := r.int(t, "event")
			exits = append(exits, Exit{r.int(t, "time"), died, 1 - died})
		}
	}
	return exits
}

// visits are sixty grafts looked at on six days: dead when first seen dead,
// withdrawn when last seen alive.
func visits(t *testing.T) (exits []Exit, watches []Watch) {
	t.Helper()
	for _, r := range readTable(t, "04_graft_visits_records.csv") {
		watch := Watch{r.int(t, "last_alive"), Never, 1}
		exit := Exit{Day: watch.LastAlive, Withdrawn: 1}
		if r["first_dead"] != "NA" {
			watch.FirstDead = r.int(t, "first_dead")
			exit = Exit{Day: watch.FirstDead, Died: 1}
		}
		exits, watches = append(exits, exit), append(watches, watch)
	}
	return exits, watches
}

func checkCurve(t *testing.T, name string, exits []Exit, want kmCase) {
	t.Helper()
	curves := map[Limits]Curve{}
	for _, scale := range []Limits{LogLog, Log, Plain} {
		curves[scale] = KaplanMeier(exits, 0.95, scale)
	}
	if got := len(curves[Plain].Points); got != len(want.Table) {
		t.Fatalf("%s has %d points, want %d", name, got, len(want.Table))
	}
	for i, row := range want.Table {
		p := curves[Plain].Points[i]
		if p.Day != row.Time || p.AtRisk != row.NRisk || p.Died != row.NEvent || p.Withdrawn != row.NCensor {
			t.Errorf("%s: point %+v, want %+v", name, p, row)
		}
		near(t, name+" alive", p.Alive, row.Surv, 1e-9)
		if row.SE != nil {
			near(t, name+" standard error", p.StdError, *row.SE, 1e-9)
		}
		for scale, want := range map[Limits][2]*float64{
			Plain: {row.LoPlain, row.HiPlain}, Log: {row.LoLog, row.HiLog}, LogLog: {row.LoLogLog, row.HiLogLog},
		} {
			if want[0] != nil {
				nearInterval(t, name+" limits", curves[scale].Points[i].Interval, *want[0], *want[1], 1e-9)
			}
		}
	}
	median := Never
	if want.Median != nil {
		median = *want.Median
	}
	if got := curves[LogLog].Median().Day; got != median {
		t.Errorf("%s: median %d, want %d", name, got, median)
	}
}

func TestKaplanMeier(t *testing.T) {
	c := readSurvival(t)
	checkCurve(t, "6-MP", remission(t, "6-MP"), c.KM.SixMP)
	checkCurve(t, "placebo", remission(t, "placebo"), c.KM.Placebo)
	exits, _ := visits(t)
	checkCurve(t, "visits", exits, c.Visits.KM)
}

// Table 4.1 of J. P. Klein and M. L. Moeschberger (1997), Survival Analysis
// (from memory).
func TestKaplanMeierAsPrinted(t *testing.T) {
	printed := readSurvival(t).KM.Published
	curve := KaplanMeier(remission(t, "6-MP"), 0.95, Plain)
	for i, week := range printed.Times {
		p, ok := curve.At(week)
		if !ok {
			t.Fatalf("no point in week %d", week)
		}
		near(t, "alive", p.Alive, printed.Alive[i], 5.1e-4)
		near(t, "standard error", p.StdError, printed.Error[i], 5.1e-4)
	}
	test, _ := LogRank([][]Exit{remission(t, "6-MP"), remission(t, "placebo")})
	near(t, "log-rank", test.Statistic, printed.Chi, 5e-3)
}

func TestLogRank(t *testing.T) {
	want := readSurvival(t).KM.LogRank
	drug, placebo := remission(t, "6-MP"), remission(t, "placebo")
	test, ok := LogRank([][]Exit{drug, placebo})
	if !ok || test.DF != want.DF || test.Observed[0] != 9 || test.Observed[1] != 21 {
		t.Fatalf("test %+v, ok %v", test, ok)
	}
	near(t, "expected on 6-MP", test.Expected[0], want.Expected["g=6-MP"], 1e-9)
	near(t, "expected on placebo", test.Expected[1], want.Expected["g=control"], 1e-9)
	near(t, "chi-square", test.Statistic, want.ChiSq, 1e-9)
	near(t, "p", test.P/want.P, 1, 1e-9)

	// A group out of sight before the first death changes nothing.
	early := []Exit{{Day: 0, Withdrawn: 5}}
	three, ok := LogRank([][]Exit{drug, early, placebo})
	if !ok || three.DF != 1 {
		t.Fatalf("with a group never at risk: %+v, ok %v", three, ok)
	}
	near(t, "chi-square with it", three.Statistic, want.ChiSq, 1e-9)
}

func TestLogRankOfLittle(t *testing.T) {
	for name, groups := range map[string][][]Exit{
		"no groups":  nil,
		"one group":  {{{3, 1, 1}}},
		"no deaths":  {{{3, 0, 4}}, {{5, 0, 2}}},
		"never meet": {{{3, 2, 0}}, nil},
	} {
		if got, ok := LogRank(groups); ok {
			t.Errorf("%s: a log-rank test %+v", name, got)
		}
	}
}

func checkSpans(t *testing.T, name string, got []Span, want []spanCase) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s: %d spans, want %d: %v", name, len(got), len(want), got)
	}
	for i, w := range want {
		to := Never
		if w.To != nil {
			to = *w.To
		}
		if got[i].From != w.From || got[i].To != to {
			t.Errorf("%s: span %v, want %v", name, got[i], w)
		}
		near(t, name+" mass", got[i].Mass, w.Mass, 1e-5)
	}
}

// Breast cosmesis under radiotherapy, D. M. Finkelstein and R. A. Wolfe
// (1985), Biometrics 41:933-945, and sixty grafts looked at on six days. The
// masses come from an EM algorithm coded in R and checked to be the maximum.
func TestTurnbull(t *testing.T) {
	c := readSurvival(t)
	var watches []Watch
	for _, r := range readTable(t, "04_bcdeter_radio.csv") {
		w := Watch{r.int(t, "lower"), Never, 1}
		if r["upper"] != "NA" {
			w.FirstDead = r.int(t, "upper")
		}
		watches = append(watches, w)
	}
	spans, ok := Turnbull(watches)
	if !ok {
		t.Fatal("the climb did not arrive")
	}
	checkSpans(t, "radiotherapy", spans, c.IntervalCensored.Turnbull)
	_, watches = visits(t)
	spans, ok = Turnbull(watches)
	if !ok {
		t.Fatal("the climb did not arrive")
	}
	checkSpans(t, "visits", spans, c.Visits.Turnbull)
}

// Of plants in the spans 0 to 1, 0 to 2, 1 to 3 and 2 to 3 days, c, a, b and d of
// each, the likelihood u^c (1-v)^a (1-u)^b v^d of the first and the last mass is
// highest at u = c/(b+c) and v = d/(a+d): the one in the middle is worth less than
// half a plant here, and is kept.
func TestTurnbullKeepsASmallMass(t *testing.T) {
	spans, ok := Turnbull([]Watch{{0, 1, 1}, {0, 2, 3}, {1, 3, 2}, {2, 3, 5}})
	if !ok || len(spans) != 3 {
		t.Fatalf("%v, %v", spans, ok)
	}
	for i, want := range []float64{1.0 / 3, 1.0 / 24, 5.0 / 8} {
		near(t, "mass", spans[i].Mass, want, 1e-6)
	}
}

// A curve, or its limit, that lies at one half has come down to it.
func TestMedianAtOneHalf(t *testing.T) {
	half := CurvePoint{Day: 10, Alive: 0.5, Interval: Interval{0.5, 0.5}}
	if got := (Curve{[]CurvePoint{half}}).Median(); got != (MedianDay{10, 10, 10}) {
		t.Errorf("%+v", got)
	}
}

func TestCurveEdges(t *testing.T) {
	if c := KaplanMeier(nil, 0.95, LogLog); len(c.Points) != 0 || c.Median() != (MedianDay{Never, Never, Never}) {
		t.Errorf("nobody watched: %+v", c)
	}
	// All of twelve alive, then all dead at once: the limits are Wilson's.
	all := KaplanMeier([]Exit{{10, 0, 12}}, 0.95, LogLog)
	if got, want := all.Points[0].Interval, Wilson(12, 12, 0.95); got != want {
		t.Errorf("twelve of twelve alive: %v, want %v", got, want)
	}
	none := KaplanMeier([]Exit{{10, 5, 0}, {20, 7, 0}}, 0.95, LogLog)
	last := none.Points[1]
	low, high := Wilson(0, 12, 0.95).Low, Wilson(0, 12, 0.95).High
	nearInterval(t, "twelve of twelve dead", last.Interval, low, high, 1e-12)
	near(t, "their error", last.StdError, 0, 0)

	curve := KaplanMeier([]Exit{{10, 1, 1}, {20, 1, 3}}, 0.95, LogLog)
	for day, want := range map[int]bool{9: false, 10: true, 15: true, 20: true, 21: false} {
		if _, ok := curve.At(day); ok != want {
			t.Errorf("day %d is known: %v, want %v", day, ok, want)
		}
	}
	if p, ok := none.At(400); !ok || p.Alive != 0 {
		t.Errorf("after all died: %+v, ok %v", p, ok)
	}
}

func TestSurvivalProperties(t *testing.T) {
	exit := rapid.Custom(func(t *rapid.T) Exit {
		return Exit{
			Day:       rapid.IntRange(0, 40).Draw(t, "day"),
			Died:      rapid.IntRange(0, 5).Draw(t, "died"),
			Withdrawn: rapid.IntRange(0, 5).Draw(t, "withdrawn"),
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		exits := rapid.SliceOf(exit).Draw(t, "exits")
		curve := KaplanMeier(exits, 0.95, LogLog)
		before := 1.0
		for _, p := range curve.Points {
			if !(0 <= p.Low && p.Low <= p.Alive+1e-12 && p.Alive <= p.High+1e-12 && p.High <= 1) {
				t.Fatalf("limits of %+v", p)
			}
			if p.Alive > before || math.IsNaN(p.StdError) {
				t.Fatalf("the dead rise: %+v after %v", p, before)
			}
			before = p.Alive
		}
		turned := slices.Clone(exits)
		slices.Reverse(turned)
		if again := KaplanMeier(turned, 0.95, LogLog); !slices.Equal(again.Points, curve.Points) {
			t.Fatalf("the order of exits matters: %v and %v", curve, again)
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		// Without withdrawals the curve is the share not yet dead.
		exits := rapid.SliceOfN(exit, 1, 12).Draw(t, "exits")
		total := 0
		for i := range exits {
			exits[i].Withdrawn = 0
			total += exits[i].Died
		}
		for _, p := range KaplanMeier(exits, 0.95, Plain).Points {
			dead := 0
			for _, e := range exits {
				if e.Day <= p.Day {
					dead += e.Died
				}
			}
			want := 1 - float64(dead)/float64(total)
			se := math.Sqrt(want * (1 - want) / float64(total))
			if math.Abs(p.Alive-want) > 1e-12 || math.Abs(p.StdError-se) > 1e-9 {
				t.Fatalf("day %d: %v (%v), want %v (%v)", p.Day, p.Alive, p.StdError, want, se)
			}
		}
		// Two equal groups have no log-rank difference.
		if test, ok := LogRank([][]Exit{exits, exits}); ok && test.Statistic > 1e-9 {
			t.Fatalf("a group differs from itself: %+v", test)
		}
	})
}

func TestTurnbullProperties(t *testing.T) {
	watch := rapid.Custom(func(t *rapid.T) Watch {
		w := Watch{LastAlive: rapid.IntRange(0, 20).Draw(t, "alive"), FirstDead: Never, Count: rapid.IntRange(0, 4).Draw(t, "count")}
		if rapid.Bool().Draw(t, "dead") {
			w.FirstDead = w.LastAlive + rapid.IntRange(1, 10).Draw(t, "gap")
		}
		return w
	})
	rapid.Check(t, func(t *rapid.T) {
		watches := rapid.SliceOfN(watch, 1, 12).Draw(t, "watches")
		spans, ok := Turnbull(watches)
		if !ok {
			if len(mergeWatches(watches)) > 0 {
				t.Fatalf("the climb did not arrive: %v", spans)
			}
			return
		}
		total := 0.0
		for i, s := range spans {
			total += s.Mass
			if s.From >= s.To || i > 0 && s.From < spans[i-1].To {
				t.Fatalf("spans overlap: %v", spans)
			}
		}
		if math.Abs(total-1) > 1e-3 {
			t.Fatalf("masses add up to %v", total)
		}
		// Every death has a span to have fallen in.
		for _, w := range watches {
			inside := slices.ContainsFunc(spans, func(s Span) bool { return w.LastAlive <= s.From && s.To <= w.FirstDead })
			if w.Count > 0 && !inside {
				t.Fatalf("no span for %v in %v", w, spans)
			}
		}
	})
	// Where each death is known to the day, it is Kaplan and Meier's curve.
	rapid.Check(t, func(t *rapid.T) {
		exits := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Exit {
			return Exit{rapid.IntRange(1, 15).Draw(t, "day"), rapid.IntRange(0, 3).Draw(t, "died"), rapid.IntRange(0, 3).Draw(t, "withdrawn")}
		}), 1, 8).Draw(t, "exits")
		var watches []Watch
		for _, e := range exits {
			watches = append(watches, Watch{e.Day - 1, e.Day, e.Died}, Watch{e.Day, Never, e.Withdrawn})
		}
		curve := KaplanMeier(exits, 0.95, LogLog)
		spans, _ := Turnbull(watches)
		for _, s := range spans {
			if s.To == Never {
				continue
			}
			if p, ok := curve.At(s.To); !ok || math.Abs(p.Alive-s.Alive) > 1e-5 {
				t.Fatalf("by day %d %v are alive, want %v", s.To, s.Alive, p.Alive)
			}
		}
	})
}
