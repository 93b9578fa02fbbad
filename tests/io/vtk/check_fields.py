"""Reads a run's field files with readers that are not ours and compares them with the tables.

Usage: check_fields.py RUN_FOLDER. Exit code 0: all agree, 1: they don't, 77: no reader installed.
"""

import csv
import math
import os
import sys
import xml.etree.ElementTree as xml

try:
    import meshio
    import numpy
except ImportError:
    print("python3-meshio is not installed")
    sys.exit(77)

problems = []


def claim(holds, sentence):
    if not holds:
        problems.append(sentence)


def rows_of(path, step):
    with open(path, newline="") as table:
        return [row for row in csv.DictReader(table) if row["step"] == step]


STEP_ARRAYS = {
    "displacement": 3, "thickness": 1, "thinning": 1, "plastic_strain": 1,
    "major_strain_mid": 1, "major_strain_block_face": 1, "major_strain_outer_face": 1,
    "minor_strain_mid": 1, "minor_strain_block_face": 1, "minor_strain_outer_face": 1,
    "stress_block_face": 3, "stress_outer_face": 3, "block_gap": 1, "share_used": 1,
    "station": 1, "distance": 1, "outer_normal": 3,
}
FRAME_ARRAYS = {"displacement": 3, "thickness": 1, "thinning": 1, "major_strain_mid": 1}


def check_arrays(name, mesh, arrays):
    for array, n_components in arrays.items():
        claim(array in mesh.point_data, f"{name}: no array {array}")
        if array not in mesh.point_data:
            continue
        values = numpy.asarray(mesh.point_data[array])
        shape = (len(mesh.points),) + ((n_components,) if n_components > 1 else ())
        claim(values.shape == shape, f"{name}: {array} has shape {values.shape}")
        claim(bool(numpy.isfinite(values).all()), f"{name}: {array} holds values that are no numbers")


def check_step(folder, name):
    mesh = meshio.read(os.path.join(folder, "steps", name))
    step = name.split("-", 1)[1].removesuffix(".vtu")
    check_arrays(name, mesh, STEP_ARRAYS)
    quads = mesh.cells_dict.get("quad", numpy.zeros((0, 4), int))
    claim(len(quads) > 0 and quads.max() < len(mesh.points), f"{name}: no sound quadrilaterals")
    claim("region" in mesh.cell_data, f"{name}: no cell array region")
    flat = mesh.points - mesh.point_data["displacement"]
    claim(float(numpy.ptp(flat[:, 2])) < 1e-4, f"{name}: points minus displacement are not flat")
    claim(("springback" in mesh.point_data) == (step == "release"), f"{name}: springback misplaced")
    table = rows_of(os.path.join(folder, "stations.csv"), step)
    if step == "release":
        check_set_down(name, mesh, table)
    least = min(float(row["least_thickness_mm"]) for row in table)
    claim(math.isclose(mesh.point_data["thickness"].min(), least, rel_tol=1e-5),
          f"{name}: thinnest point is not the one of stations.csv")


def check_set_down(name, mesh, table):
    """The released part lies on the block: nothing beneath it, and the gap is the web lift."""
    gap = numpy.asarray(mesh.point_data["block_gap"])
    lift = max(float(row["web_gap_mm"]) for row in table)
    claim(gap.min() > -1e-4, f"{name}: the web sinks into the block by {-gap.min()} mm")
    claim(math.isclose(gap.max(), lift, abs_tol=1e-4), f"{name}: largest block_gap is not the lift")


def check_edge(folder, name):
    mesh = meshio.read(os.path.join(folder, "steps", name))
    step = name.split("-", 1)[1].removesuffix("-edge.vtu")
    check_arrays(name, mesh, {"edge_strain": 1, "station": 1, "edge_thickness": 1})
    table = rows_of(os.path.join(folder, "edge.csv"), step)
    strains = numpy.array([float(row["edge_strain_log"]) for row in table])
    places = numpy.array([[float(row[f"{axis}_mm"]) for axis in "xyz"] for row in table])
    claim(numpy.allclose(mesh.point_data["edge_strain"], strains, atol=1e-6),
          f"{name}: strain is not that of edge.csv")
    claim(numpy.allclose(mesh.points, places, atol=1e-3), f"{name}: edge is not that of edge.csv")


def check_history(folder):
    entries = xml.parse(os.path.join(folder, "history.pvd")).getroot().findall(".//DataSet")
    claim(len(entries) > 0, "history.pvd: no shapes")
    times = [float(entry.get("timestep")) for entry in entries]
    claim(times == sorted(times), "history.pvd: time does not grow")
    for entry in entries:
        name = entry.get("file")
        check_arrays(name, meshio.read(os.path.join(folder, name)), FRAME_ARRAYS)


def check_with_vtk(folder):
    """ParaView's own reader, when its Python package is there; it also sees the units."""
    try:
        import vtk
    except ImportError:
        print("python3-vtk9 is not installed: units are not checked")
        return
    for name in sorted(os.listdir(os.path.join(folder, "steps"))):
        reader = vtk.vtkXMLUnstructuredGridReader()
        reader.SetFileName(os.path.join(folder, "steps", name))
        reader.Update()
        grid = reader.GetOutput()
        claim(grid.GetNumberOfCells() > 0, f"{name}: VTK sees no cells")
        for i in range(grid.GetPointData().GetNumberOfArrays()):
            array = grid.GetPointData().GetAbstractArray(i)
            unit = array.GetInformation().Get(vtk.vtkDataArray.UNITS_LABEL())
            claim(bool(unit), f"{name}: no unit for {array.GetName()}")


folder = sys.argv[1]
steps = sorted(os.listdir(os.path.join(folder, "steps")))
claim(len(steps) > 0, "no steps")
for step in steps:
    (check_edge if step.endswith("-edge.vtu") else check_step)(folder, step)
check_history(folder)
check_with_vtk(folder)
for problem in problems:
    print(problem)
sys.exit(1 if problems else 0)
