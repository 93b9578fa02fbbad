// The job as plain numbers: units gone, everything checked. mm, N, MPa, rad.
#pragma once

#include "mesh/outline/bend_line.hpp"
#include "mesh/outline/openings.hpp"
#include "mesh/outline/profile.hpp"
#include "solver/material/sheet_material.hpp"

#include <algorithm>
#include <cstddef>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

namespace flangewright::job {

/// The material as bought.
struct Sheet {
    material::SheetMaterial material;
    double thickness = 0;
    double rolling_direction = 0; ///< from the bend line in the middle of the part toward the
                                  ///< flange, rad
    std::optional<double> least_thickness = {}; ///< of the finished part, by its drawing
    /// The same alloy in softer tempers, least soft first; none: not known, or none is.
    std::vector<material::SheetMaterial> softer_tempers = {};
};

/// What happens where the blank ends along the bend line.
enum class EndKind {
    free, ///< a cut end
    continues, ///< the part goes on: a plane of symmetry
};

/// The flat outline.
struct Blank {
    outline::BendLine line = outline::BendLine::straight(1);
    double web_width = 0; ///< web edge to bend tangent
    double flange_depth = 0; ///< wanted: outside face of web to net flange edge, along the flange
    double flange_width = 0; ///< flat, bend tangent to free edge, trim allowance included
    outline::Profile flange_widths = {}; ///< the same over station, flange_width the largest of
                                         ///< them; empty: alike all along
    double trim_allowance = 0; ///< part of flange_width beyond the net edge
    double lip_width = 0; ///< part of flange_width from the lip's bend to the net edge; 0: no lip
    bool has_lip = false; ///< the lip is bent
    EndKind start = EndKind::free;
    EndKind end = EndKind::free;
    outline::Openings openings = {}; ///< holes, notches, tabs
    std::optional<material::EdgeFinish> edge_finish = {}; ///< of the flange's edge as cut

    /// Flat width at which the lip's bend begins; the net edge without a lip. Units: mm. Source:
    /// none needed. Fails: never.
    [[nodiscard]] double lip_begin() const { return flange_width - trim_allowance - lip_width; }
    /// Flat width at a station. Units: mm. Source: none needed. Fails: never.
    [[nodiscard]] double flange_width_at(double station) const {
        return flange_widths.is_empty() ? flange_width : flange_widths.at(station);
    }
    /// Flat width with the highest tab. Units: mm. Source: none needed. Fails: never.
    [[nodiscard]] double width_with_tabs() const { return flange_width + openings.highest_tab(); }
    /// Station of the middle of the whole part, of which the line may be one half: an end that
    /// continues while the other does not. Units: mm. Source: none needed. Fails: never.
    [[nodiscard]] double middle_of_part() const {
        return start == end ? 0.5 * line.length() : (start == EndKind::free ? line.length() : 0);
    }
    /// False when the part goes on at both ends. Units: none. Source: none needed. Fails: never.
    [[nodiscard]] bool has_free_end() const {
        return start == EndKind::free || end == EndKind::free;
    }
};

/// The rigid form block and the backing plate.
struct Block {
    double nose_radius = 0;
    double wall_angle = 0.5 * std::numbers::pi; ///< turned through from the face; 90 deg is square
    outline::Profile wall_angles = {}; ///< the same over station, wall_angle the largest of them,
                                       ///< corners rounded; empty: alike all along
    double backing_setback = 0; ///< backing's edge stays this far behind the bend tangent
    double friction = 0; ///< Coulomb coefficient on block and drive

    /// Angle of the wall at a station. Units: rad. Source: none needed. Fails: never.
    [[nodiscard]] double wall_angle_at(double station) const {
        return wall_angles.is_empty() ? wall_angle : wall_angles.rounded_at(station).value;
    }
};

/// What drives the flange over the nose.
enum class DriveKind {
    wiper, ///< a rigid tool that goes straight down with a horizontal gap to the wall
    leaf, ///< a rigid leaf that turns about the nose's centre line
};

/// In which order the flange is worked along the line in each pass.
enum class DriveOrder {
    evenly, ///< all of it together
    from_start,
    from_end,
    ends_first, ///< from both ends to the middle
};

/// The drive and how far it goes.
struct Drive {
    DriveKind kind = DriveKind::wiper;
    double clearance = 1.05; ///< gap between drive and block over sheet thickness
    double corner_radius = 0; ///< of the wiper
    double angle = 0.5 * std::numbers::pi; ///< the flange is driven to this angle
    DriveOrder order = DriveOrder::evenly;
    std::vector<double> passes = {}; ///< angle after each, rising to `angle`; empty: one pass
    double front = 0; ///< length over which a pass goes from not yet done to done; not when even
};

/// Which way the lip points.
enum class LipSide {
    under_web, ///< back under the web: bent over the form block's lower edge
    away_from_web, ///< bent over a block that lies outside the flange
};

/// The return lip and its tools: the flange is clamped between the form block and a block outside
/// it, one of which carries the nose; a wiper drives the lip over it.
struct ReturnBend {
    LipSide side = LipSide::under_web;
    double lip_depth = 0; ///< wanted: flange's outside of the bend to net lip edge, along the lip
    double nose_radius = 0;
    double angle = 0.5 * std::numbers::pi; ///< between flange and lip; 90 deg is square
    double clearance = 1.05; ///< gap between wiper and nose's block over sheet thickness
    double corner_radius = 0; ///< of the wiper
};

/// How far sheet and tools may differ from what the case says: half-widths of bands, as shares of
/// the value but for friction. Source: common practice, no source.
struct Scatter {
    double thickness = 0.05;
    double yield_stress = 0.10;
    double hardening = 0.10; ///< of the rise above yield
    double nose_radius = 0.05;
    double friction = 0.05; ///< of the coefficient itself
    double edge_limit = 0.20; ///< of what a cut edge bears
};

/// How fine the mesh is.
enum class Accuracy { quick, normal, fine };

/// The steps of a job; later ones build on the state the earlier ones leave.
enum class StepKind {
    bend_down,
    release,
    trim, ///< the trim allowance is cut off the free part
    anneal, ///< stress and hardening are wiped, the sheet is soft again
    heat_treat, ///< the same, and the sheet gets the strength of another temper
    set_on_block, ///< the web is pressed flat on the block again
    return_bend, ///< the flange's edge is bent into a lip over a second nose
};

/// Whether the part is held on the block when the step is done. Units: none. Source: none needed.
/// Fails: never.
[[nodiscard]] constexpr bool ends_on_block(StepKind kind) {
    return kind == StepKind::bend_down || kind == StepKind::set_on_block
        || kind == StepKind::return_bend;
}

/// Only bend-down and first release of an order of steps: what error bars are estimated on.
/// Source: none needed. Fails: never.
[[nodiscard]] inline std::vector<StepKind> up_to_release(const std::vector<StepKind>& steps) {
    const std::size_t n = std::min<std::size_t>(steps.size(), 2);
    return {steps.begin(), steps.begin() + static_cast<std::ptrdiff_t>(n)};
}

/// One job.
struct Job {
    std::string title;
    Sheet sheet;
    Blank blank;
    Block block;
    Drive drive;
    std::optional<ReturnBend> return_bend; ///< empty: no lip
    std::vector<StepKind> steps{StepKind::bend_down, StepKind::release};
    material::SheetMaterial annealed; ///< the sheet after each anneal; unused without one
    material::SheetMaterial heat_treated; ///< the sheet after the heat treatment; same
    std::optional<material::EdgeFinish> trimmed_edge_finish; ///< of the edge a trim leaves; unused
                                                             ///< without one
    Accuracy accuracy = Accuracy::normal;
    double close_share = 0.8; ///< share used from which the verdict is `close`
    std::optional<Scatter> scatter; ///< empty: no bands are asked for
};

} // namespace flangewright::job
