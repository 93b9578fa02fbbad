# Writes the drawings that test_dxf_file.cpp reads, with a library of its own: an invented S-shaped
# edge, each time the same line, drawn in another way. Usage: python3 write_drawings.py <folder>
import math
import sys

import ezdxf
from ezdxf import units

folder = sys.argv[1]
# Line of 40 along x, left turn of 30 deg with radius 100, line of 20, right turn of 20 deg with 80.
p0, p1 = (10.0, 5.0), (50.0, 5.0)
c1 = (50.0, 105.0)
a = math.radians(30)
p2 = (c1[0] + 100 * math.sin(a), c1[1] - 100 * math.cos(a))
p3 = (p2[0] + 20 * math.cos(a), p2[1] + 20 * math.sin(a))
c2 = (p3[0] + 80 * math.sin(a), p3[1] - 80 * math.cos(a))
b = math.radians(10)
p4 = (c2[0] - 80 * math.sin(b), c2[1] + 80 * math.cos(b))


def drawing(name, draw, unit=units.MM, version="R2010", scale=1.0):
    document = ezdxf.new(version)
    document.units = unit
    document.layers.add("BEND")
    document.layers.add("OUTLINE")
    space = document.modelspace()
    space.add_line((0, 0), (500 * scale, 0), dxfattribs={"layer": "OUTLINE"})
    draw(space, {"layer": "BEND"}, scale)
    document.saveas(f"{folder}/{name}.dxf")


def at(p, s):
    return (p[0] * s, p[1] * s)


def lines_and_arcs(space, on, s):
    # Not in order, and drawn in either direction.
    space.add_arc(at(c2, s), 80 * s, 100, 120, dxfattribs=on)
    space.add_line(at(p1, s), at(p0, s), dxfattribs=on)
    space.add_line(at(p2, s), at(p3, s), dxfattribs=on)
    space.add_arc(at(c1, s), 100 * s, 270, 300, dxfattribs=on)


def polyline(space, on, s):
    points = [
        (*at(p0, s), 0),
        (*at(p1, s), math.tan(a / 4)),
        (*at(p2, s), 0),
        (*at(p3, s), -math.tan(math.radians(20) / 4)),
        (*at(p4, s), 0),
    ]
    space.add_lwpolyline(points, format="xyb", dxfattribs=on)


def old_polyline(space, on, s):
    points = [(*p0, 0), (*p1, math.tan(a / 4)), (*p2, 0), (*p3, -math.tan(b / 2)), (*p4, 0)]
    space.add_polyline2d(points, format="xyb", dxfattribs=on)


def mirrored(space, on, s):
    on = dict(on, extrusion=(0, 0, -1))
    space.add_lwpolyline([(-p1[0], p1[1], -math.tan(a / 4)), (-p2[0], p2[1], 0)], format="xyb", dxfattribs=on)


def spline(space, on, s):
    # A circle of radius 100 through a quarter turn, exact as a rational spline.
    w = math.sqrt(0.5)
    space.add_rational_spline([(0, 0), (100, 0), (100, 100)], [1, w, 1], degree=2, dxfattribs=on)


def fit_points(space, on, s):
    points = [(150 * math.sin(0.1 * i), 150 - 150 * math.cos(0.1 * i)) for i in range(9)]
    space.add_spline(points, dxfattribs=on)


def gap(space, on, s):
    space.add_line(p0, p1, dxfattribs=on)
    space.add_line((p1[0] + 0.3, p1[1]), (90, 5), dxfattribs=on)


def kink(space, on, s):
    space.add_line(p0, p1, dxfattribs=on)
    space.add_line(p1, (90, 15), dxfattribs=on)


def kink_at_arc(space, on, s):
    # Up the circle of radius 50 about (90, 5), from its leftmost point, square to the line.
    space.add_line((0, 5), (40, 5), dxfattribs=on)
    space.add_arc((90, 5), 50, 120, 180, dxfattribs=on)


def branch(space, on, s):
    lines_and_arcs(space, on, s)
    space.add_line(p2, (90, 90), dxfattribs=on)


def circle(space, on, s):
    space.add_circle((0, 0), 50, dxfattribs=on)


def arc_past_zero(space, on, s):
    space.add_arc((0, 0), 120, 330, 30, dxfattribs=on)


def ellipse(space, on, s):
    space.add_ellipse((0, 0), (50, 0), 0.5, 0, 1, dxfattribs=on)


drawing("lines_and_arcs", lines_and_arcs)
drawing("old", lines_and_arcs, version="R12")
drawing("inches", lines_and_arcs, unit=units.IN, scale=1 / 25.4)
drawing("no_unit", lines_and_arcs, unit=0)
drawing("polyline", polyline)
drawing("old_polyline", old_polyline, version="R2000")
drawing("mirrored", mirrored)
drawing("spline", spline)
drawing("fit_points", fit_points)
drawing("gap", gap)
drawing("kink", kink)
drawing("kink_at_arc", kink_at_arc)
drawing("branch", branch)
drawing("circle", circle)
drawing("arc_past_zero", arc_past_zero)
drawing("ellipse", ellipse)
