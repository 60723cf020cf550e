package sheet

// Cut is one straight cut of a paper trimmer, from edge to edge of the sheet.
type Cut struct {
	Number  int     // in the order to cut, as it stands beside the cut's marks on the sheet
	Upright bool    // runs up the sheet, else across it
	At      float64 // from the sheet's left edge, or from its upper one, in mm
}

// Cuts are the trimmer cuts that have marks on the sheet, in their order: those
// of a straight layout, none of any other.
func (m Marks) Cuts() []Cut {
	var all []Cut
	for i, t := range m.trims {
		all = append(all, Cut{i + 1, t.upright, t.at})
	}
	return all
}
