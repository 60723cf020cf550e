package gang

// fractions solves the linear program of covering: sheets of each way, in
// fractions, that cover a need at the least cost, and for each kind the price of
// one liner, none of which any way sells dearer than it costs. It is the simplex
// method on the program of the prices (Dantzig), with Bland's rule, so that it
// ends.
func fractions(need []int, ways [][]int, cost []float64) (sheets, prices []float64) {
	const tiny = 1e-9
	n, m := len(need), len(ways)
	// rows: for each way, its liners' prices and its slack are its cost
	table := make([][]float64, m)
	basis := make([]int, m)
	width := n + m + 1
	for i, w := range ways {
		table[i] = make([]float64, width)
		for k, c := range w {
			table[i][k] = float64(c)
		}
		table[i][n+i], table[i][width-1], basis[i] = 1, cost[i], n+i
	}
	gain := make([]float64, width) // what a price still adds
	for k, v := range need {
		gain[k] = float64(v)
	}
	for range 50 * (n + m) {
		enter := -1
		for k := range width - 1 {
			if gain[k] > tiny {
				enter = k
				break
			}
		}
		if enter < 0 {
			break
		}
		leave := -1
		for i := range table {
			if table[i][enter] <= tiny {
				continue
			}
			if leave < 0 {
				leave = i
				continue
			}
			a, b := table[i][width-1]/table[i][enter], table[leave][width-1]/table[leave][enter]
			if a < b-tiny || a < b+tiny && basis[i] < basis[leave] {
				leave = i
			}
		}
		if leave < 0 {
			break // a kind that no way has: callers give each its own
		}
		pivot := table[leave]
		by := pivot[enter]
		for k := range pivot {
			pivot[k] /= by
		}
		for i, row := range table {
			if by := row[enter]; i != leave && by != 0 {
				for k := range row {
					row[k] -= by * pivot[k]
				}
			}
		}
		if by := gain[enter]; by != 0 {
			for k := range gain {
				gain[k] -= by * pivot[k]
			}
		}
		basis[leave] = enter
	}
	sheets, prices = make([]float64, m), make([]float64, n)
	for i, b := range basis {
		if b < n {
			prices[b] = max(0, table[i][width-1]) // but for rounding
		}
	}
	for i := range ways {
		sheets[i] = max(0, -gain[n+i])
	}
	return sheets, prices
}
