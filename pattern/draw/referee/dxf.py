# What ezdxf makes of the DXF files named on the command line: a JSON object each.
# Ends of arcs, boxes and areas are the library's own.
import json, sys
import ezdxf
from ezdxf import bbox
from ezdxf.math import area


def ends(e):
    if e.dxftype() == "ARC":
        return e.start_point, e.end_point
    return e.dxf.start, e.dxf.end


def chords(e, start):
    """The entity as points, from the end that lies at start."""
    if e.dxftype() == "ARC":
        points = list(e.flattening(1e-5))
    else:
        points = [e.dxf.start, e.dxf.end]
    return points if points[0].distance(start) <= points[-1].distance(start) else points[::-1]


def loops(entities):
    """Follows entities end to end in their order; gives each closed chain as
    points, and the greatest gap between two that follow each other."""
    found, worst, i = [], 0.0, 0
    while i < len(entities):
        a, b = ends(entities[i])
        if i + 1 < len(entities):  # begin where the next one does not
            c, d = ends(entities[i + 1])
            if min(a.distance(c), a.distance(d)) < min(b.distance(c), b.distance(d)):
                a, b = b, a
        first, at, ring = a, a, []
        while True:
            points = chords(entities[i], at)
            worst = max(worst, points[0].distance(at))
            ring += points[:-1]
            s, e = ends(entities[i])
            at = e if s.distance(at) <= e.distance(at) else s
            i += 1
            if at.distance(first) < 1e-6 or i == len(entities):
                break
        worst = max(worst, at.distance(first))
        found.append(ring + [ring[0]])
    return found, worst


for name in sys.argv[1:]:
    doc = ezdxf.readfile(name)
    space = doc.modelspace()
    out = {
        "version": doc.dxfversion,
        "errors": [e.message for e in doc.audit().errors],
        "layers": [layer.dxf.name for layer in doc.layers],
        "types": sorted({e.dxftype() for e in space}),
        "extmin": list(doc.header["$EXTMIN"])[:2],
        "extmax": list(doc.header["$EXTMAX"])[:2],
    }
    box = bbox.extents(space, flatten=1e-5)
    out["box"] = [box.extmin.x, box.extmin.y, box.extmax.x, box.extmax.y]
    rings, out["worst"] = loops([e for e in space if e.dxf.layer == "cut"])
    out["rings"] = [[[p.x, p.y] for p in ring] for ring in rings]
    out["areas"] = [area(ring) for ring in rings]
    for layer in ("fold", "registration"):
        out[layer] = [[e.dxf.start.x, e.dxf.start.y, e.dxf.end.x, e.dxf.end.y] for e in space if e.dxf.layer == layer]
    print(json.dumps(out))
