package stat

// sparse is a vector with few entries other than 0, cleared in time in
// proportion to them.
type sparse struct {
	value   []float64
	in      []bool
	touched []int32
}

func newSparse(size int) *sparse {
	return &sparse{value: make([]float64, size), in: make([]bool, size)}
}

func (s *sparse) add(j int32, v float64) {
	if !s.in[j] {
		s.in[j] = true
		s.touched = append(s.touched, j)
	}
	s.value[j] += v
}

func (s *sparse) clear() {
	for _, j := range s.touched {
		s.value[j], s.in[j] = 0, false
	}
	s.touched = s.touched[:0]
}
