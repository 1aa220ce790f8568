package money_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/report/money"
)

func TestParse(t *testing.T) {
	for in, want := range map[string]string{
		"0": "0", "-0": "0", "0.00": "0", "12": "12", "12.50": "12.5", "-0.001": "-0.001",
		"007.5": "7.5", "0.0000000010": "0.000000001", "1000": "1000",
		"9223372036.854775807": "9223372036.854775807", "9223372036.854775808": "9223372036.854775808",
		"-9223372036.854775809":                  "-9223372036.854775809",
		"123456789012345678901234567890.1000000": "123456789012345678901234567890.1",
	} {
		got, err := money.Parse(in)
		if err != nil || got.String() != want {
			t.Errorf("Parse(%q) = %s, %v; want %s", in, got, err, want)
		}
	}
	for _, in := range []string{"", "-", ".", ".5", "5.", "+5", "1,50", "1 000", "1e3", "NaN", "Infinity", "0x10",
		"1_000", "--1", "1.2.3", "٣", "0.0000000001", "12.50 EUR"} {
		if got, err := money.Parse(in); err == nil {
			t.Errorf("Parse(%q) = %s, want it refused", in, got)
		}
	}
}

func TestFixed(t *testing.T) {
	for _, c := range []struct {
		in     string
		places int
		want   string
	}{
		{"12.5", 2, "12.50"}, {"12.5", 0, "12"}, {"13.5", 0, "14"}, {"0", 2, "0.00"}, {"0", 0, "0"},
		{"-0.004", 2, "0.00"}, {"-0.005", 2, "0.00"}, {"-0.015", 2, "-0.02"}, {"1.0005", 3, "1.000"},
		{"7", 9, "7.000000000"}, {"7", 12, "7.000000000"}, {"7.4", -3, "7"},
		{"99999999999999999.995", 2, "100000000000000000.00"},
	} {
		if got := amt(t, c.in).Fixed(c.places); got != c.want {
			t.Errorf("%s to %d places is %s, want %s", c.in, c.places, got, c.want)
		}
	}
}

func TestTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := amounts().Draw(t, "a")
		places := rapid.IntRange(0, money.Guard).Draw(t, "places")
		if got, err := money.Parse(a.String()); err != nil || got != a {
			t.Fatalf("%s reads back as %s (%v)", a, got, err)
		}
		text := a.Fixed(places)
		if got, err := money.Parse(text); err != nil || got != a.Round(places, money.HalfEven) {
			t.Fatalf("%s to %d places is %s, which reads as %s (%v)", a, places, text, got, err)
		}
		if _, frac, _ := strings.Cut(text, "."); len(frac) != places {
			t.Fatalf("%s has %d decimals, want %d", text, len(frac), places)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"12.50", "-0.000000001", "99999999999999999999", "1e9", "", "-", "1.", "½"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		a, err := money.Parse(s)
		if err != nil {
			return
		}
		if got, err := money.Parse(a.String()); err != nil || got != a {
			t.Errorf("%q is %s, which reads back as %s (%v)", s, a, got, err)
		}
		if rat(a).Cmp(exactly(t, s)) != 0 {
			t.Errorf("%q is %s", s, a)
		}
	})
}
