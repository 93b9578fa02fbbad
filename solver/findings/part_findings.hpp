// All figures of a part after one step.
#pragma once

#include "mesh/grid/sheet_mesh.hpp"
#include "solver/findings/findings.hpp"
#include "solver/findings/part_shape.hpp"
#include "solver/job/job.hpp"
#include "solver/shell/sheet_state.hpp"

#include <optional>
#include <span>

namespace flangewright::findings {

/// Mid-surface and directors of a state, and the thickness field, as findings look at them.
/// Units: mm. Source: none needed. Fails: never; the arrays must outlive the view.
[[nodiscard]] PartShape shape_of(const shell::SheetState& state, const shell::SheetFields& fields);

/// Reads the figures off a shape. Without `held_angles` the part is on the block: the web plane is
/// level. With them (one per station, of the part held on the block) the part is released: it is
/// set down on its own resting plane, angles are taken from that, and springback is held angle
/// minus this angle. Means along the line are weighted by the length each station stands for;
/// `middle` leaves out stations closer to a free end than two flange depths or a quarter of the
/// line, whichever is less.
/// Units: mm, rad, strains in -. Source: design definitions (docs/theory-findings.md). Fails: never
/// for fields of the mesh's size.
[[nodiscard]] PartFindings find_in_part(
    const grid::SheetMesh& mesh,
    const PartShape& shape,
    const shell::SheetFields& fields,
    const job::Job& job,
    std::optional<std::span<const double>> held_angles = std::nullopt
);

/// The flange angles of all stations, to be handed to find_in_part() after release.
/// Units: rad. Source: none needed. Fails: never.
[[nodiscard]] std::vector<double> flange_angles(const PartFindings& part);

/// Mean lip angle away from free ends minus this part's, for one held on the block and this one
/// released; nothing where one has no lip. Units: rad. Source: design definition. Fails: never.
void add_lip_springback(PartFindings& part, const PartFindings& held);

/// Largest value of a nodal field over the lip's bend and a thickness to each side; at least 0.
/// Units: the field's. Source: none needed. Fails: never; the job must have a return bend.
[[nodiscard]] double largest_in_lip_bend(
    const grid::SheetMesh& mesh, const Eigen::Ref<const Eigen::VectorXd>& field, const job::Job& job
);

/// Log strain square to the bend line at the face that is stretched in the lip's bend.
/// Units: -. Source: none needed. Fails: never; the job must have a return bend.
[[nodiscard]] const Eigen::VectorXd&
across_stretched_face_of_lip(const shell::SheetFields& fields, const job::Job& job);

/// Largest value of a nodal field over the bend and a thickness to each side; at least 0.
/// Units: the field's. Source: none needed. Fails: never.
[[nodiscard]] double largest_in_bend(
    const grid::SheetMesh& mesh, const Eigen::Ref<const Eigen::VectorXd>& field, const job::Job& job
);

} // namespace flangewright::findings
