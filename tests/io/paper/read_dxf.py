# Reads a DXF with a library of its own and prints what test_dxf_sheet.cpp compares: unit, faults,
# layers, and each thing drawn. Usage: python3 read_dxf.py <file>
import sys

import ezdxf

document = ezdxf.readfile(sys.argv[1])
print("version", document.dxfversion, "unit", document.header["$INSUNITS"])
auditor = document.audit()
print("errors", len(auditor.errors))
for thing in document.modelspace():
    layer = thing.dxf.layer
    assert document.layers.has_entry(layer), layer
    if thing.dxftype() == "LWPOLYLINE":
        corners = " ".join("%.4f,%.4f,%.4f" % corner for corner in thing.get_points("xyb"))
        print(layer, "polyline", "closed" if thing.closed else "open", corners)
    elif thing.dxftype() == "CIRCLE":
        print(layer, "circle", "%.4f,%.4f" % (thing.dxf.center.x, thing.dxf.center.y),
              "%.4f" % thing.dxf.radius)
    elif thing.dxftype() == "TEXT":
        print(layer, "text", ezdxf.lldxf.encoding.decode_dxf_unicode(thing.dxf.text))
    else:
        print(layer, thing.dxftype())
