// Kinks of a line replaced by tangent arcs.
#pragma once

#include "mesh/base/result.hpp"
#include "mesh/outline/bend_line.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace flangewright::outline {

/// Pieces without a kink among them, and the kink behind them.
struct SmoothRun {
    std::vector<Piece> pieces;
    double turn_after =
        0; ///< rad, positive to the left; between -pi and pi; of the last run unused
};

/// A piece of the line once its kinks are rounded.
struct RoundedPiece {
    Piece piece;
    std::size_t run = 0; ///< from 0; an arc that rounds a kink belongs to the run before it
    std::optional<std::size_t> source; ///< place in the run; empty: the arc after the run
};

/// A kink that no arc of the radius fits.
struct NoRoom {
    std::size_t kink = 0; ///< from 0: it lies behind the run of that number
    double free_before = 0; ///< mm, less what the arc of the kink before has taken
    double free_after = 0; ///< mm, up to the next kink
};

/// Each kink replaced by an arc of the radius that touches the runs on both sides without a kink;
/// of several such arcs the one that takes least of them. Pieces near the kink may vanish whole.
/// Units: mm, 1/mm, rad. Source: derived here (docs/theory.md, "Rounded kinks"). Fails: at the
/// first kink without such an arc that turns the kink's way by less than 180 degrees.
[[nodiscard]] Result<std::vector<RoundedPiece>, NoRoom>
round_kinks(const std::vector<SmoothRun>& runs, double radius);

/// Length that such an arc takes of either side of a kink between two straight lines.
/// Units: mm, rad. Source: elementary geometry. Fails: never.
[[nodiscard]] double tangent_length(double turn, double radius);

} // namespace flangewright::outline
