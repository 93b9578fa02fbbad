// A net of mapped patches handed to the Gmsh library; its .cpp is the only file that knows Gmsh.
#pragma once

#include "mesh/base/result.hpp"

#include <Eigen/Core>

#include <array>
#include <vector>

namespace flangewright::grid {

/// How one side of a patch is divided.
struct Division {
    int n_elements = 1;
    double ratio = 1; ///< width of an element over the width of the one before it
};

/// Patches side by side: columns along the bend line, bands square to it. Lengths in mm.
struct PatchNet {
    std::vector<std::vector<Eigen::Vector3d>> corners; ///< [column boundary][band boundary]
    std::vector<Division> along; ///< one per column
    std::vector<Division> across; ///< one per band
};

/// Nodes and quadrilaterals as the library numbered them, nodes from 0 and each used.
struct PatchMesh {
    Eigen::Matrix3Xd positions; ///< 3 x n_nodes, mm
    std::vector<std::array<int, 4>> quads; ///< going round, either way
};

/// Meshes the net. Only one call runs at a time in a process, and it leaves signal handlers, locale
/// and the user's Gmsh settings alone. Units: mm. Source: transfinite meshing by the Gmsh library.
/// Fails: when Gmsh refuses, with its own words in `object`.
[[nodiscard]] Result<PatchMesh> mesh_patches(const PatchNet& net);

/// A flat region between closed polygons, the outer one first, none repeating its first corner.
/// Every side becomes one element's side twice over: it is halved. Lengths in mm.
struct Region {
    std::vector<std::vector<Eigen::Vector3d>> loops;
};

/// Meshes the region with unmapped quadrilaterals; sides lie halved on the polygons. As
/// mesh_patches() otherwise. Units: mm. Source: Gmsh's recombined triangles, each cell divided into
/// quadrilaterals. Fails: when Gmsh refuses, with its own words in `object`.
[[nodiscard]] Result<PatchMesh> mesh_region(const Region& region);

} // namespace flangewright::grid
