// How wide the flat blank must be for a flange of a wanted depth, and where its edge ends up.
#pragma once

#include "solver/job/job.hpp"

namespace flangewright::findings {

// A line of several radii is developed at its tightest place (BendLine::tightest_curvature()), and
// that one flat width holds all along; elsewhere the flange comes out a little deeper or shallower.

/// Radius of the free edge in plan before and after forming.
struct EdgeRadii {
    double flat = 0; ///< infinity for a straight line
    double formed = 0; ///< mid-surface of the flange on the wall; infinity for a straight line
    double stretch = 0; ///< engineering strain of the edge by the ratio of the two
};

/// Angle the flange is turned through: the wall's, or the drive's when it stops before the wall.
/// Units: rad. Source: none needed. Fails: never.
[[nodiscard]] double turned_angle(const job::Job& job);

/// Flat width that ends up round the nose, the mid-surface keeping its length.
/// Units: mm. Source: marciniak-duncan-hu-2002 (from memory). Fails: never.
[[nodiscard]] double bend_allowance(const job::Job& job);

/// Distance of the formed mid-surface from the bend tangent line in plan, where the bend ends.
/// Units: mm. Source: plane geometry. Fails: never.
[[nodiscard]] double mid_bend_reach(const job::Job& job);

/// Bend tangent to mould point, along web or flange. Units: mm. Source: common practice, no source
/// (geometry: outside radius times the tangent of half the angle). Fails: never below 180 deg.
[[nodiscard]] double mould_setback(const job::Job& job);

/// Flat width, bend tangent to free edge, that gives the job's flange depth after forming, with the
/// trim allowance added on the flat. Each strip of the flange stretches (or shrinks) along the line
/// to the radius it ends on and narrows (or widens) by half of that log strain.
/// Units: mm. Source: derived here (docs/theory-findings.md, "Hand calculation"; checked against
/// stretch-flange-closed-forms). Fails: infinity when a concave line's radius leaves no metal for
/// that depth; a depth within the mould setback gives the bend allowance alone.
[[nodiscard]] double developed_flange_width(const job::Job& job);

/// The same at each station where `depths` or the wall's angle has a point, for a flange whose
/// depth or angle varies; `depths` without points: the job's depth all along. Nothing when neither
/// varies. The curvature is the line's tightest for each. Units: mm. Source, fails: as
/// developed_flange_width().
[[nodiscard]] outline::Profile
developed_flange_widths(const job::Job& job, const outline::Profile& depths);

/// Depth of the formed flange for a flat width: the inverse of the development, without trim.
/// Units: mm. Source: as developed_flange_width(). Fails: infinity as there; a width within the
/// bend counts as the bend alone.
[[nodiscard]] double formed_flange_depth(const job::Job& job, double flat_width);

/// Radius of the edge at a flat width before and after. Units: mm, strain in -. Source:
/// stretch-flange-closed-forms (edge strain by the radius ratio). Fails: infinite stretch when a
/// concave line's radius is no larger than the flat width.
[[nodiscard]] EdgeRadii edge_radii(const job::Job& job, double flat_width);

/// Engineering strain of the edge by hand where the line has a curvature (1/mm, positive concave).
/// Units: mm, strain in -. Source: as edge_radii(). Fails: as edge_radii().
[[nodiscard]] double edge_stretch_at(const job::Job& job, double flat_width, double curvature);

} // namespace flangewright::findings
