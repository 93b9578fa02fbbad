// Equilibrium under one set of dead forces past the load's extremes: driven by the displacement of
// a node or by arc length, with the load as a further unknown.
#pragma once

#include "tests/support/elastic_sheet.hpp"

namespace flangewright::support {

/// Where a path stands. The load counts in shares of the full one.
struct PathPoint {
    double load = 0;
    double displacement = 0; ///< of the node watched
};

/// When an increment is in balance.
struct LoadPathLimits {
    double tolerance = 1e-8; ///< residual over the scale of the element forces
    int n_iterations_most = 30;
    double largest_turn = 0.3; ///< of a director in one iteration, rad
};

/// Forces on positions only. Source: two solves per iteration, one for the residual and one for the
/// load, combined by a linear constraint (displacement control; normal plane of the arc):
/// riks-1979, crisfield-1981.
class LoadPath {
public:
    /// Watches and, by move_to(), drives the displacement of `node` along a unit direction.
    LoadPath(
        SheetTrial& trial,
        equilibrium::DeadLoads full,
        int node,
        const Eigen::Vector3d& direction,
        LoadPathLimits limits = {}
    );

    /// Goes to this displacement of the node watched, in even steps, halved where one fails.
    /// False: no equilibrium found; the trial stays at the last one.
    [[nodiscard]] bool move_to(double displacement, int n_steps = 1);
    /// Goes on by this length, the norm of all nodal displacements. False as above.
    [[nodiscard]] bool go_on(double length);
    [[nodiscard]] PathPoint now() const;

private:
    /// Finds equilibrium with constraint . (displacements of the increment) = goal.
    bool advance(const Eigen::VectorXd* constraint, double goal);
    bool accept(const equilibrium::Shape& shape);
    [[nodiscard]] Eigen::VectorXd along_path(const Eigen::VectorXd& by_load) const;
    void limit_turn(Eigen::VectorXd& step) const;

    SheetTrial& trial_;
    equilibrium::DeadLoads full_;
    int node_;
    Eigen::Vector3d direction_;
    LoadPathLimits limits_;
    Eigen::VectorXd by_unit_load_; ///< full load over the degrees of freedom
    Eigen::VectorXd watched_; ///< picks the displacement watched
    Eigen::VectorXd last_; ///< displacements of the last increment
    double load_ = 0;
};

/// Distance from a point to a chain of points, both axes divided by `scale` first.
[[nodiscard]] double distance_to_path(
    const std::vector<PathPoint>& path, const PathPoint& point, const PathPoint& scale
);

} // namespace flangewright::support
