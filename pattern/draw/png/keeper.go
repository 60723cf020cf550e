package png

import "underflap/pattern/draw/recall"

// Keeper remembers pictures brought to a density from page to page, for pages
// that show the same ones (the same *draw.Image) again at the same size. It keeps
// no picture alive. Files are the same with it and without. A nil one keeps nothing.
type Keeper struct{ store *recall.Store[tileKey, *tile] }

// NewKeeper keeps tiles of so many bytes together at most.
func NewKeeper(bytes int64) *Keeper { return &Keeper{recall.New[tileKey, *tile](bytes)} }

// Weight is how many bytes are kept.
func (k *Keeper) Weight() int64 {
	if k == nil {
		return 0
	}
	return k.store.Weight()
}
