package draw

// Corrected is the page with everything on it stretched about its centre, by kx
// across and ky down, against a printer that shrinks or stretches it by as much.
// Layers stay layers.
func (p *Page) Corrected(kx, ky float64) *Page {
	if kx == 1 && ky == 1 {
		return p
	}
	m := Matrix{A: kx, D: ky, E: p.Width / 2 * (1 - kx), F: p.Height / 2 * (1 - ky)}
	out := *p
	out.Trim = m.Bounds(p.Trim)
	out.Surface = &Surface{record: p.record}
	for _, n := range p.nodes {
		if layer, ok := n.(*Layer); ok {
			group := &Group{Matrix: m, Nodes: layer.Nodes, box: m.Bounds(layer.box)}
			out.add(&Layer{Name: layer.Name, Nodes: []Node{group}, box: group.box})
		} else {
			out.add(&Group{Matrix: m, Nodes: []Node{n}, box: m.Bounds(n.Bounds())})
		}
	}
	return &out
}
