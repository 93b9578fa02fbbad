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


# An invented blank round a line of 40 and a left turn of 30 deg with radius 100: web of 30, flat
# flange of 14, two holes in the web and one in the flange, two pins, a relief.
def polar(r, deg):
    w = math.radians(deg)
    return (c1[0] + r * math.sin(w), c1[1] - r * math.cos(w))


def blank_line(space, s=1.0):
    on = {"layer": "BEND"}
    space.add_line(at(p0, s), at(p1, s), dxfattribs=on)
    space.add_arc(at(c1, s), 100 * s, 270, 300, dxfattribs=on)


def outline_points(web=30.0, flange=14.0):
    q = math.tan(a / 4)
    below, above = p0[1] - web, p0[1] + flange
    return [
        (p0[0], below, 0),
        (p1[0], below, q),
        (*polar(100 + web, 30), 0),
        (*polar(100 - flange, 30), -q),
        (p1[0], above, 0),
        (p0[0], above, 0),
    ]


def scaled(points, s):
    return [(x * s, y * s, b) for x, y, b in points]


def slot(space, deg, s=1.0, width=4.0, bottom=8.0, mouth=15.0, lean=0.0, close=False):
    # Sides square to the bend line at an angle of the arc, bottom half round.
    w = math.radians(deg)
    along = (math.cos(w + lean), math.sin(w + lean))
    out = (-along[1], along[0])
    base = polar(100, deg)
    h = width / 2

    def place(x, d):
        return ((base[0] + x * along[0] + d * out[0]) * s, (base[1] + x * along[1] + d * out[1]) * s)

    points = [
        (*place(-h, mouth), 0),
        (*place(-h, bottom + h), 1),
        (*place(h, bottom + h), 0),
        (*place(h, mouth), 0),
    ]
    space.add_lwpolyline(points, format="xyb", close=close, dxfattribs={"layer": "RELIEF"})


def holes(space, s=1.0):
    on = {"layer": "HOLES"}
    space.add_circle(at((30, -10), s), 3 * s, dxfattribs=on)
    space.add_circle(at((40, 14), s), 1.6 * s, dxfattribs=on)
    c, r = at(polar(112, 15), s), 4 * s
    space.add_lwpolyline(
        [(c[0] - r, c[1], 1), (c[0] + r, c[1], 1)], format="xyb", close=True, dxfattribs=on
    )
    on = {"layer": "PINS"}
    space.add_circle(at((18, -15), s), 2.5 * s, dxfattribs=on)
    space.add_circle(at(polar(120, 24), s), 2.5 * s, dxfattribs=on)


def whole_blank(space, s=1.0):
    blank_line(space, s)
    on = {"layer": "BLANK"}
    space.add_lwpolyline(scaled(outline_points(), s), format="xyb", close=True, dxfattribs=on)
    holes(space, s)
    slot(space, 20, s)


def blank(name, draw, unit=units.MM, **more):
    document = ezdxf.new("R2010")
    document.units = unit
    for layer in ("BEND", "BLANK", "HOLES", "PINS", "RELIEF"):
        document.layers.add(layer)
    draw(document.modelspace(), **more)
    document.saveas(f"{folder}/{name}.dxf")


def outlined(space, points, close=True):
    blank_line(space)
    space.add_lwpolyline(points, format="xyb", close=close, dxfattribs={"layer": "BLANK"})


def tapered(space):
    # Straight, in the other direction, its flange edge from 18 down to 12.
    space.add_line((90, 0), (0, 0), dxfattribs={"layer": "BEND"})
    on = {"layer": "BLANK"}
    corners = [(0, -30), (0, 18), (90, 12), (90, -30)]
    for i, corner in enumerate(corners):
        space.add_line(corner, corners[(i + 1) % 4], dxfattribs=on)


def curved_edge(space):
    # A straight line whose flange edge is an arc: 12 at both ends, 15 in the middle.
    space.add_line((0, 0), (90, 0), dxfattribs={"layer": "BEND"})
    points = [(0, -30, 0), (90, -30, 0), (90, 12, math.tan(math.atan(3 / 45) * 2 / 2)), (0, 12, 0)]
    space.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": "BLANK"})


def with_step(space):
    points = outline_points()
    edge = points[-1][1]
    points[-1:] = [(30, edge, 0), (30, edge + 4, 0), (p0[0], edge + 4, 0)]
    outlined(space, points)


def with_second(space):
    outlined(space, outline_points())
    space.add_circle((30, -10), 3, dxfattribs={"layer": "BLANK"})


def moved(i, dx, dy):
    points = outline_points()
    x, y, b = points[i]
    points[i] = (x + dx, y + dy, b)
    return points


def bad_holes(space):
    # On other layers of the one drawing: what can't be a hole, pin or relief.
    blank_line(space)
    space.add_lwpolyline(
        [(30, -10), (36, -10), (36, -4), (30, -4)], close=True, dxfattribs={"layer": "SQUARE"}
    )
    space.add_arc((30, -10), 3, 0, 300, dxfattribs={"layer": "OPEN"})
    space.add_point((30, -10), dxfattribs={"layer": "POINTS"})
    space.add_ellipse((30, -10), (5, 0), 0.5, dxfattribs={"layer": "ELLIPSE"})
    space.add_circle((30, 6), 2, dxfattribs={"layer": "IN_BEND"})
    space.add_circle((30, 0.2), 0.2, dxfattribs={"layer": "TINY"})
    space.add_circle((30, -10), 3, dxfattribs={"layer": "TWICE"})
    space.add_circle((33, -10), 3, dxfattribs={"layer": "TWICE"})
    space.add_circle((30, 14), 1.6, dxfattribs={"layer": "IN_FLANGE"})


def bad_reliefs(space):
    for layer, more in (
        ("LEANING", {"lean": math.radians(12)}),
        ("SHORT", {"mouth": 12.0}),
        ("DEEP", {"bottom": 1.0}),
    ):
        slot(space, 20, **more)
        space[-1].dxf.layer = layer
    space.add_lwpolyline([(30, 20), (30, 12), (34, 12), (34, 20)], dxfattribs={"layer": "SQUARE"})


def bad(space):
    bad_holes(space)
    bad_reliefs(space)


blank("blank", whole_blank)
blank("blank_inches", whole_blank, unit=units.IN, s=1 / 25.4)
blank("tapered", tapered)
blank("curved_edge", curved_edge)
blank("bad_cut_outs", bad)
blank("outline_open", outlined, points=outline_points(), close=False)
blank("outline_step", with_step)
blank("outline_second", with_second)
blank("outline_web", outlined, points=moved(0, 0, -5))
blank("outline_end", outlined, points=moved(0, -3, 0))
blank("outline_beside", outlined, points=[(0, 200, 0), (50, 200, 0), (50, 230, 0), (0, 230, 0)])
