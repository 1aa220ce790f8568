package nursery

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
)

// A Limit is a rule of thumb in force: its value, in its own unit, and where it
// comes from.
type Limit struct {
	Value float64
	Unit  fact.Unit
	// Mark says where the value comes from: a source, "rule of thumb", or the
	// journal itself.
	Mark     string
	Declared *fact.Entry // where the journal says so, else nil
}

// Days is a limit that is a time, in days; a month is 30 and a year 365.
func (l Limit) Days() fact.Date {
	per := 1.0
	switch l.Unit {
	case fact.Week:
		per = 7
	case fact.Month:
		per = 30
	case fact.Year:
		per = 365
	}
	return fact.Date(min(l.Value*per, maxDays) + 0.5)
}

// maxDays is longer than a calendar of four-figure years.
const maxDays = 4_000_000

// String writes the limit with its unit.
func (l Limit) String() string {
	return strings.TrimSpace(strconv.FormatFloat(l.Value, 'g', -1, 64) + " " + string(l.Unit))
}

// limitKey is a limit for everything (For empty) or for one species, genus,
// variety, method or place, folded.
type limitKey struct{ name, of string }

// limits are those that a journal declares, by the day they begin to hold.
type limits struct{ declared map[limitKey][]datedLimit }

type datedLimit struct {
	from  fact.Date
	limit Limit
}

func newLimits() limits { return limits{map[limitKey][]datedLimit{}} }

//go:embed defaults.csv
var defaultsCSV string

// A Default is a rule of thumb that the tool ships: the name of the limit, and
// the species, genus or method that it is for, or nothing where it is general.
type Default struct {
	Name, For string
	Limit
}

// Defaults are the rules of thumb that the tool ships, each with its mark.
var Defaults = sync.OnceValue(func() []Default {
	rows, err := csv.NewReader(strings.NewReader(defaultsCSV)).ReadAll()
	if err != nil {
		panic(err)
	}
	var list []Default
	for _, row := range rows[1:] {
		value, err := strconv.ParseFloat(row[2], 64)
		if err != nil {
			panic(fmt.Sprintf("defaults.csv: %v", row))
		}
		list = append(list, Default{row[0], row[1], Limit{Value: value, Unit: fact.Unit(row[3]), Mark: row[4]}})
	}
	return list
})

// defaults finds them.
var defaults = sync.OnceValue(func() map[limitKey]Limit {
	m := map[limitKey]Limit{}
	for _, d := range Defaults() {
		m[limitKey{d.Name, spelling.Fold(d.For)}] = d.Limit
	}
	return m
})

// KnownLimits names every limit that can be declared, with its unit.
func KnownLimits() map[string]fact.Unit {
	m := map[string]fact.Unit{}
	for k, l := range defaults() {
		m[k.name] = l.Unit
	}
	return m
}

// Limit is the limit of a name in force on a day for the closest of some things
// (a method, variety or species; a species stands for its genus too), nearest
// first. What the journal declares goes before what the tool ships. It reports
// false where nothing is known.
func (n *Nursery) Limit(name string, day fact.Date, of ...string) (Limit, bool) {
	if len(n.limits.declared) > 0 {
		for _, key := range of {
			if l, ok := closest(key, func(key string) (Limit, bool) { return n.limits.on(limitKey{name, key}, day) }); ok {
				return l, true
			}
		}
		if l, ok := n.limits.on(limitKey{name, ""}, day); ok {
			return l, true
		}
	}
	shipped := defaults()
	for _, key := range of {
		if l, ok := closest(key, func(key string) (Limit, bool) { l, ok := shipped[limitKey{name, key}]; return l, ok }); ok {
			return l, true
		}
	}
	l, ok := shipped[limitKey{name, ""}]
	return l, ok
}

// closest reads a limit for a thing, or for its genus where the thing is a
// species.
func closest(key string, read func(folded string) (Limit, bool)) (Limit, bool) {
	if key == "" {
		return Limit{}, false
	}
	key = spelling.Fold(key)
	if l, ok := read(key); ok {
		return l, true
	}
	genus, _, two := strings.Cut(strings.TrimPrefix(key, "×"), " ")
	if !two {
		return Limit{}, false
	}
	return read(genus)
}

func (l limits) on(key limitKey, day fact.Date) (Limit, bool) {
	list := l.declared[key]
	for i := len(list) - 1; i >= 0; i-- {
		if list[i].from <= day {
			return list[i].limit, true
		}
	}
	return Limit{}, false
}

// declareLimit puts a limit of the journal's own in force.
func (n *Nursery) declareLimit(f *fact.Limit) {
	unit, known := KnownLimits()[f.Rule.Text]
	switch {
	case !known:
		n.unknownLimit(f.Rule)
		return
	case dimension(unit) != dimension(f.Value.Unit):
		n.refuse(f.Value.Span, "unit", fmt.Sprintf("%s is given in %s, not in %s", f.Rule.Text, unitWord(unit), unitWord(f.Value.Unit)))
		return
	}
	clear(n.waits)
	key := limitKey{f.Rule.Text, spelling.Fold(f.For.Text)}
	n.limits.declared[key] = append(n.limits.declared[key], datedLimit{n.now.Date, Limit{
		Value: f.Value.Value.Float(), Unit: f.Value.Unit, Mark: "the journal", Declared: n.now,
	}})
}

func (n *Nursery) unknownLimit(rule fact.Name) {
	var names []string
	for name := range KnownLimits() {
		names = append(names, name)
	}
	hint := "; budstick explain limits lists them"
	if meant, ok := spelling.Suggest(rule.Text, slices.Sorted(slices.Values(names))); ok {
		hint = "; did you mean " + meant + "?"
	}
	n.refuse(rule.Span, "unknown-limit", rule.Text+" is no limit that can be changed"+hint)
}

// dimension puts units of one dimension together.
func dimension(u fact.Unit) string {
	switch u {
	case fact.Day, fact.Week, fact.Month, fact.Year:
		return "time"
	}
	return string(u)
}

func unitWord(u fact.Unit) string {
	switch {
	case u == "":
		return "a plain number"
	case dimension(u) == "time":
		return "days, weeks or months"
	}
	return string(u)
}
