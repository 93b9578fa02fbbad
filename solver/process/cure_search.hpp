// Looks for the amounts of stretch and shrink that bring the web flat, by working them in.
#pragma once

#include "mesh/base/progress.hpp"
#include "solver/process/edge_stretch.hpp"

#include <functional>
#include <optional>

namespace flangewright::process {

/// What is worked, and how. Refers to the piece.
struct EdgeWork {
    Workpiece& piece;
    Eigen::MatrixXd shares; ///< of the nodes, per zone
    std::stop_token stop;
    double most = 0.03; ///< put into a zone, engineering
    double go = 0.005; ///< largest amount put in at once, before the part finds its balance
    double share_wanted = 0.9; ///< of the lift to go; less is worked on
    int n_rounds_most = 6;
};

/// Works amounts, one per zone, into the free part, a little at a go with a balance after each.
/// Units: -. Source: docs/theory.md, "Cure of the web". Fails: false when the part found no balance
/// or a stop was asked for; the piece is then on its way.
[[nodiscard]] bool work_edge(const EdgeWork& work, const Eigen::VectorXd& amounts);

/// Amounts that bring the web as flat as believable ones can. The piece is left with them worked
/// in, or with a last trial that made it no flatter. `on_round` is told the share of rounds done.
/// Units: -. Source: docs/theory.md, "Cure of the web". Fails: empty as work_edge().
[[nodiscard]] std::optional<Eigen::VectorXd>
search_flattening(const EdgeWork& work, const std::function<void(double)>& on_round);

} // namespace flangewright::process
