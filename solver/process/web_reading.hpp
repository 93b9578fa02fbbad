// The web of a free part as it lies on its resting plane, and what the edge's zones do to it.
#pragma once

#include "solver/process/edge_stretch.hpp"
#include "solver/process/flat_fit.hpp"

namespace flangewright::process {

/// The web set on its resting plane.
struct WebReading {
    std::vector<int> nodes; ///< of the web
    Eigen::VectorXd gaps; ///< beneath them, mm
    Eigen::Vector3d normal = Eigen::Vector3d::UnitZ(); ///< of the plane it rests on
    double lift = 0; ///< web lift, mm
};

/// Units: mm. Source: docs/theory-findings.md, "Web lift". Fails: never.
[[nodiscard]] WebReading read_web(const Workpiece& piece);

/// Rise of the web's nodes, square to the plane they rest on, for a unit of each zone's amount: one
/// elastic linear solve each with the stiffness of the shape as it is. Shape: web nodes x zones.
/// Units: mm. Source: derived here (docs/theory.md, "Cure of the web"). Fails: empty when the
/// stiffness can't be factorised.
[[nodiscard]] Eigen::MatrixXd
web_influence(const Workpiece& piece, const WebReading& web, const Eigen::MatrixXd& shares);

/// The fit of the web as read, without amounts. Units: mm. Source: as web_influence(). Fails:
/// never.
[[nodiscard]] FlatFit fit_of(const Workpiece& piece, const WebReading& web);

} // namespace flangewright::process
