package nest

import "underflap/liner/geom"

// Most lays as many equal pieces as it can, up to a number, in one or two blocks
// of rows, or of columns: a block repeats one row, and the second one fills what
// the first leaves. Of two ways with as many the first found stays, the one of
// one block if there is one.
func (r Room) Most(cut, inside geom.Contour, gap float64, most int) []Placed {
	k := newKit(cut, inside, gap)
	rows := r.blocks(k, most)
	var columns []spot
	if len(rows) < most {
		columns = Room{r.Height, r.Width}.blocks(k, most)
	}
	switch {
	case len(rows) == 0 && len(columns) == 0:
		return nil
	case len(columns) <= len(rows):
		return k.placed(r, rows)
	}
	all := k.placed(Room{r.Height, r.Width}, columns)
	r.back(all)
	return all
}

// placed puts a group in the middle of the room.
func (k *kit) placed(r Room, group []spot) []Placed {
	x, y := r.middle(k.box(group))
	var out []Placed
	for _, s := range group {
		out = append(out, Placed{k.poses[s.pose].Turn, s.x + x, s.y + y})
	}
	return out
}

// blocks finds the best of one or two blocks of rows over each other.
func (r Room) blocks(k *kit, most int) []spot {
	var rows []row
	for pose := range 2 { // the others make the same rows
		if !k.poses[pose].fits(r.Width, r.Height) {
			continue
		}
		for _, units := range k.units(r, pose) {
			if row := k.row(units, r.Width, most); len(row.spots) > 0 {
				rows = append(rows, row)
			}
		}
	}
	n, first, second := 0, row{}, row{}
	var of [2]int // rows of each
	for _, row := range rows {
		if fit := row.rows(r.Height); fit*len(row.spots) > n {
			n, first, of = fit*len(row.spots), row, [2]int{fit, 0}
		}
	}
	for _, lower := range rows {
		for _, upper := range rows {
			if n >= most {
				break
			}
			if lower.spots[0].pose%2 == upper.spots[0].pose%2 {
				continue
			}
			over := k.lift(lower.spots, upper.spots)
			for i := lower.rows(r.Height); i > 0; i-- {
				fit := upper.rows(r.Height - float64(i-1)*lower.step - over)
				if sum := i*len(lower.spots) + fit*len(upper.spots); sum > n {
					n, first, second, of = sum, lower, upper, [2]int{i, fit}
				}
			}
		}
	}
	all := first.heap(of[0], 0)
	if of[1] > 0 {
		all = append(all, second.heap(of[1], float64(of[0]-1)*first.step+k.lift(first.spots, second.spots))...)
	}
	return all[:min(n, most)]
}

// DeepestOf finds the greatest depth in [least, most] at which so many equal
// pieces fit in blocks of rows.
func (r Room) DeepestOf(n int, piece Piece, gap, least, most float64) (depth float64, at []Placed, ok bool) {
	try := func(d float64) []Placed {
		cut, inside := piece(d)
		return r.Most(cut, inside, gap, n)
	}
	if at = try(most); len(at) == n {
		return most, at, true
	}
	if at = try(least); len(at) < n {
		return 0, nil, false
	}
	low, high := least, most
	for high-low > 1e-4 {
		mid := (low + high) / 2
		if got := try(mid); len(got) == n {
			low, at = mid, got
		} else {
			high = mid
		}
	}
	return low, at, true
}
