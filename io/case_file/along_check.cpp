#include "io/case_file/along_check.hpp"

#include "io/units/angle.hpp"
#include "solver/findings/lip_development.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace flangewright::case_file {

namespace {

constexpr double square = 0.5 * std::numbers::pi;
constexpr double slack = 1e-9;

std::string width_key(const ReadCase& parts) {
    return parts.blank.flat_width ? "flat_width" : "flange_depth";
}

// Flange and lip are developed, and the second block made, for one section.
void check_lip_is_alike(ReadCase& parts) {
    if (parts.return_bend_table == nullptr) {
        return;
    }
    const bool wall_varies = !parts.block.wall_angles.is_empty();
    const bool depth_varies = !parts.blank.widths.is_empty() && !parts.blank.flat_width;
    if (wall_varies || depth_varies) {
        const std::string key = wall_varies ? "wall_angle" : "flange_depth";
        (wall_varies ? parts.block_table : parts.blank_table)
            ->object_found(
                key,
                key + " that varies along a flange with a lip",
                "one value",
                "give one value, or take the return bend out"
            );
    }
}

// The block's outline seen from above then has no one radius.
void check_wall_radius(ReadCase& parts) {
    const outline::Profile& walls = parts.block.wall_angles;
    if (parts.bend_line.wall_radius && !walls.is_empty() && walls.least() < square - slack) {
        parts.bend_line_table->object_found(
            "wall_radius",
            "a wall radius for a wall below 90 deg whose angle varies",
            "radius, of the bend tangent line",
            "write radius instead of wall_radius"
        );
    }
}

bool lies_on_line(
    key_file::TableReader& table,
    const std::string& key,
    const outline::Profile& profile,
    double length
) {
    if (profile.is_empty() || profile.points().back().station <= length * (1 + slack)) {
        return true;
    }
    table.object_found(
        key,
        "a station at " + shown_length(profile.points().back().station, table),
        "stations up to the bend line's end, at " + shown_length(length, table),
        "leave out what lies past the end, or lengthen the bend line"
    );
    return false;
}

// A flatter edge is all that was tried; past it the sheet's own elements lie aslant.
bool edge_is_flat(ReadCase& parts, const job::Blank& blank) {
    const double steepest = blank.flange_widths.steepest();
    if (steepest <= 1 + slack) {
        return true;
    }
    object_to_size(
        parts,
        width_key(parts),
        "at most 45 deg to the bend line",
        "taper the flange over a longer stretch",
        fmt::format("a flat edge that slopes by {:.0f} deg", units::degrees(std::atan(steepest)))
    );
    return false;
}

// The mesh has one bend width all along, that of the largest angle.
bool goes_past_bend(ReadCase& parts, const job::Job& job) {
    const double t = job.sheet.thickness;
    const double bends = job.return_bend ? job.blank.lip_begin() + findings::lip_bend_allowance(job)
                                         : job.block.wall_angle * (job.block.nose_radius + 0.5 * t);
    const double least = bends + 2 * t;
    const double narrowest = job.blank.flange_widths.least() - job.blank.trim_allowance;
    if (narrowest >= least * (1 - slack)) {
        return true;
    }
    object_to_size(
        parts,
        width_key(parts),
        "at least " + shown_length(least, *parts.blank_table)
            + (job.return_bend
                   ? " (both bends, and two thicknesses of lip)"
                   : " (round the nose by the largest wall angle, and two thicknesses)"),
        "deepen the flange there, or take a smaller nose radius",
        "a net flat width of " + shown_length(narrowest, *parts.blank_table)
            + " where the flange is narrowest"
    );
    return false;
}

bool wall_is_smooth(ReadCase& parts, const job::Job& job) {
    constexpr double most = 0.5; // mm of wall aslant per mm of line, at the flange's edge
    const double aslant = job.block.wall_angles.steepest() * job.blank.flange_width;
    if (aslant <= most) {
        return true;
    }
    parts.block_table->object_found(
        "wall_angle",
        fmt::format(
            "an angle that changes by {:.2g} deg per mm of the line",
            units::degrees(job.block.wall_angles.steepest())
        ),
        fmt::format(
            "at most {:.2g} deg per mm for a flange this wide",
            units::degrees(most / job.blank.flange_width)
        ),
        "let the angle change over a longer stretch"
    );
    return false;
}

} // namespace

void check_along_written(ReadCase& parts) {
    check_lip_is_alike(parts);
    check_wall_radius(parts);
}

bool along_fits(ReadCase& parts, const job::Job& job) {
    const double length = job.blank.line.length();
    if (!std::isfinite(job.blank.flange_width)) {
        return true; // the check of concave lines says why
    }
    return lies_on_line(*parts.blank_table, width_key(parts), parts.blank.widths, length)
        && lies_on_line(*parts.block_table, "wall_angle", parts.block.wall_angles, length)
        && (job.blank.flange_widths.is_empty()
            || (edge_is_flat(parts, job.blank) && goes_past_bend(parts, job)))
        && (job.block.wall_angles.is_empty() || wall_is_smooth(parts, job));
}

} // namespace flangewright::case_file
