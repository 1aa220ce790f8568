package report

import "testing"

// A difference that rounds to nothing has no sign.
func TestSignedPoints(t *testing.T) {
	for share, want := range map[float64]string{0.154: "+15", -0.018: "−2", -0.0049: "0", 0.0049: "0", 0: "0"} {
		if got := signed(share); got != want {
			t.Errorf("%v is %s, want %s", share, got, want)
		}
	}
}
