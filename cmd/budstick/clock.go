package main

import (
	"time"

	"github.com/budstick/budstick/grammar/fact"
)

// today is the day by the clock: for what a grower writes today, and never for
// a report, which counts up to the last day of the journal.
var today = func() fact.Date {
	y, m, d := time.Now().Date()
	date, _ := fact.NewDate(y, m, d)
	return date
}

// timeOfDay is what a clock on the wall shows.
func timeOfDay() string { return time.Now().Format("15:04:05") }

// everySecond calls f with the seconds that have passed, once a second, until
// stop is called; then f is not running any more.
func everySecond(f func(seconds int)) (stop func()) {
	tick := time.NewTicker(time.Second)
	end, ended := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(ended)
		for n := 1; ; n++ {
			select {
			case <-tick.C:
				f(n)
			case <-end:
				return
			}
		}
	}()
	return func() {
		tick.Stop()
		close(end)
		<-ended
	}
}

// A lull is told when nothing has stirred for a while.
type lull struct{ timer *time.Timer }

func newLull() lull { return lull{time.NewTimer(0)} }

// stir puts the lull off until nothing has stirred for a tenth of a second.
func (l lull) stir() { l.timer.Reset(100 * time.Millisecond) }

func (l lull) told() <-chan time.Time { return l.timer.C }
