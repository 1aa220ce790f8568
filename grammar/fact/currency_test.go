package fact_test

import (
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/currency"

	"github.com/budstick/budstick/grammar/fact"
)

// The table comes from memory, so it is checked against x/text/currency, which
// is made from CLDR 32 of 2017. The two may differ in three known ways.
const (
	// CLDR writes these with no decimals, as people do there; ISO 4217 gives
	// them a minor unit.
	customary = "AFN ALL AMD COP GYD IDR IQD IRR KPW LAK LBP MGA MMK MNT MUR PKR RSD SLL SOS SYP TZS UZS YER"
	// Legal tender in 2017, withdrawn in 2018.
	goneIn2018 = "MRO VEF"
	// New, or in use under a code of their own, only after 2017.
	newer = "MRU SLE UYW VED VES XAD XCG ZWG"
)

func TestMinorAgainstText(t *testing.T) {
	for it := currency.Query(currency.NonTender); it.Next(); {
		code := it.Unit().String()
		want, _ := currency.Standard.Rounding(it.Unit())
		got, ok := fact.MinorUnit(code)
		switch {
		case !ok && it.IsTender() && !strings.Contains(goneIn2018, code):
			t.Errorf("%s is missing", code)
		case ok && strings.Contains(customary, code):
			if want != 0 || got == 0 {
				t.Errorf("%s has %d decimals and CLDR %d: no longer a known difference", code, got, want)
			}
		case ok && got != want:
			t.Errorf("%s has %d decimals, CLDR %d", code, got, want)
		}
	}
}

// TestMinorHasNoStrangers looks the other way: every code of the table is one
// that x/text knows, or a newer one.
func TestMinorHasNoStrangers(t *testing.T) {
	var strangers []string
	for _, code := range codes() {
		if _, ok := fact.MinorUnit(code); !ok {
			continue
		}
		if unit, err := currency.ParseISO(code); err != nil || unit.String() != code {
			strangers = append(strangers, code)
		}
	}
	if want := strings.Fields(newer); !slices.Equal(strangers, want) {
		t.Errorf("not in x/text: %v, want %v", strangers, want)
	}
}

// codes is every word of three capitals.
func codes() (all []string) {
	for a := 'A'; a <= 'Z'; a++ {
		for b := 'A'; b <= 'Z'; b++ {
			for c := 'A'; c <= 'Z'; c++ {
				all = append(all, string([]rune{a, b, c}))
			}
		}
	}
	return all
}

func TestMinorUnit(t *testing.T) {
	for code, want := range map[string]int{"EUR": 2, "USD": 2, "JPY": 0, "KWD": 3, "CLF": 4, "HRK": 2} {
		if got, ok := fact.MinorUnit(code); !ok || got != want {
			t.Errorf("MinorUnit(%s) = %d, %t; want %d", code, got, ok, want)
		}
	}
	for _, code := range []string{"", "eur", "XAU", "XXX", "XTS", "DEM", "EURO"} {
		if got, ok := fact.MinorUnit(code); ok {
			t.Errorf("MinorUnit(%q) = %d, want none", code, got)
		}
	}
}
