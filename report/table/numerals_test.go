package table

import (
	"math"
	"testing"

	"golang.org/x/text/language"
)

func TestWriteCell(t *testing.T) {
	two := look{digits: 2}
	tests := []struct {
		cell Cell
		look look
		want string
	}{
		{Unknown(), two, "–"},
		{Text("a\tb"), two, "a␉b"},
		{Count(1234567), two, "1,234,567"},
		{Days(-3), two, "-3"},
		{Rate(0), two, "0%"},
		{Rate(0.001), two, "<1%"},
		{Rate(0.754), two, "75%"},
		{Rate(0.9951), two, ">99%"},
		{Rate(0.9949), two, "99%"},
		{Rate(1), two, "100%"},
		{Rate(math.NaN()), two, "–"},
		{Change(0.1234), two, "+12.3"},
		{Change(-0.1), two, "-10.0"},
		{Change(0.0001), two, "0.0"},
		{Change(-0.0001), two, "0.0"},
		{Number(2.345), two, "2.35"}, // as people round; the nearest float is a little below
		{Number(0.001), two, "<0.01"},
		{Number(math.Copysign(0, -1)), two, "0.00"},
		{Number(math.Inf(1)), two, "∞"},
		{Number(math.Inf(-1)), two, "-∞"},
		{PValue(0.00001), two, "<0.001"},
		{PValue(0.0499), two, "0.050"},
		{PValue(0.9999), two, ">0.999"},
		{Money("1204.335", "EUR"), two, "1,204.34"},
		{Money("-1204.335", "EUR"), two, "-1,204.34"},
		{Money("-0.001", "EUR"), two, "0.00"},
		{Money("12", "EUR"), look{digits: 2, code: true}, "EUR\u00a012.00"},
		{Money("98765432109876543210.99", "EUR"), two, "98765432109876543210.99"},
		{Quantity("2.50"), look{digits: 1}, "2.5"},
		{Date("2026-03-14"), two, "2026-03-14"},
	}
	n := newNumerals(language.Und)
	for _, test := range tests {
		if got := n.write(test.cell, test.look); got != test.want {
			t.Errorf("%+v = %q, want %q", test.cell, got, test.want)
		}
	}
}

// What the languages expect is from the Unicode Common Locale Data Repository,
// as memory has it: German writes a point between thousands, Swiss German an
// apostrophe; Turkish puts the sign of per cent first; Hindi groups by lakh.
func TestLanguages(t *testing.T) {
	tests := []struct{ tag, decimal, percent string }{
		{"und", "1,234,567.50", "62%"},
		{"en", "1,234,567.50", "62%"},
		{"de", "1.234.567,50", "62\u00a0%"},
		{"de-CH", "1’234’567.50", "62%"},
		{"fr", "1\u00a0234\u00a0567,50", "62\u00a0%"},
		{"tr", "1.234.567,50", "%62"},
		{"hi", "12,34,567.50", "62%"},
		{"fa", "۱٬۲۳۴٬۵۶۷٫۵۰", "۶۲٪"},
	}
	for _, test := range tests {
		n := newNumerals(language.MustParse(test.tag))
		if got := n.decimal("1234567.50"); got != test.decimal {
			t.Errorf("%s: %q, want %q", test.tag, got, test.decimal)
		}
		if got := n.write(Rate(0.62), look{}); got != test.percent {
			t.Errorf("%s: %q, want %q", test.tag, got, test.percent)
		}
	}
}

// The minor units are those of ISO 4217: none for JPY, two for EUR and RSD,
// three for BHD.
func TestMoneyDigits(t *testing.T) {
	tests := []struct {
		code      string
		has, want int
	}{
		{"EUR", 0, 2}, {"EUR", 1, 2}, {"EUR", 2, 2}, {"EUR", 7, 2},
		{"JPY", 0, 0}, {"JPY", 5, 2}, // an average of yen may have parts
		{"RSD", 2, 2},
		{"BHD", 0, 3}, {"BHD", 3, 3}, {"BHD", 9, 3},
	}
	for _, test := range tests {
		if got := moneyDigits(test.code, test.has); got != test.want {
			t.Errorf("moneyDigits(%s, %d) = %d, want %d", test.code, test.has, got, test.want)
		}
	}
}

func TestInterval(t *testing.T) {
	two := look{digits: 2}
	tests := []struct {
		low, high Cell
		want      string
	}{
		{Rate(0.6), Rate(0.86), "60–86%"},
		{Rate(0.001), Rate(0.14), "<1–14%"},
		{Rate(0.5), Unknown(), "from 50%"},
		{Unknown(), Rate(0.5), "to 50%"},
		{Unknown(), Unknown(), "–"},
		{Change(-0.1), Change(0.05), "-10.0 to +5.0"},
		{Number(-1), Number(2), "-1.00 to 2.00"},
		{Number(1.5), Number(math.Inf(1)), "1.50–∞"},
	}
	n := newNumerals(language.Und)
	for _, test := range tests {
		if got := n.interval(test.low, test.high, two); got != test.want {
			t.Errorf("interval = %q, want %q", got, test.want)
		}
	}
}
