package fact

// MinorUnit is how many decimals the minor unit of a currency has: 2 for EUR, whose
// cent is a hundredth, 0 for JPY. It reports false for a code in capitals that
// ISO 4217 doesn't list as money with a minor unit, such as the precious metals
// and the codes for testing.
func MinorUnit(code string) (decimals int, ok bool) {
	d, ok := minorUnits[code]
	return int(d), ok
}
