// The sheet on its way through the steps: mesh, shell, state, and the solver's work space.
#pragma once

#include "mesh/base/result.hpp"
#include "mesh/grid/sheet_mesh.hpp"
#include "solver/equilibrium/path.hpp"
#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

#include <memory>
#include <optional>

namespace flangewright::process {

/// The shape in which the sheet was last made soft; strain used up counts from there.
struct SoftShape {
    Eigen::Matrix3Xd positions; ///< mm
    Eigen::VectorXd across_outer_face; ///< as in SheetFields
    Eigen::VectorXd across_block_face;
};

/// One blank being worked. The state is always the last one in equilibrium.
struct Workpiece {
    job::Job job;
    grid::SheetMesh mesh;
    shell::ShellModel model;
    shell::SheetState state;
    std::vector<Eigen::Matrix3d> node_axes; ///< columns: along the bend line, toward the flange, up
    std::unique_ptr<equilibrium::SheetSystem> system;
    std::unique_ptr<equilibrium::LinearSolver> solver;
    std::optional<SoftShape> soft; ///< empty: the sheet as bought
    equilibrium::DeadLoads held_by; ///< what tools and clamp do at the end of the last step
    int n_threads = 1;
};

/// Numerical choices that are not the user's. mm.
struct Fineness {
    int n_layers = 12;
    int n_round_nose = 16; ///< elements across the bend
    double largest_turn = 0.0436; ///< of an arc over one element, rad (2.5 deg)
    double growth = 1.2; ///< of neighbouring widths away from the bend
    double widest_ratio = 12; ///< widest web element over those in the bend
    double widest_in_flange_ratio =
        1.5; ///< same in the flange, over which the wiper's corner passes
    double longest_ratio =
        6; ///< longest element along the line over the width of those in the bend
    int n_along_most = 24; ///< elements along the line, unless the turn asks for more
    double longest = 0; ///< element along the bend line; 0: from the two above
    int n_round_hole = 32; ///< elements round a hole, a multiple of four
};

/// Source: mesh and layer trials in docs/verification.md. Fails: never.
[[nodiscard]] Fineness fineness_for(job::Accuracy accuracy);

/// Lays out and meshes the blank, its mid-surface half a thickness over the block's face.
/// Units: mm. Source: none needed. Fails: when the mesh library refuses.
[[nodiscard]] Result<Workpiece>
make_workpiece(const job::Job& job, const Fineness& fineness, int n_threads);

/// Lays the shell on a mesh of the same blank, with fresh work space; the state stays and must be
/// that of the mesh. Units: mm. Source: none needed. Fails: never.
void take_mesh(Workpiece& piece, grid::SheetMesh mesh);

/// Of the sheet, in the flat blank, a unit vector. Units: none. Source: none needed. Fails: never.
[[nodiscard]] Eigen::Vector3d rolling_direction(const job::Job& job);

/// Degrees of freedom held by planes of symmetry where the part continues; nothing else is.
/// Shape: 5 per node. Source: none needed. Fails: never.
[[nodiscard]] std::vector<bool> symmetry_supports(const Workpiece& piece);

/// The piece as it is, held by planes of symmetry only, without loads or tools. Refers to the
/// piece. Units: mm, N. Source: none needed. Fails: never.
[[nodiscard]] equilibrium::Problem problem_of(const Workpiece& piece);

/// Mean angle of the directors of the flange's edge, that of the flange itself once a lip is bent:
/// how far the flange has come, rad.
/// Source: none needed. Fails: never.
[[nodiscard]] double driven_angle(const Workpiece& piece);

/// A path's report in the words of a step. Source: none needed. Fails: never.
[[nodiscard]] StepReport
report_of(const equilibrium::PathReport& path, double angle_reached, double penetration);

} // namespace flangewright::process
