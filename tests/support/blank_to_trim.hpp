// A blank that is formed wider than it ends, and its mesh.
#pragma once

#include "mesh/base/check.hpp"
#include "mesh/grid/blank_mesher.hpp"

namespace flangewright::support {

/// Where it is cut: flat distance past the bend line, mm.
inline constexpr double cut_of_blank = 9;

inline grid::SheetMesh blank_to_trim() {
    grid::BlankGrid blank;
    blank.line = outline::BendLine::arc(60, 0.5, outline::Curve::concave);
    blank.web_width = 20;
    blank.bend_width = 4;
    blank.flange_width = 12.5;
    blank.cut_width = cut_of_blank;
    const Result<grid::SheetMesh> mesh = grid::mesh_blank(blank);
    check(mesh.has_value(), "a small blank can be meshed");
    return *mesh;
}

} // namespace flangewright::support
