"""Draws small DXF files with ezdxf and measures them with it, for tests/tests/dxf_references.rs.

    pip install ezdxf==1.4.5
    python3 dxf.py dxf > dxf.json

Each entity has a layer of its own. Of each layer: how many lines, their length, their box (least x,
least y, most x, most y) and, where it is one line, its ends; in the unit of the file, y up. Lengths
are those of chords no farther than 1e-7 from the curve, evaluated by ezdxf's own curves.
"""

import json
import math
import sys
from pathlib import Path

import ezdxf
from ezdxf.math import Vec3

FINE = 1e-7


def flat(entity):
    """The points of an entity; a list for each of its parts."""
    kind = entity.dxftype()
    if kind == "INSERT":
        copies = entity.multi_insert() if entity.mcount > 1 else [entity]
        # By the matrix of each insert, since a circle in a sheared block is no entity of its own.
        return [
            list(one.matrix44().transform_vertices(part))
            for one in copies
            for inner in one.block()
            for part in flat(inner)
        ]
    if kind == "LINE":
        return [[entity.dxf.start, entity.dxf.end]]
    if kind in ("ARC", "CIRCLE", "ELLIPSE"):
        return [list(entity.flattening(FINE))]
    if kind == "SPLINE":
        return [list(entity.construction_tool().flattening(FINE, 16))]
    if kind in ("LWPOLYLINE", "POLYLINE"):
        return [joined([flat(leaf)[0] for leaf in entity.virtual_entities()])]
    raise ValueError(kind)


def joined(parts):
    """Parts of a polyline one after the other; arcs that turn right come the wrong way round."""
    if len(parts) > 1 and not near(parts[0][-1], parts[1][0]) and not near(parts[0][-1], parts[1][-1]):
        parts[0].reverse()
    line = parts[0]
    for part in parts[1:]:
        if not near(line[-1], part[0]):
            part.reverse()
        assert near(line[-1], part[0])
        line.extend(part[1:])
    return line


def near(a, b):
    return Vec3(a).distance(Vec3(b)) < 1e-9


def measured(entity):
    lines = [[Vec3(point).vec2 for point in line] for line in flat(entity)]
    length = sum(a.distance(b) for line in lines for a, b in zip(line, line[1:]))
    xs = [point.x for line in lines for point in line]
    ys = [point.y for line in lines for point in line]
    found = {"lines": len(lines), "length": length, "box": [min(xs), min(ys), max(xs), max(ys)]}
    if entity.dxftype() != "INSERT":
        found["ends"] = [list(lines[0][0]), list(lines[0][-1])]
    return found


def block(doc):
    leaf = doc.blocks.new("LEAF", base_point=(1, 2))
    leaf.add_line((1, 2), (5, 3))
    leaf.add_arc((5, 5), 2, 200, 40)
    vine = doc.blocks.new("VINE")
    vine.add_blockref("LEAF", (0, 0), dxfattribs={"rotation": 30})
    vine.add_blockref("LEAF", (9, 1), dxfattribs={"xscale": -1, "yscale": 2})


def inserts(space):
    place = {"xscale": 2, "yscale": 2, "rotation": 25}
    space.add_blockref("LEAF", (10, -20), dxfattribs={"layer": "insert", **place})
    space.add_blockref("VINE", (40, 8), dxfattribs={"layer": "nested", "xscale": 1.5, "yscale": -0.5, "rotation": 110})
    rows = {"column_count": 3, "row_count": 2, "column_spacing": 7, "row_spacing": 4.5}
    space.add_blockref("LEAF", (-3, 4), dxfattribs={"layer": "rows", "rotation": -40, **rows})
    space.add_blockref("LEAF", (3, 4), dxfattribs={"layer": "turned-over", "extrusion": (0, 0, -1), "rotation": 15})


def plain(space):
    space.add_line((1, 2), (-3, 4.5), dxfattribs={"layer": "line"})
    space.add_arc((10, 20), 7, 300, 75, dxfattribs={"layer": "arc"})
    space.add_arc((10, 20), 7, 300, 75, dxfattribs={"layer": "arc-over", "extrusion": (0, 0, -1)})
    space.add_circle((-4, 3), 2.5, dxfattribs={"layer": "circle"})
    corners = [(0, 0, 0.5), (4, 1, -1.3), (7, -2, 0), (9, 5, 2.5)]
    space.add_polyline2d(corners, format="xyb", dxfattribs={"layer": "polyline"})
    space.add_polyline2d(corners, format="xyb", close=True, dxfattribs={"layer": "polyline-closed"})


def modern(space):
    corners = [(0, 0, 0.01), (40, 1, -0.4), (7, -2, 4), (9, 5, -0.2)]
    space.add_lwpolyline(corners, format="xyb", dxfattribs={"layer": "light"})
    over = {"layer": "light-over", "extrusion": (0, 0, -1)}
    space.add_lwpolyline(corners, format="xyb", close=True, dxfattribs=over)
    space.add_ellipse((5, 6), (4, 3), 0.4, dxfattribs={"layer": "ellipse"})
    space.add_ellipse((5, 6), (-4, 3), 0.7, 1.2, 0.3, dxfattribs={"layer": "ellipse-part"})
    points = [(0, 0), (3, 9), (8, -4), (12, 6), (15, 0), (20, 5), (22, -7)]
    for degree in (2, 3, 5):
        space.add_open_spline(points, degree=degree, dxfattribs={"layer": f"spline-{degree}"})
    knots = [0, 0, 0, 0, 1, 1.5, 4, 7, 7, 7, 7]
    space.add_spline(degree=3, dxfattribs={"layer": "spline-knots"}).apply_construction_tool(
        ezdxf.math.BSpline(points, order=4, knots=knots)
    )
    weights = [1, 3, 0.5, 2, 1, 4, 1]
    space.add_rational_spline(points, weights, degree=3, dxfattribs={"layer": "spline-weights"})
    circle = ezdxf.math.rational_bspline_from_arc((3, 3), radius=5, start_angle=20, end_angle=310)
    space.add_spline(dxfattribs={"layer": "spline-arc"}).apply_construction_tool(circle)


def main(folder):
    found = {}
    for name, release, unit, draw in (
        ("r12.dxf", "R12", 4, (block, plain, inserts)),
        ("r2000.dxf", "R2000", 1, (block, plain, modern, inserts)),
    ):
        doc = ezdxf.new(release)
        doc.header["$INSUNITS"] = unit
        space = doc.modelspace()
        for part in draw:
            part(doc if part is block else space)
        doc.saveas(folder / name)
        doc = ezdxf.readfile(folder / name)
        found[name] = {one.dxf.layer: measured(one) for one in doc.modelspace()}
    json.dump(found, sys.stdout, indent=1, sort_keys=True)
    print()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
