package stat

import "math"

// runLength is how many samples in a row on one side of the centre signal:
// the fourth zone test of Western Electric Company (1956), Statistical
// Quality Control Handbook, page 25.
const runLength = 8

// PChart is a control chart of the rates of samples that may differ in size.
type PChart struct {
	Centre  float64 // the pooled rate
	Points  []ChartPoint
	Signals []Signal
}

// ChartPoint is one sample on a chart. Low and High are its limits, three
// standard errors from the centre and within 0 and 1; Z is how many standard
// errors it lies from the centre.
type ChartPoint struct {
	Tally
	Low, High, Z float64
}

// Signal is a stretch of samples, First to Last by index, that chance alone
// seldom gives.
type Signal struct {
	Kind        SignalKind
	First, Last int
}

// SignalKind says by which rule a signal was found.
type SignalKind int

const (
	AboveLimit SignalKind = iota // one sample above its limit
	BelowLimit                   // one sample below its limit
	RunAbove                     // eight samples or more in a row above the centre
	RunBelow                     // eight samples or more in a row below it
)

// NewPChart draws up the chart of samples in order of time: centre p, the
// pooled rate, and limits p ± 3 sqrt(p(1-p)/N).
//
// W. A. Shewhart (1931), Economic Control of Quality of Manufactured Product;
// NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.3.2.
//
// A sample without trials has limits 0 and 1 and neither signals nor breaks a
// run; one exactly at the centre breaks it. Where every trial had the same
// outcome, all limits are at the centre and nothing signals.
func NewPChart(samples []Tally) PChart {
	p := Pool(samples).Rate()
	chart := PChart{Centre: p}
	for i, sample := range samples {
		sample.mustBeValid()
		point := ChartPoint{Tally: sample, High: 1}
		if sample.N > 0 {
			se := math.Sqrt(p * (1 - p) / float64(sample.N))
			point.Low, point.High = max(0, p-3*se), min(1, p+3*se)
			if se > 0 {
				point.Z = (sample.Rate() - p) / se
			}
			if point.Z > 3 {
				chart.Signals = append(chart.Signals, Signal{AboveLimit, i, i})
			}
			if point.Z < -3 {
				chart.Signals = append(chart.Signals, Signal{BelowLimit, i, i})
			}
		}
		chart.Points = append(chart.Points, point)
	}
	chart.Signals = append(chart.Signals, runs(chart.Points)...)
	return chart
}

// runs finds the longest stretches of runLength points or more on one side.
func runs(points []ChartPoint) []Signal {
	var found []Signal
	var current Signal
	side, length := 0.0, 0
	end := func() {
		if length >= runLength {
			found = append(found, current)
		}
		length = 0
	}
	for i, point := range points {
		if point.N == 0 {
			continue
		}
		here := 0.0
		if point.Z != 0 {
			here = math.Copysign(1, point.Z)
		}
		if here != side {
			end()
			side = here
		}
		if side == 0 {
			continue
		}
		if length == 0 {
			current = Signal{RunAbove, i, i}
			if side < 0 {
				current.Kind = RunBelow
			}
		}
		current.Last = i
		length++
	}
	end()
	return found
}
