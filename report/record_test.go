package report

import (
	"bytes"
	"encoding/csv"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/report/table"
)

// The descriptors of the Multi-crop Passport Descriptors V.2.1 by their numbers,
// with the codes that some may have (Alercia, Diulgheroff and Mackay 2015, FAO
// and Bioversity International; from memory).
var (
	mcpdNames = []string{
		0: "PUID", 1: "INSTCODE", 2: "ACCENUMB", 3: "COLLNUMB", 4: "COLLCODE COLLNAME COLLINSTADDRESS COLLMISSID", 5: "GENUS", 6: "SPECIES",
		7: "SPAUTHOR", 8: "SUBTAXA", 9: "SUBTAUTHOR", 10: "CROPNAME", 11: "ACCENAME", 12: "ACQDATE", 13: "ORIGCTY", 14: "COLLSITE",
		15: "DECLATITUDE LATITUDE DECLONGITUDE LONGITUDE COORDUNCERT COORDDATUM GEOREFMETH", 16: "ELEVATION", 17: "COLLDATE",
		18: "BREDCODE BREDNAME", 19: "SAMPSTAT", 20: "ANCEST", 21: "COLLSRC", 22: "DONORCODE DONORNAME", 23: "DONORNUMB", 24: "OTHERNUMB",
		25: "DUPLSITE DUPLINSTNAME", 26: "STORAGE", 27: "MLSSTAT", 28: "REMARKS",
	}
	mcpdCodes = map[string][]string{
		"SAMPSTAT": strings.Fields("100 110 120 130 200 300 400 410 411 412 413 414 415 416 420 421 422 423 500 600 999"),
		"COLLSRC":  strings.Fields("10 11 12 13 14 15 16 20 21 22 23 24 25 26 27 28 30 40 50 60 61 62 99"),
		"STORAGE":  strings.Fields("10 11 12 13 20 30 40 50 99"),
		"MLSSTAT":  strings.Fields("0 1 99"),
	}
	mcpdDate    = regexp.MustCompile(`^([0-9]{4})([0-9]{2}|--)([0-9]{2}|--)$`)
	mcpdRemarks = regexp.MustCompile(`^([A-Z]+:[^;]+)(;[A-Z]+:[^;]+)*$`)
)

// The trees of Kestrel Hollow go out as the standard has it: its header and
// nothing else, dates of eight signs, codes from its lists, remarks behind the
// descriptor that each is about, and three letters for a country (ISO 3166-1).
func TestAccessionsFollowTheStandard(t *testing.T) {
	n := kestrelHollow(t)
	doc, err := record.Build(n, Options{AsAt: n.Last, For: "germplasm"})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := table.WriteCSV(&b, *doc, ""); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if want := strings.Fields(strings.Join(mcpdNames, " ")); !slices.Equal(rows[0], want) {
		t.Errorf("header %v, want %v", rows[0], want)
	}
	standing := 0
	for _, tree := range n.Trees {
		if tree.Standing() {
			standing++
		}
	}
	if len(rows)-1 != standing {
		t.Errorf("%d accessions of %d standing trees", len(rows)-1, standing)
	}
	seen := map[string]bool{}
	for _, row := range rows[1:] {
		value := map[string]string{}
		for i, name := range rows[0] {
			value[name] = row[i]
		}
		for name, codes := range mcpdCodes {
			if value[name] != "" && !slices.Contains(codes, value[name]) {
				t.Errorf("%s: %s is %s", value["ACCENUMB"], name, value[name])
			}
		}
		for name, form := range map[string]*regexp.Regexp{"ACQDATE": mcpdDate, "REMARKS": mcpdRemarks, "ORIGCTY": regexp.MustCompile(`^[A-Z]{3}$`)} {
			if value[name] != "" && !form.MatchString(value[name]) {
				t.Errorf("%s: %s is %s", value["ACCENUMB"], name, value[name])
			}
		}
		if number := value["ACCENUMB"]; number == "" || seen[number] || value["GENUS"] == "" {
			t.Errorf("accession %v", value)
		}
		seen[value["ACCENUMB"]] = true
	}
}

// Whatever is made for an authority says who decides.
func TestPapersDeferToTheAuthority(t *testing.T) {
	n := kestrelHollow(t)
	for _, c := range []struct {
		report *Report
		o      Options
	}{{record, Options{For: "inspection"}}, {record, Options{For: "germplasm"}}, {label, Options{Name: "AM26t"}}} {
		c.o.AsAt = n.Last
		doc, err := c.report.Build(n, c.o)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Contains(doc.Cautions, deferral) {
			t.Errorf("%s %s defers to nobody", c.report.Name, c.o.For)
		}
		for _, block := range doc.Body {
			if sheet, ok := block.(table.Labels); ok && sheet.Foot != deferral {
				t.Errorf("a sheet of labels defers to nobody")
			}
		}
	}
}

// In the farm's book every plant that left stands on the sheet, and every dose
// that was written stays off it.
func TestInspectionSheetIsWholeAndWithoutDoses(t *testing.T) {
	n := kestrelHollow(t)
	doc, err := record.Build(n, Options{AsAt: n.Last})
	if err != nil {
		t.Fatal(err)
	}
	sold := int32(0)
	for _, l := range n.Lots {
		sold += l.Out[fact.Sold] + l.Out[fact.Given]
	}
	out := 0
	for _, tab := range doc.Tables() {
		if tab.Name != "departures" {
			continue
		}
		for _, row := range tab.Rows {
			if state := row[7].Plain(); state == "living" || state == "failed" || state == "waiting" {
				count, err := strconv.Atoi(row[6].Plain())
				if err != nil {
					t.Error(err)
				}
				out += count
			}
		}
	}
	if out != int(sold) || out == 0 {
		t.Errorf("%d plants on the sheet, %d by the book", out, sold)
	}
	if text := string(jsonOf(t, *doc)); strings.Contains(text, "ppm") {
		t.Error("a dose is on the sheet")
	}
}

// What an error says of an entry, the sheet and the list of buyers leave out, if they
// are made in spite of it: a tree that was never sold, a lot that is not known.
func TestRefusedEntriesAreOnNoPaper(t *testing.T) {
	n := replayed(`farm "Kestrel Hollow" currency EUR
variety Amberlight species "Eriobotrya japonica"
tree M7 variety Amberlight planted 2013
2026-03-02
cut 10 scions from M7 as W7
sell 2 scions of M7 to Bob for 2.00
2026-03-03
lose M7 to frost
sell 5 scions of M7 to Ghost for 5.00
mark M99 sick because "ghost"
treat M99 with ghost registered "1"
`)
	if len(n.Findings) != 3 {
		t.Fatalf("%d errors", len(n.Findings))
	}
	for _, q := range []struct {
		report *Report
		o      Options
	}{{record, Options{AsAt: n.Last}}, {trace, Options{AsAt: n.Last, Name: "M7"}}} {
		doc, err := q.report.Build(n, q.o)
		if err != nil {
			t.Fatal(err)
		}
		text := string(jsonOf(t, *doc))
		if !strings.Contains(text, `"Bob"`) || strings.Contains(strings.ToLower(text), "ghost") {
			t.Errorf("%s: %s", q.report.Name, text)
		}
	}
}
