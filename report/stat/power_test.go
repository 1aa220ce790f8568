package stat

import "testing"

// The examples of power.prop.test in R's manual: 76.7 per group tell 0.50
// from 0.75 with power 0.90 (from memory).
func TestPerGroup(t *testing.T) {
	n, ok := PerGroup(0.50, 0.75, 1, 0.95, 0.90)
	if !ok || n != 77 {
		t.Errorf("0.50 from 0.75 takes %d, ok %v, want 76.7 rounded up", n, ok)
	}
	turned, _ := PerGroup(0.25, 0.50, 1, 0.95, 0.90)
	if turned != n {
		t.Errorf("counting failures takes %d, counting successes %d", turned, n)
	}
	lots, _ := PerGroup(0.50, 0.75, 2, 0.95, 0.90)
	if lots != 154 { // 2 x 76.65 rounded up
		t.Errorf("with overdispersion of 2 it takes %d, want 154", lots)
	}
	if same, ok := PerGroup(0.5, 0.5, 1, 0.95, 0.9); ok {
		t.Errorf("%d trials tell a rate from itself", same)
	}
	if n, ok := PerGroup(0, 1, 1, 0.95, 0.8); !ok || n < 1 {
		t.Errorf("none from all takes %d, ok %v", n, ok)
	}
}
