// Meshes a blank with mapped quadrilaterals, fine round the nose and coarser away from it, and
// unmapped ones round openings.
#pragma once

#include "mesh/base/result.hpp"
#include "mesh/grid/sheet_mesh.hpp"
#include "mesh/outline/bend_line.hpp"
#include "mesh/outline/openings.hpp"
#include "mesh/outline/profile.hpp"

namespace flangewright::grid {

/// What is to be meshed, and how finely. Lengths in mm, angles in rad.
struct BlankGrid {
    outline::BendLine line = outline::BendLine::straight(1);
    double web_width = 0; ///< web edge to bend tangent
    double bend_width = 0; ///< flat width that ends up round the nose
    double flange_width = 0; ///< flat width from bend tangent to free edge, bend included
    outline::Profile flange_widths; ///< over station, the largest flange_width; empty: all alike
    double cut_width = 0; ///< a row of nodes lies at this flat width where the flange is
                          ///< widest, and as far off its edge elsewhere, to cut along; 0: none
    outline::Openings openings; ///< holes, notches, tabs; clear of bend, ends and one another
    int n_round_hole = 32; ///< elements round a hole, a multiple of four
    int n_round_nose = 16; ///< elements across bend_width
    double second_bend_begin = 0; ///< flat width at which a second bend begins; 0: there is none
    double second_bend_width = 0; ///< flat width that ends up round the second nose
    int n_round_second_nose = 16; ///< elements across second_bend_width
    double growth = 1.15; ///< ratio of neighbouring element widths away from the bend
    double widest = 3; ///< widest element square to the bend line
    double widest_in_flange = 3; ///< same, past the bend, where a tool's corner passes
    double longest = 3; ///< longest element along the bend line
    double largest_turn = 0.0436; ///< largest turn of an arc over one element, rad
};

/// Units: mm. Source: transfinite meshing by the Gmsh library; grading derived here
/// (docs/theory.md, "Mesh"). Fails: when Gmsh refuses, with its own words in `object`.
[[nodiscard]] Result<SheetMesh> mesh_blank(const BlankGrid& blank);

} // namespace flangewright::grid
