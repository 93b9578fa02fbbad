"""Opens every field file of a run with VTK's or ParaView's own reader; compares with tables and docs.

Usage: check_fields.py RUN_FOLDER. Exit code 0: all agree, 1: they don't, 77: no reader installed.
Run it by pvpython, or by a Python that has ParaView's package, and history.pvd is opened by
ParaView itself, too.
"""

import csv
import json
import math
import os
import re
import sys
import xml.etree.ElementTree as xml

try:
    from vtkmodules.vtkCommonCore import vtkDataArray
    from vtkmodules.vtkCommonDataModel import VTK_LINE, VTK_QUAD
    from vtkmodules.vtkIOXML import vtkXMLUnstructuredGridReader
except ImportError:
    print("python3-vtk9 is not installed: field files are not opened")
    sys.exit(77)

ROUNDING = 1e-5  # of single precision, in which arrays are kept
SAME_PLACE = 1e-4  # mm; tables are written to a ten-thousandth
LARGEST_STRAIN = 3  # log; far beyond what sheet bears

SHAPE = {"displacement": 3, "thickness": 1, "thinning": 1}
STRAINS = {"plastic_strain": 1} | {
    f"{which}_strain_{where}": 1
    for which in ("major", "minor") for where in ("mid", "block_face", "outer_face")
}
STEP_ARRAYS = SHAPE | STRAINS | {
    "across_strain_outer_face": 1, "across_strain_block_face": 1,
    "stress_block_face": 3, "stress_outer_face": 3, "outer_normal": 3, "block_gap": 1,
    "station": 1, "distance": 1,
}
SOMETIMES = {"share_used": 1, "springback": 3}  # limits are known; the part was released
FRAME_ARRAYS = SHAPE | STRAINS
EDGE_ARRAYS = {"station": 1, "edge_strain": 1, "edge_thickness": 1}

problems = []
seen = set()  # names of arrays in any file


def claim(holds, sentence):
    if not holds:
        problems.append(sentence)


def stop_if_unsound():
    """What lacks its arrays can't be looked at further."""
    if problems:
        print("\n".join(problems))
        sys.exit(1)


class Grid:
    """One file: its points, cells and arrays as lists, by VTK's reader."""

    def __init__(self, folder, name):
        self.name = name
        reader = vtkXMLUnstructuredGridReader()
        reader.SetFileName(os.path.join(folder, name))
        claim(reader.CanReadFile(reader.GetFileName()) == 1, f"{name}: the reader refuses it")
        stop_if_unsound()
        reader.Update()
        claim(reader.GetErrorCode() == 0, f"{name}: the reader finds error {reader.GetErrorCode()}")
        self.grid = reader.GetOutput()
        self.n_points = self.grid.GetNumberOfPoints()
        self.points = [self.grid.GetPoint(i) for i in range(self.n_points)]
        n_cells = self.grid.GetNumberOfCells()
        self.kinds = {self.grid.GetCellType(i) for i in range(n_cells)}
        self.cells = []
        for i in range(n_cells):
            ids = self.grid.GetCell(i).GetPointIds()
            self.cells.append([ids.GetId(k) for k in range(ids.GetNumberOfIds())])

    def array(self, name):
        """A list of numbers, or of tuples; None when there is none."""
        found = self.grid.GetPointData().GetArray(name)
        if found is None:
            return None
        rows = [found.GetTuple(i) for i in range(found.GetNumberOfTuples())]
        return [row[0] for row in rows] if found.GetNumberOfComponents() == 1 else rows

    def check_arrays(self, wanted, sometimes=()):
        data = self.grid.GetPointData()
        names = {data.GetArrayName(i) for i in range(data.GetNumberOfArrays())}
        for missing in sorted(wanted.keys() - names):
            claim(False, f"{self.name}: no array {missing}")
        stop_if_unsound()
        for surplus in sorted(names - wanted.keys() - set(sometimes)):
            claim(False, f"{self.name}: array {surplus} is not expected here")
        for name in sorted(names):
            self.check_array(data.GetArray(name), (dict(sometimes) | wanted).get(name))

    def check_array(self, array, n_components):
        name = array.GetName()
        seen.add(name)
        claim(array.GetNumberOfComponents() == n_components, f"{self.name}: components of {name}")
        claim(array.GetNumberOfTuples() == self.n_points, f"{self.name}: length of {name}")
        claim(bool(array.GetInformation().Get(vtkDataArray.UNITS_LABEL())),
              f"{self.name}: no unit for {name}")
        bounds = [array.GetRange(i) for i in range(array.GetNumberOfComponents())]
        claim(all(math.isfinite(end) for pair in bounds for end in pair),
              f"{self.name}: {name} holds values that are no numbers")


def rows_of(folder, table, step):
    """Rows of one step: names come again (two releases), so its number tells."""
    with open(os.path.join(folder, table), newline="") as text:
        rows = list(csv.DictReader(text))
    number = {}
    blocks = []
    for row in rows:
        if not blocks or row["step"] != blocks[-1][-1]["step"]:
            blocks.append([])
        blocks[-1].append(row)
    return blocks[step - 1] if step <= len(blocks) else []


def check_sheet(grid):
    """What every state of the sheet must obey, whatever the case."""
    claim(grid.kinds == {VTK_QUAD}, f"{grid.name}: cells are not all quadrilaterals")
    flat = [p[2] - d[2] for p, d in zip(grid.points, grid.array("displacement"))]
    claim(max(flat) - min(flat) < SAME_PLACE, f"{grid.name}: points less displacement not flat")
    thickness = grid.array("thickness")
    claim(min(thickness) > 0, f"{grid.name}: a thickness that is not above zero")
    first = [t / (1 - s) for t, s in zip(thickness, grid.array("thinning"))]
    claim(max(first) - min(first) < 1e-4 * max(first), f"{grid.name}: thinning is not 1 - t/t0")
    claim(min(grid.array("plastic_strain")) >= 0, f"{grid.name}: plastic strain below zero")
    for place in ("mid", "block_face", "outer_face"):
        major, minor = grid.array(f"major_strain_{place}"), grid.array(f"minor_strain_{place}")
        claim(all(a >= b - ROUNDING for a, b in zip(major, minor)),
              f"{grid.name}: major strain below the minor one at {place}")
        claim(max(map(abs, major + minor)) < LARGEST_STRAIN, f"{grid.name}: strain without bounds")
    return first[0]


def check_regions(grid):
    data = grid.grid.GetCellData()
    regions = data.GetArray("region")
    claim(regions is not None and data.GetNumberOfArrays() == 1, f"{grid.name}: not region alone")
    if regions is None:
        return
    seen.add("region")
    claim(bool(regions.GetInformation().Get(vtkDataArray.UNITS_LABEL())),
          f"{grid.name}: no unit for region")
    distance = grid.array("distance")
    for i, cell in enumerate(grid.cells):
        is_web = sum(distance[point] for point in cell) < 0
        region = regions.GetTuple1(i)
        if region not in (0, 1, 2) or is_web != (region == 0):
            claim(False, f"{grid.name}: region of cell {i} is {region}")
            return


def check_step(folder, name, number, figures):
    grid = Grid(folder, name)
    grid.check_arrays(STEP_ARRAYS, SOMETIMES)
    first_thickness = check_sheet(grid)
    check_regions(grid)
    for normal in grid.array("outer_normal"):
        if abs(math.hypot(*normal) - 1) > ROUNDING:
            claim(False, f"{name}: outer_normal is no unit vector")
            break
    claim(min(grid.array("share_used") or [0]) >= 0, f"{name}: share_used below zero")
    check_figures(folder, grid, number, figures)
    return grid, first_thickness


def check_figures(folder, grid, number, figures):
    """Largest values are those of summary.json, at a place that is there, and of stations.csv."""
    thinning = grid.array("thinning")
    told = figures["thinning_percent"]
    claim(abs(100 * max(thinning) - told["max"]) < 100 * ROUNDING,
          f"{grid.name}: largest thinning is not that of summary.json")
    place = (told["station_mm"], told["distance_mm"])
    claim(any(math.dist(at, place) < 1e-3 and max(thinning) - value < ROUNDING
              for value, *at in zip(thinning, grid.array("station"), grid.array("distance"))),
          f"{grid.name}: largest thinning is not where summary.json says")
    table = rows_of(folder, "stations.csv", number)
    claim(bool(table) and table[0]["step"] == figures["name"],
          f"{grid.name}: stations.csv has another step")
    least = min(float(row["least_thickness_mm"]) for row in table)
    lowest = min(grid.array("thickness"))
    # Stations lie on lines across the sheet, rims of openings between them.
    claim(least > lowest - ROUNDING if "openings" in figures
          else math.isclose(lowest, least, rel_tol=ROUNDING),
          f"{grid.name}: thinnest point is not the one of stations.csv")
    if figures["name"] == "release":
        check_set_down(grid, figures)


def check_set_down(grid, figures):
    """The released part lies on the block: nothing beneath it, and the gap is the web lift."""
    gap, lift = grid.array("block_gap"), figures["web_lift_mm"]["max"]
    claim(min(gap) > -SAME_PLACE, f"{grid.name}: the web sinks into the block by {-min(gap)} mm")
    claim(abs(max(gap) - lift) < SAME_PLACE, f"{grid.name}: largest block_gap is not the lift")


def check_edge(folder, name, number, step):
    grid = Grid(folder, name)
    grid.check_arrays(EDGE_ARRAYS)
    claim(grid.kinds == {VTK_LINE}, f"{name}: cells are not all lines")
    table = rows_of(folder, "edge.csv", number)
    claim(len(table) == grid.n_points, f"{name}: {grid.n_points} points, edge.csv {len(table)}")
    columns = {"edge_strain": "edge_strain_log", "station": "station_mm"}
    for array, column in columns.items():
        for value, row in zip(grid.array(array), table):
            if abs(value - float(row[column])) > ROUNDING * max(1, abs(value)):
                claim(False, f"{name}: {array} is not that of edge.csv")
                break
    for point, row in zip(grid.points, table):
        if math.dist(point, [float(row[f"{axis}_mm"]) for axis in "xyz"]) > 1e-3:
            claim(False, f"{name}: edge is not that of edge.csv")
            break
    on_sheet = {tuple(round(x, 6) for x in point) for point in step.points}
    claim(all(tuple(round(x, 6) for x in point) in on_sheet for point in grid.points),
          f"{name}: points of the edge that are none of the sheet's")


def check_history(folder, n_steps, steps, is_done):
    entries = xml.parse(os.path.join(folder, "history.pvd")).getroot().findall(".//DataSet")
    claim(len(entries) > 0, "history.pvd: no shapes")
    times = [float(entry.get("timestep")) for entry in entries]
    names = [entry.get("file") for entry in entries]
    claim(all(a < b for a, b in zip(times, times[1:])), "history.pvd: time does not grow")
    claim(times[0] >= 0 and times[-1] <= n_steps, "history.pvd: time outside the steps")
    ends = n_steps if is_done else n_steps - 1
    claim(set(range(1, ends + 1)) <= set(times), "history.pvd: a step's end is not there")
    there = {f"history/{name}" for name in os.listdir(os.path.join(folder, "history"))}
    claim(there == set(names) and len(set(names)) == len(names),
          "history.pvd: does not list each file of history/ once")
    for time, name in zip(times, names):
        grid = Grid(folder, name)
        grid.check_arrays(FRAME_ARRAYS)
        check_sheet(grid)
        if time == int(time) and time > 0:
            same = steps[int(time) - 1].points
            claim(len(same) == grid.n_points
                  and max(map(math.dist, same, grid.points)) < SAME_PLACE,
                  f"{name}: at time {time} not the shape of step {int(time)}")
    return times


def check_docs():
    """Every array is in docs/outputs.md, and every array there was seen."""
    here = os.path.dirname(os.path.abspath(__file__))
    with open(os.path.join(here, "..", "..", "..", "docs", "outputs.md")) as page:
        part = page.read().split("## Field files")[1].split("\n## ")[0]
    told = set(re.findall(r"`(edge_strain|edge_thickness)`", part))
    for row in re.findall(r"^\| (`.*?) \|", part, re.MULTILINE):
        for name in re.findall(r"`([a-z_{},]+)`", row):
            inner = re.fullmatch(r"(\w*)\{([\w,]+)\}", name)
            told |= {inner[1] + each for each in inner[2].split(",")} if inner else {name}
    for name in sorted(seen - told):
        claim(False, f"docs/outputs.md does not tell of {name}")
    for name in sorted(told - seen - SOMETIMES.keys()):
        claim(False, f"docs/outputs.md tells of {name}, which no file has")


def check_with_paraview(folder, times):
    """ParaView itself: does it see the same times, and the arrays at each?"""
    try:
        from paraview import simple
    except ImportError:
        return
    reader = simple.PVDReader(FileName=os.path.join(folder, "history.pvd"))
    found = list(reader.TimestepValues)
    claim(len(found) == len(times) and all(map(math.isclose, found, times)),
          "history.pvd: ParaView sees other times")
    for time in times:
        reader.UpdatePipeline(time)
        names = set(reader.PointData.keys())
        claim(names == FRAME_ARRAYS.keys(), f"ParaView at time {time}: arrays {sorted(names)}")
    print(f"ParaView {simple.GetParaViewVersion()} opens history.pvd with {len(found)} times")


def check_run(folder):
    with open(os.path.join(folder, "summary.json")) as text:
        summary = json.load(text)
    names = set(os.listdir(os.path.join(folder, "steps")))
    steps, thicknesses = [], []
    for number, step in enumerate(summary["steps"], 1):
        stem = f"{number}-{step['name']}"
        claim({f"{stem}.vtu", f"{stem}-edge.vtu"} <= names, f"no files for step {stem}")
        names -= {f"{stem}.vtu", f"{stem}-edge.vtu"}
        grid, thickness = check_step(folder, f"steps/{stem}.vtu", number, step)
        check_edge(folder, f"steps/{stem}-edge.vtu", number, grid)
        steps.append(grid)
        thicknesses.append(thickness)
    claim(len(steps) > 0, "no steps")
    claim(not names, f"files of no step: {sorted(names)}")
    claim(max(thicknesses) - min(thicknesses) < 1e-4, "steps begin from different thicknesses")
    released = any(step["name"] == "release" for step in summary["steps"])
    claim(released == ("springback" in seen), "springback is not where a release is")
    is_done = summary["solve"]["reason"] == "done"
    times = check_history(folder, len(steps), steps, is_done)
    check_docs()
    check_with_paraview(folder, times)


check_run(sys.argv[1])
for problem in problems:
    print(problem)
sys.exit(1 if problems else 0)
