# The template's round trip, as a shop would go it: the outline of template.dxf is read by a library
# that is not ours (Debian's python3-ezdxf), the case is given that outline, the part is formed and
# trimmed, and its depth is compared with the drawing's all along.
# Usage: python3 round_trip.py <flangewright> <case of one arc> <folder>
import csv
import math
import pathlib
import re
import subprocess
import sys

program, case, folder = sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])
try:
    import ezdxf
    import ezdxf.math
except ImportError:
    print("skipped: needs python3-ezdxf")
    sys.exit(77)


def run(*words, allowed=(0,)):
    done = subprocess.run([program, *map(str, words)], capture_output=True, text=True)
    if done.returncode not in allowed:
        sys.exit(f"exit code {done.returncode}: {done.stdout}{done.stderr}")
    return done.stdout


templates = folder / "templates"
if templates.exists():
    for old in templates.iterdir():
        old.unlink()
folder.mkdir(parents=True, exist_ok=True)
threads = sys.argv[4] if len(sys.argv) > 4 else "1"
print(run("templates", case, "--out", templates, "--threads", threads))

document = ezdxf.readfile(templates / "template.dxf")
mm = {1: 25.4, 4: 1.0}[document.header["$INSUNITS"]]
model = document.modelspace()


def lines_of(layer):
    return [thing for thing in model.query("LWPOLYLINE") if thing.dxf.layer == layer]


# The blank is drawn first: its bend line is the first one on the layer. One arc: its centre, which
# lies on the flange's side of a concave line.
(x0, y0, bulge), (x1, y1, _) = lines_of("BEND_LINE")[0].get_points("xyb")
assert bulge > 0, "a concave bend line turns to the flange"
centre, _, _, radius = ezdxf.math.bulge_to_arc((x0, y0), (x1, y1), bulge)
begin = math.atan2(y0 - centre.y, x0 - centre.x)
widths = []
for path in lines_of("CUT_OUTLINE"):
    for x, y in path.get_points("xy"):
        distance = mm * (radius - math.hypot(x - centre.x, y - centre.y))
        if distance > 1:
            turned = math.remainder(math.atan2(y - centre.y, x - centre.x) - begin, 2 * math.pi)
            widths.append((mm * radius * turned, distance))
widths.sort()
length = mm * radius * 4 * math.atan(bulge)
assert len(widths) >= 2 and widths[-1][0] > length - 0.01, widths
if len(widths) > 90:  # a case has room for 100 points
    step = len(widths) // 90 + 1
    widths = widths[:-1:step] + widths[-1:]
pairs = [(min(max(s, 0), length - 1e-4), w) for s, w in widths]
pairs = pairs[:1] + [b for a, b in zip(pairs, pairs[1:]) if b[0] >= a[0] + 0.5]
table = ", ".join(f'["{s:.4f} mm", "{w:.4f} mm"]' for s, w in pairs)

text = case.read_text()
cut = folder / "cut.toml"
changed, n = re.subn(r"(?m)^flange_depth = .*$", lambda _: f"flat_width = [{table}]", text)
assert n == 1
if "trim_allowance" in text and '"trim"' not in text:
    changed, n = re.subn(r'(?m)^steps = .*$', 'steps = ["bend-down", "release", "trim"]', changed)
    if n == 0:
        changed, n = re.subn(
            r"(?m)^\[run\]$", '[run]\nsteps = ["bend-down", "release", "trim"]', changed
        )
    if n == 0:
        changed += '\n[run]\nsteps = ["bend-down", "release", "trim"]\n'
cut.write_text(changed)
result = folder / "result"
run("run", cut, "--out", result, "--no-pictures", "--no-remedies", "--no-even-drive", "--threads",
    threads)

rows = list(csv.DictReader(open(templates / "outline.csv")))
unit = "mm" if "station_mm" in rows[0] else "in"
scale = 25.4 if unit == "in" else 1.0
drawn = [
    (scale * float(row["station_" + unit]), scale * float(row["wanted_depth_" + unit]))
    for row in rows
]
depths = [row for row in csv.DictReader(open(result / "stations.csv"))]
last = depths[-1]["step"]
worst = 0.0
for row in depths:
    if row["step"] == last:
        station = float(row["station_mm"])
        wanted = min(drawn, key=lambda pair: abs(pair[0] - station))[1]
        worst = max(worst, abs(float(row["flange_depth_mm"]) - wanted), key=abs)
print(f"read back from the drawing, cut, formed and measured after {last}: "
      f"largest miss {worst:.3f} mm")
sys.exit(0 if 0 < worst <= 0.4 else 1)
