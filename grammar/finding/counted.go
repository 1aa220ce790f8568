package finding

import "strconv"

// Counted writes a number with its noun: 1 plant, 2 plants.
func Counted[N ~int | ~int32 | ~int64](n N, one, many string) string {
	return strconv.FormatInt(int64(n), 10) + " " + Either(n, one, many)
}

// Either is the word that goes with one, or that which goes with any other number.
func Either[N ~int | ~int32 | ~int64](n N, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
