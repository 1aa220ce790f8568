package entry

import "testing"

// ISO 3166-1 assigns codes to 249 countries and areas (the number, and the codes
// below, from memory). Three letters that nobody has, that only exist in the
// standard as former or reserved, or that look like a code, are none.
func TestCountries(t *testing.T) {
	count := 0
	for _, a := range letters {
		for _, b := range letters {
			for _, c := range letters {
				if isCountry(string([]rune{a, b, c})) {
					count++
				}
			}
		}
	}
	if count != 249 {
		t.Errorf("%d countries", count)
	}
	for _, code := range []string{"AUS", "ESP", "GBR", "GRC", "PSE", "SSD", "CUW", "TLS", "MKD", "SWZ", "ROU", "COD", "SRB", "MNE", "BES", "ALA", "ATA"} {
		if !isCountry(code) {
			t.Errorf("%s is a country", code)
		}
	}
	for _, code := range []string{"XXX", "ZZZ", "AAA", "QAA", "XKX", "XKK", "EUR", "EUE", "ROM", "ZAR", "TMP", "BUR", "DDR", "SUN", "YUG", "SCG", "ANT", "NTZ", "ASC", "esp", "ES", "UK", "724", ""} {
		if isCountry(code) {
			t.Errorf("%s is no country", code)
		}
	}
}

const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
