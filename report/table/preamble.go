package table

import "strings"

// preamble says in words what was counted and when.
func (d Doc) preamble() []string {
	var lines []string
	when := d.Period.words()
	switch {
	case d.Basis == Cohort && when != "":
		lines = append(lines, "Follows what was started in "+when+", wherever it is now.")
	case d.Basis == Cohort:
		lines = append(lines, "Follows everything ever started, wherever it is now.")
	case d.Basis == Calendar && when != "":
		lines = append(lines, "Counts what happened in "+when+".")
	case d.Basis == Calendar:
		lines = append(lines, "Counts everything that happened.")
	case when != "":
		lines = append(lines, "For "+when+".")
	}
	if d.AsAt != "" {
		lines = append(lines, "As known on "+d.AsAt+".")
	}
	if len(d.Filters) > 0 {
		var parts []string
		for _, f := range d.Filters {
			parts = append(parts, f.Name+" "+f.Value)
		}
		lines = append(lines, "Only: "+visible(strings.Join(parts, "; "))+".")
	}
	return lines
}

// words names the period, "" when it is all of time.
func (p Period) words() string {
	days := ""
	switch {
	case p.From != "" && p.To != "":
		days = p.From + " to " + p.To
	case p.From != "":
		days = "the days from " + p.From + " on"
	case p.To != "":
		days = "the days up to " + p.To
	}
	switch {
	case p.Name == "":
		return days
	case days == "":
		return visible(p.Name)
	}
	return visible(p.Name) + " (" + days + ")"
}
