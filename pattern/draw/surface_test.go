package draw

import "testing"

// A square of 2 mm on a surface clipped to 0..10, through a turn by 45 degrees:
// its box there is 2.83 mm (2 times the square root of 2) high and wide. The
// margin around the clip is half a millimetre.
func TestWhatLiesOutsideAClipIsNotRecorded(t *testing.T) {
	square := Rectangle(Rect{-1, -1, 1, 1})
	for x, want := range map[float64]int{-1.92: 0, -1.90: 3, 5: 3, 11.90: 3, 11.92: 0} {
		s := NewSurface()
		symbol := s.Symbol("square", func(s *Surface) { s.Fill(square, White) })
		s.Clipped(Rectangle(Rect{0, 0, 10, 10}), func(s *Surface) {
			s.Within(Translate(x, 5).After(Turn(45)), func(s *Surface) {
				s.Fill(square, White)
				s.Stroke(Rectangle(Rect{-0.9, -0.9, 0.9, 0.9}), White, 0.2)
				s.Place(symbol, Identity, Translate(100, 0))
			})
		})
		recorded := 0
		Walk(s.Nodes(), func(n Node) {
			switch n := n.(type) {
			case *Fill, *Stroke:
				recorded++
			case *Use:
				if len(n.At) != 1 {
					t.Errorf("at %g: %d places of the symbol recorded; want 1", x, len(n.At))
				}
			}
		})
		if recorded != want { // the symbol's own fill is walked with its use
			t.Errorf("at %g: %d recorded; want %d", x, recorded, want)
		}
	}
}
