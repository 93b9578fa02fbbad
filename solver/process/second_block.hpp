// Where the lip's tools stand: the section of the second nose, and the clamped flange in it.
#pragma once

#include "solver/process/workpiece.hpp"
#include "solver/tooling/surface/moved_surface.hpp"

#include <memory>
#include <vector>

namespace flangewright::process {

/// The section of the second nose: its own axes run along the flange past the lip's bend tangent,
/// and off the nose's block through the sheet.
struct SecondSection {
    tooling::ShapeAxes axes; ///< columns: along the flange, off the block; in the job's section
    Eigen::Vector2d origin; ///< the lip's bend tangent on the block's face, mm
    job::LipSide side = job::LipSide::under_web;

    /// Units: mm. Source: plane geometry. Fails: never.
    [[nodiscard]] Eigen::Vector2d at(const Eigen::Vector2d& section_point) const {
        return axes.transpose() * (section_point - origin);
    }
    /// Face of the sheet that lies on the block. Source: none needed. Fails: never.
    [[nodiscard]] tooling::Face block_face() const {
        return side == job::LipSide::under_web ? tooling::Face::block : tooling::Face::outer;
    }
    /// Face of the sheet that the wiper drives. Source: none needed. Fails: never.
    [[nodiscard]] tooling::Face driven_face() const {
        return side == job::LipSide::under_web ? tooling::Face::outer : tooling::Face::block;
    }
};

/// The tools stand where the drawing puts the lip: flange depth and setback from the web's outside.
/// The job must have a return bend. Units: mm, rad. Source: plane geometry (docs/theory.md, "Return
/// bend"). Fails: never.
[[nodiscard]] SecondSection second_section(const job::Job& job);

/// A tool shape of the second nose where it stands in the end. Units: mm. Source: none needed.
/// Fails: never.
[[nodiscard]] std::shared_ptr<tooling::MovedSurface>
placed(const SecondSection& section, std::shared_ptr<const tooling::RigidSurface> shape);

/// A node in the second section, mm. Source: none needed. Fails: never.
[[nodiscard]] Eigen::Vector2d
in_second_section(const Workpiece& piece, const SecondSection& section, int node);

/// Mean angle of the lip's edge to the clamped flange, rad: 0 straight on, positive as the job
/// bends it. Source: none needed. Fails: never.
[[nodiscard]] double lip_angle(const Workpiece& piece, const SecondSection& section);

/// Nodes of the flange between its bend and the lip's tangent, which the tools clamp: past the bend
/// by a thickness, before the tangent as measured along the flange as it now is.
/// Source: none needed. Fails: never.
[[nodiscard]] std::vector<int> clamped_flange(const Workpiece& piece);

} // namespace flangewright::process
