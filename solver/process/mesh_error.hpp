// What the choice of mesh leaves open in a run's figures.
#pragma once

#include "mesh/base/progress.hpp"
#include "solver/process/workpiece.hpp"

#include <optional>
#include <span>

namespace flangewright::process {

/// Two looks, and the worse one counts. Across the line: one element's length of the part between
/// planes of symmetry, solved with the piece's mesh and with one twice as fine. Along the line, and
/// for the place of the worst thinning: half the kink of the figure from node to node there, about
/// what a smooth field hides between nodes. The web lift has the first look only, laid on the part
/// as `piece` has it: after the last step. Units: rad, mm, -. Source: docs/theory.md, "Error of the
/// mesh"; how near it comes: docs/verification.md. Fails: nothing when a slice finds no
/// equilibrium, is stopped or can't be meshed.
[[nodiscard]] std::optional<MeshError> estimate_mesh_error(
    const Workpiece& piece,
    const Fineness& fineness,
    std::span<const StepResult> steps,
    const Monitor& monitor
);

/// Twice as many elements in every direction and layers. Source: none needed. Fails: never.
[[nodiscard]] Fineness twice_as_fine(const Fineness& fineness);

/// Half the largest second difference of a series at one place, next to an end at the nearest place
/// within. 0 for fewer than three values. Source: as estimate_mesh_error(). Fails: never.
[[nodiscard]] double half_kink_at(std::span<const double> series, std::size_t place);

} // namespace flangewright::process
