package pdf

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"maps"
	"slices"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// joined is one file on its way into another.
type joined struct {
	*joiner
	until  context.Context
	ctx    *model.Context
	met    map[int]types.IndirectRef // by their old numbers, objects already written
	within map[int]bool              // those being written
}

// first takes over what a file says of itself.
func (p *joined) first(root types.Dict) error {
	p.root = root.Clone().(types.Dict)
	for _, key := range []string{"Pages", "OCProperties", "Names"} {
		p.root.Delete(key)
	}
	p.info = types.Dict{}
	if p.ctx.Info != nil {
		info, err := p.ctx.DereferenceDict(*p.ctx.Info)
		if err != nil {
			return err
		}
		p.info = info.Clone().(types.Dict)
	}
	if err := p.carry(p.root); err != nil {
		return err
	}
	return p.carry(p.info)
}

// layersOf gives each of a file's layers the one of its name (ISO 32000-1, 8.11). A
// new one begins as it did in the file.
func (p *joined) layersOf(root types.Dict) error {
	properties, err := p.ctx.DereferenceDict(root["OCProperties"])
	if err != nil || properties == nil {
		return err
	}
	groups, err := p.ctx.DereferenceArray(properties["OCGs"])
	if err != nil {
		return err
	}
	off := map[int]bool{}
	if usual, err := p.ctx.DereferenceDict(properties["D"]); err == nil && usual != nil {
		switchedOff, err := p.ctx.DereferenceArray(usual["OFF"])
		if err != nil {
			return err
		}
		for _, o := range switchedOff {
			if ref, ok := o.(types.IndirectRef); ok {
				off[ref.ObjectNumber.Value()] = true
			}
		}
	}
	for _, o := range groups {
		ref, ok := o.(types.IndirectRef)
		if !ok {
			return errors.New("a layer that is no object of its own")
		}
		number := ref.ObjectNumber.Value()
		group, err := p.ctx.DereferenceDict(ref)
		if err != nil {
			return err
		}
		name, err := p.ctx.DereferenceText(group["Name"])
		if err != nil {
			return err
		}
		layer, known := p.layers[name]
		if !known {
			layer = p.place()
			p.layers[name] = layer
			p.order = append(p.order, layer)
			if off[number] {
				p.off = append(p.off, layer)
			}
			group = group.Clone().(types.Dict)
			if err := p.carry(group); err != nil {
				return err
			}
			p.put(layer, group, nil)
		}
		p.met[number] = layer
	}
	return nil
}

// carry writes all that a dictionary refers to and makes it refer to that.
func (p *joined) carry(d types.Dict) error {
	for _, key := range slices.Sorted(maps.Keys(d)) { // which numbers them
		carried, err := p.carried(d[key])
		if err != nil {
			return err
		}
		d[key] = carried
	}
	return nil
}

func (p *joined) carried(o types.Object) (types.Object, error) {
	switch o := o.(type) {
	case types.IndirectRef:
		return p.moved(o)
	case types.Dict:
		return o, p.carry(o)
	case types.Array:
		for i, entry := range o {
			carried, err := p.carried(entry)
			if err != nil {
				return nil, err
			}
			o[i] = carried
		}
	}
	return o, nil
}

// moved writes one object, unless there is one like it.
func (p *joined) moved(ref types.IndirectRef) (types.Object, error) {
	number := ref.ObjectNumber.Value()
	if there, ok := p.met[number]; ok {
		return there, nil
	}
	if p.within[number] {
		return nil, fmt.Errorf("object %d holds itself", number)
	}
	if err := p.until.Err(); err != nil {
		return nil, err
	}
	p.within[number] = true
	defer delete(p.within, number)
	o, err := p.ctx.Dereference(ref)
	if err != nil || o == nil {
		return nil, err // of nothing: null
	}
	var data []byte
	if stream, ok := o.(types.StreamDict); ok {
		stream.Dict["Length"] = types.Integer(len(stream.Raw))
		o, data = stream.Dict, stream.Raw
		if data == nil {
			data = []byte{}
		}
	}
	if o, err = p.carried(o); err != nil {
		return nil, err
	}
	sum := sha256.New()
	fmt.Fprintf(sum, "%s\nstream %t\n", o.PDFString(), data != nil)
	sum.Write(data)
	alike := [sha256.Size]byte(sum.Sum(nil))
	there, known := p.same[alike]
	if !known {
		there = p.place()
		p.put(there, o, data)
		p.same[alike] = there
	}
	p.met[number] = there
	return there, p.err
}
