#!/usr/bin/env python3
"""Write drawings of bends with ezdxf, an outside writer, in every version of DXF
that it knows, for overbend read.

  make_drawings.py DIR

DIR/VERSION.dxf each hold the same bends, a layer each:

  EDGES    the davit arm of the demo, R 420, 33 deg, legs 250 and 250, 40 deep,
           end cuts 0 and 22.5 deg: lines and arcs in a block, drawn at half the
           size, inserted at twice that, turned by 30 deg
  MIRROR   the same block mirrored
  AXIS-AE  (with umlaut) a centreline, R 300, 45 deg, legs 120 and 180: one polyline
  FACETS   the same with its arc as 24 short lines
  CURVE    the same as one spline (an R12 has none: short lines there too)

Beside them text, a hatch, a dimension, a circle and a layer that is switched off.

DIR/office.dxf is the davit arm as a drawing office has it: frame, title block,
hidden lines for the wall, centreline, dimension lines, a second view.
"""
import math, os, sys

import ezdxf

VERSIONS = ["R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"]


def polar(r, a):
    return r * math.cos(a), r * math.sin(a)


def edge(r, angle, legs):
    """A line about the arc's centre with the crown on top, left to right."""
    half = angle / 2
    l, m = math.pi / 2 + half, math.pi / 2 - half
    a, b = polar(r, l), polar(r, m)
    start = a[0] - legs[0] * math.cos(half), a[1] - legs[0] * math.sin(half)
    end = b[0] + legs[1] * math.cos(half), b[1] - legs[1] * math.sin(half)
    return start, a, b, end


def arm(layout, scale):
    """The davit arm's outline, at a scale, as lines and arcs."""
    r, angle, deep, cut = 420 * scale, math.radians(33), 40 * scale, math.radians(22.5)
    leg, reach = 250 * scale, 20 * scale * math.tan(cut)
    inner = edge(r - deep / 2, angle, (leg, leg - reach))
    outer = edge(r + deep / 2, angle, (leg, leg + reach))
    for e, radius in ((inner, r - deep / 2), (outer, r + deep / 2)):
        layout.add_line(e[0], e[1])
        layout.add_line(e[3], e[2])  # the other way round
        layout.add_arc((0, 0), radius, 90 - 16.5, 90 + 16.5)
    layout.add_line(inner[0], outer[0])
    layout.add_line(outer[3], inner[3])


def draw(version):
    doc = ezdxf.new(version)
    doc.header["$INSUNITS"] = 4
    doc.header["$MEASUREMENT"] = 1
    for name in ("EDGES", "MIRROR", "AXIS-\u00c4", "FACETS", "CURVE", "OTHER"):
        doc.layers.add(name)
    doc.layers.add("OFF").off()
    msp = doc.modelspace()
    block = doc.blocks.new("ARM", base_point=(10, 5))
    arm(block, 0.5)
    msp.add_blockref("ARM", (1000, 100), {"layer": "EDGES", "xscale": 2, "yscale": 2, "rotation": 30})
    msp.add_blockref("ARM", (-1000, 100), {"layer": "MIRROR", "xscale": -2, "yscale": 2})

    angle, bulge = math.radians(45), math.tan(math.radians(45) / 4)
    s, a, b, e = edge(300, angle, (120, 180))
    points = [(*s, 0), (*a, -bulge), (*b, 0), (*e, 0)]
    if version == "R12":
        msp.add_polyline2d(points, format="xyb", dxfattribs={"layer": "AXIS-\u00c4"})
    else:
        msp.add_lwpolyline(points, format="xyb", dxfattribs={"layer": "AXIS-\u00c4"})

    def on_arc(i, n):
        return polar(300, math.pi / 2 + angle / 2 - angle * i / n)

    def down(points, by):
        return [(x, y - by) for x, y in points]

    facets = down([s] + [on_arc(i, 24) for i in range(25)] + [e], 400)
    if version == "R12":
        msp.add_polyline2d(facets, dxfattribs={"layer": "FACETS"})
        msp.add_polyline2d(down([s] + [on_arc(i, 60) for i in range(61)] + [e], 800), dxfattribs={"layer": "CURVE"})
    else:
        msp.add_lwpolyline(facets, dxfattribs={"layer": "FACETS"})
        # One rational spline of degree 2: straight, exact arc, straight.
        mid = polar(300 / math.cos(angle / 2), math.pi / 2)
        h = lambda p, q: ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
        control = down([s, h(s, a), a, mid, b, h(b, e), e], 800)
        spline = msp.add_rational_spline(
            [(x, y, 0) for x, y in control], [1, 1, 1, math.cos(angle / 2), 1, 1, 1], degree=2,
            knots=[0, 0, 0, 1, 1, 2, 2, 3, 3, 3], dxfattribs={"layer": "CURVE"})
        hatch = msp.add_hatch(dxfattribs={"layer": "OTHER"})
        hatch.paths.add_polyline_path([(0, 900), (50, 900), (50, 950)], is_closed=True)
    msp.add_text("arm \u00b0", dxfattribs={"layer": "OTHER", "height": 5})
    msp.add_circle((0, 700), 40, dxfattribs={"layer": "OTHER"})
    msp.add_line((0, 0), (9, 9), dxfattribs={"layer": "OFF"})
    msp.add_linear_dim(base=(0, 800), p1=(0, 700), p2=(40, 700), dxfattribs={"layer": "OTHER"}).render()
    return doc


def office():
    doc = ezdxf.new("R2010")
    doc.header["$INSUNITS"] = 4
    for name in ("PART", "HIDDEN", "CENTRE", "DIM", "FRAME"):
        doc.layers.add(name)
    msp = doc.modelspace()
    at = (420, -70)

    def moved(p):
        return p[0] + at[0], p[1] + at[1]

    def lines(layer, *points):
        for p, q in zip(points, points[1:]):
            msp.add_line(moved(p), moved(q), {"layer": layer})

    angle, cut = math.radians(33), math.tan(math.radians(22.5))

    def face(layer, off, legs):
        s, a, b, e = edge(420 + off, angle, legs)
        lines(layer, s, a)
        lines(layer, b, e)
        msp.add_arc(at, 420 + off, 90 - 16.5, 90 + 16.5, dxfattribs={"layer": layer})
        return s, e

    ends = [face("PART", off, (250, 250 + off * cut)) for off in (-20, 20)]
    lines("PART", ends[0][0], ends[1][0])
    lines("PART", ends[0][1], ends[1][1])
    for off in (-17, 17):
        face("HIDDEN", off, (250, 250 + off * cut))
    face("CENTRE", 0, (262, 262))
    # Radius, angle and a leg, dimensioned with loose lines.
    tip = polar(420, math.pi / 2 + 0.1)
    lines("DIM", tip, polar(520, math.pi / 2 + 0.1), (-130, 517))
    msp.add_text("R420", dxfattribs={"layer": "DIM", "height": 12}).set_placement(moved((-128, 521)))
    msp.add_arc(at, 300, 90 - 16.5, 90 + 16.5, dxfattribs={"layer": "DIM"})
    for side in (-1, 1):
        a = math.pi / 2 + side * angle / 2
        lines("DIM", polar(290, a), polar(395, a))
    s, a = edge(470, angle, (250, 250))[:2]
    lines("DIM", s, a)
    # The section, and the frame with its title block.
    for r in (20, 17):
        msp.add_lwpolyline([moved((x * r + 380, y * r + 220)) for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1))],
                           close=True, dxfattribs={"layer": "PART"})
    for x, y, w, h in ((0, 0, 841, 594), (661, 0, 180, 60), (661, 0, 90, 30)):
        msp.add_lwpolyline([(x, y), (x + w, y), (x + w, y + h), (x, y + h)], close=True, dxfattribs={"layer": "FRAME"})
    return doc


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    os.makedirs(sys.argv[1], exist_ok=True)
    for version in VERSIONS:
        draw(version).saveas(os.path.join(sys.argv[1], version.lower() + ".dxf"))
    office().saveas(os.path.join(sys.argv[1], "office.dxf"))


if __name__ == "__main__":
    main()
