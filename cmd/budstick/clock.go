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
