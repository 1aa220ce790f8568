package pedigree

// byTable reckons inbreeding by the tabular method (Emik and Terrill 1949,
// Journal of Heredity 40:51): the coancestry of a seedling with anything older
// is the mean of that of its parents, and with itself (1 + F) / 2. A row is
// kept only until the last seedling of its genotype, in one of width slots.
func byTable(line []cross, youngest []int32, width int) []float64 {
	f := make([]float64, len(line))
	table := make([][]float64, width)
	free := make([]int32, width)
	for slot := range table {
		table[slot] = make([]float64, width)
		free[slot] = int32(slot)
	}
	slots := make([]int32, len(line))
	for i, parents := range line {
		if parents[0] != unknown && parents[1] != unknown {
			f[i] = table[slots[parents[0]]][slots[parents[1]]]
		}
		if youngest[i] != unknown {
			last := len(free) - 1
			slots[i], free = free[last], free[:last]
			fillRow(table, slots[i], parents.renumbered(slots), f[i])
		}
		for _, parent := range freed(i, parents, youngest) {
			free = append(free, slots[parent])
		}
	}
	return f
}

// fillRow sets the row and the column of slot, from the rows of the parents.
// Slots that are free get numbers without meaning, which are never read.
func fillRow(table [][]float64, slot int32, parents cross, f float64) {
	row := table[slot]
	clear(row)
	for _, parent := range parents {
		if parent != unknown {
			for other, coancestry := range table[parent] {
				row[other] += coancestry / 2
			}
		}
	}
	row[slot] = (1 + f) / 2
	for other, coancestry := range row {
		table[other][slot] = coancestry
	}
}

// widest is the most rows that byTable holds at a time.
func widest(line []cross, youngest []int32) int {
	now, most := 0, 0
	for i, parents := range line {
		if youngest[i] != unknown {
			now++
			most = max(most, now)
		}
		now -= len(freed(i, parents, youngest))
	}
	return most
}

// freed gives those of parents whose last seedling is i, each once.
func freed(i int, parents cross, youngest []int32) []int32 {
	known := parents[:]
	if parents[0] == parents[1] {
		known = parents[:1]
	}
	var done []int32
	for _, parent := range known {
		if parent != unknown && youngest[parent] == int32(i) {
			done = append(done, parent)
		}
	}
	return done
}
