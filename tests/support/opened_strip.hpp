// A flat blank with one opening of each kind.
#pragma once

#include "mesh/grid/blank_mesher.hpp"

namespace flangewright::support {

/// A strip of 80 mm with a hole of 10 mm in the web, a notch and a tab. Lengths in mm.
inline grid::SheetMesh opened_strip() {
    grid::BlankGrid blank;
    blank.line = outline::BendLine::straight(80);
    blank.web_width = 40;
    blank.bend_width = 4;
    blank.flange_width = 24;
    blank.openings.holes = {{40, -20, 10, false}};
    blank.openings.notches = {{25, 5, 8}};
    blank.openings.tabs = {{50, 70, 5}};
    return *grid::mesh_blank(blank);
}

} // namespace flangewright::support
