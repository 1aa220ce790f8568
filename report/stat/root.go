package stat

import "math"

// crossing is the point at which the increasing function f passes zero, found
// to the last bit by bisection. The search widens from start by doubling
// steps until it has f on both sides; ok is false where f keeps one sign as
// far as floats reach.
func crossing(f func(float64) float64, start, step float64) (at float64, ok bool) {
	low, high := start, start
	for f(low) > 0 {
		low -= step
		step *= 2
		if math.IsInf(low, 0) {
			return 0, false
		}
	}
	for f(high) < 0 {
		high += step
		step *= 2
		if math.IsInf(high, 0) {
			return 0, false
		}
	}
	for {
		middle := low + (high-low)/2
		if middle <= low || middle >= high {
			return middle, true
		}
		if f(middle) < 0 {
			low = middle
		} else {
			high = middle
		}
	}
}
