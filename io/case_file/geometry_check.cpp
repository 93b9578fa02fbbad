#include "io/case_file/geometry_check.hpp"

#include "io/case_file/along_check.hpp"
#include "io/case_file/lip_check.hpp"
#include "io/case_file/openings_check.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/units/angle.hpp"
#include "io/units/length.hpp"
#include "solver/findings/flange_development.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace flangewright::case_file {

namespace {

constexpr double square = 0.5 * std::numbers::pi;
constexpr double angle_slack = 1e-9; // rounding of degrees to radians

void check_web(ReadCase& parts) {
    if (!parts.blank.web_width || !parts.sheet.thickness) {
        return;
    }
    const double least = 5 * *parts.sheet.thickness;
    if (*parts.blank.web_width < least) {
        object_to_size(
            parts,
            "web_width",
            "at least " + shown_length(least, *parts.blank_table)
                + " (5 times the thickness; a narrower web can't be held)",
            "widen the web"
        );
    }
    if (parts.block.backing_setback && parts.blank.web_width
        && *parts.block.backing_setback > *parts.blank.web_width - 2 * *parts.sheet.thickness) {
        parts.block_table->object(
            "backing_setback",
            "less than the web width by two thicknesses (else nothing holds the web)",
            "bring the backing nearer to the bend"
        );
    }
}

// A leaf that follows a wall whose angle varies goes home everywhere, all of it together.
bool drives_short(ReadCase& parts) {
    const bool is_worked = parts.drive.order != job::DriveOrder::evenly;
    if (!parts.drive.angle && parts.drive.passes.empty() && !is_worked) {
        return false;
    }
    const std::string key = parts.drive.angle ? "angle" : (is_worked ? "order" : "passes");
    parts.drive_table->object_found(
        key,
        key + " for a leaf on a wall whose angle varies",
        "nothing: the leaf goes to the wall at every station, all along at once",
        "delete " + key + ", or give wall_angle one value"
    );
    return true;
}

void check_drive(ReadCase& parts) {
    if (!parts.drive.kind || !parts.block.wall_angle) {
        return;
    }
    const double wall = *parts.block.wall_angle;
    const double least_wall =
        parts.block.wall_angles.is_empty() ? wall : parts.block.wall_angles.least();
    const bool is_wiper = parts.drive.kind == job::DriveKind::wiper;
    if (is_wiper && least_wall < square - angle_slack) {
        parts.drive_table->object_found(
            "kind",
            fmt::format("a wiper on a wall of {:g} deg", units::degrees(least_wall)),
            "a wiper only with wall_angle of 90 or more (a tool that goes straight down runs into "
            "a sloping wall)",
            "write kind = \"leaf\""
        );
    }
    if (!is_wiper && !parts.block.wall_angles.is_empty() && drives_short(parts)) {
        return;
    }
    if (!parts.drive.angle) {
        return;
    }
    const double most = is_wiper ? std::min(wall, square) : wall;
    if (*parts.drive.angle > most + angle_slack) {
        parts.drive_table->object(
            "angle",
            fmt::format(
                "at most {:g} deg ({})",
                units::degrees(most),
                is_wiper && wall > square ? "a tool that goes straight down can't fold past square"
                                          : "the block's wall stops the flange there"
            ),
            "lower the angle, or delete it to drive the flange home"
        );
    }
}

bool has_step(const ReadCase& parts, job::StepKind kind) {
    return std::ranges::find(parts.run.steps, kind) != parts.run.steps.end();
}

// "2024-O clad", "304 annealed".
bool is_soft(const std::string& sheet) {
    return sheet.ends_with("-O") || sheet.find("-O ") != std::string::npos
        || sheet.find("annealed") != std::string::npos;
}

// An anneal gives soft sheet its own values back; what it makes of another must be said.
void check_heat(ReadCase& parts) {
    if (!parts.sheet.material) {
        return;
    }
    const std::string& name = parts.sheet.material->name;
    if (has_step(parts, job::StepKind::anneal) && !parts.annealed && !is_soft(name)) {
        parts.run_table->object_found(
            "steps",
            "an anneal, and no word of what " + key_file::excerpt(name) + " is after it",
            "a section [anneal] that names the soft sheet",
            "add [anneal] with material = \"2024-O\" or what your sheet becomes"
        );
    }
    if (has_step(parts, job::StepKind::heat_treat) && !parts.heat_treated) {
        parts.run_table->object_found(
            "steps",
            "a heat treatment, and no word of the temper it gives",
            "a section [heat_treat] that names the sheet afterwards",
            "add [heat_treat] with material = \"2024-T4\" or the temper your heat treater gives"
        );
    }
}

void check_trim(ReadCase& parts) {
    if (has_step(parts, job::StepKind::trim) && parts.blank.trim_allowance == 0) {
        parts.blank_table->object_found(
            "trim_allowance",
            "a trim step and nothing to trim",
            "a trim allowance above 0",
            "write trim_allowance in [blank], or take trim out of the steps"
        );
    }
    if (parts.trim_table != nullptr && !has_step(parts, job::StepKind::trim)
        && parts.run.has_good_steps) {
        parts.trim_table->object_found(
            "edge",
            "a trimmed edge that no step trims",
            "\"trim\" among the steps of [run]",
            "add \"trim\" to the steps, or delete [trim]"
        );
    }
}

// The flange keys speak of the depth on the drawing or of the flat width; limits are told in
// theirs.
struct FlangeKey {
    std::string name;
    bool is_depth = false;
};

FlangeKey flange_key(const ReadCase& parts) {
    return parts.blank.flat_width ? FlangeKey{"flat_width", false}
                                  : FlangeKey{"flange_depth", true};
}

double least_width_of(const job::Blank& blank) {
    return blank.flange_widths.is_empty() ? blank.flange_width : blank.flange_widths.least();
}

double least_depth(const ReadCase& parts) {
    return parts.blank.widths.is_empty() ? *parts.blank.flange_depth : parts.blank.widths.least();
}

void check_flange_stands(ReadCase& parts, const job::Job& job) {
    const FlangeKey key = flange_key(parts);
    const double t = job.sheet.thickness;
    const double least_width = findings::bend_allowance(job) + 2 * t;
    const double net_width = least_width_of(job.blank) - job.blank.trim_allowance;
    const double least = key.is_depth ? findings::mould_setback(job) + 2 * t
                                      : least_width + job.blank.trim_allowance;
    const bool is_short = key.is_depth ? least_depth(parts) < least : net_width < least_width;
    if (is_short) {
        object_to_size(
            parts,
            key.name,
            "at least " + shown_length(least, *parts.blank_table)
                + " (the bend, two thicknesses of straight flange"
                + (key.is_depth ? ")" : " and the trim allowance)"),
            "widen the flange, or take a smaller nose radius"
        );
    }
}

// The mesh has a row of nodes along the cut, and needs it past the whole nose, however far the
// flange is driven.
void check_cut_past_bend(ReadCase& parts, const job::Job& job) {
    const double t = job.sheet.thickness;
    const double nose = job.block.wall_angle * (job.block.nose_radius + 0.5 * t);
    const double net_width = least_width_of(job.blank) - job.blank.trim_allowance;
    if (has_step(parts, job::StepKind::trim) && net_width < nose + t) {
        parts.blank_table->object_found(
            "trim_allowance",
            "a cut that leaves a flat width of " + shown_length(net_width, *parts.blank_table),
            "a cut at least a thickness past the nose, at a flat width of "
                + shown_length(nose + t, *parts.blank_table),
            "widen the flange, or take trim out of the steps"
        );
    }
}

void check_concave_flange(ReadCase& parts, const job::Job& job) {
    const FlangeKey key = flange_key(parts);
    const double most_width = job.blank.line.radius() - 2 * job.sheet.thickness;
    if (job.blank.width_with_tabs() <= most_width) { // false for an infinite width as well
        return;
    }
    const double most = key.is_depth
        ? findings::formed_flange_depth(job, most_width - job.blank.trim_allowance)
        : most_width;
    object_to_size(
        parts,
        key.name,
        "less than " + shown_length(most, *parts.blank_table)
            + " (the flat flange reaches inward from a bend line of radius "
            + shown_length(job.blank.line.radius(), *parts.blank_table)
            + ", and the cut edge's radius must stay above two thicknesses)",
        "take a narrower flange, less trim allowance or a larger bend line radius"
    );
}

// The tool comes down inside the curve of the wall.
void check_room_for_drive(ReadCase& parts, const job::Job& job) {
    const double needed = least_concave_radius(job);
    if (job.blank.line.radius() <= needed) {
        parts.bend_line_table->object(
            parts.bend_line.wall_radius ? "wall_radius" : "radius",
            "a bend line radius above " + shown_length(needed, *parts.bend_line_table)
                + " (nose radius, gap and the drive's corner must fit inside the curve)",
            "take a larger radius, or a smaller nose or corner radius"
        );
    }
}

void check_convex_web(ReadCase& parts, const job::Job& job) {
    const double most = job.blank.line.radius() - 2 * job.sheet.thickness;
    if (job.blank.web_width > most) {
        object_to_size(
            parts,
            "web_width",
            "less than " + shown_length(most, *parts.blank_table)
                + " (the web reaches inward to the centre of a convex bend line)",
            "narrow the web, since far metal changes nothing"
        );
    }
}

void check_passes(ReadCase& parts, const job::Job& job) {
    const std::vector<double>& passes = job.drive.passes;
    if (!passes.empty() && std::abs(passes.back() - job.drive.angle) > angle_slack) {
        parts.drive_table->object_found(
            "passes",
            fmt::format("a last pass to {:g} deg", units::degrees(passes.back())),
            fmt::format(
                "a last pass to {:g} deg, the angle the flange is driven to",
                units::degrees(job.drive.angle)
            ),
            parts.drive.angle ? "let the passes end with angle, or leave angle out"
                              : "let the passes end there, or write the same angle beside them"
        );
    }
}

// A short front shears the flange between stations that are done and those that are not.
void check_front(ReadCase& parts, const job::Job& job) {
    const double least = 0.5 * job.blank.flange_width;
    if (job.drive.order != job::DriveOrder::evenly && job.drive.front < least) {
        parts.drive_table->object(
            "front",
            "at least " + shown_length(least, *parts.drive_table)
                + " (half the flange's flat width; a shorter front shears the flange)",
            "write twice the flange width, or leave it out"
        );
    }
}

bool is_chain(const ReadCase& parts) {
    return parts.bend_line.curve == outline::Curve::mixed;
}

void check_line_length(ReadCase& parts, const job::Job& job) {
    constexpr double longest = 3000;
    const double least = 4 * job.sheet.thickness;
    const double length = job.blank.line.length();
    if (length >= least && length <= longest) {
        return;
    }
    const bool is_straight = parts.bend_line.curve == outline::Curve::straight;
    parts.bend_line_table->object_found(
        is_chain(parts) ? parts.bend_line.pieces_key : (is_straight ? "length" : "sweep"),
        "a bend line " + shown_length(length, *parts.bend_line_table) + " long",
        shown_length(least, *parts.bend_line_table) + " to "
            + shown_length(longest, *parts.bend_line_table)
            + " (four thicknesses, up to one flange)",
        "change the length of the piece that is computed"
    );
}

} // namespace

std::string shown_length(double length, key_file::TableReader& table) {
    const units::LengthUnit unit = table.reading().unit;
    return unit == units::LengthUnit::inch ? units::side_by_side(length, unit)
                                           : units::in_mm(length);
}

void object_to_size(
    ReadCase& parts,
    const std::string& key,
    const std::string& allowed,
    const std::string& remedy,
    const std::optional<std::string>& found
) {
    if (!parts.bend_line.drawn.has_outline) {
        if (found) {
            parts.blank_table->object_found(key, *found, allowed, remedy);
        } else {
            parts.blank_table->object(key, allowed, remedy);
        }
        return;
    }
    const std::optional<double>& size =
        key == "web_width" ? parts.blank.web_width : parts.blank.flat_width;
    parts.bend_line_table->object_found(
        "outline_layer",
        "drawn there, "
            + found.value_or(key + " = " + shown_length(size.value_or(0), *parts.blank_table)),
        allowed,
        remedy
    );
}

void check_nose(
    const std::optional<double>& radius,
    const std::optional<double>& thickness,
    key_file::TableReader* table
) {
    if (!radius || !thickness) {
        return;
    }
    const double least = 0.25 * *thickness;
    if (*radius < least) {
        table->object(
            "nose_radius",
            "at least " + shown_length(least, *table)
                + " (a quarter of the thickness; a sharper nose cuts the sheet, and shell theory "
                  "ends)",
            "round the block's edge further; 1.5 to 2 times the thickness is comfortable for soft "
            "sheet"
        );
    }
}

double least_concave_radius(const job::Job& job) {
    const double offset =
        -outline_offset(outline::Curve::concave, job.block.nose_radius, job.block.wall_angle);
    return offset + job.drive.clearance * job.sheet.thickness
        + std::max(job.drive.corner_radius, 1.0);
}

double outline_offset(outline::Curve curve, double nose_radius, double wall_angle) {
    const double reach = nose_radius * std::sin(std::min(wall_angle, square));
    return curve == outline::Curve::concave ? -reach : reach;
}

void check_together(ReadCase& parts) {
    check_nose(parts.block.nose_radius, parts.sheet.thickness, parts.block_table);
    check_web(parts);
    check_drive(parts);
    check_heat(parts);
    check_trim(parts);
    check_lip_written(parts);
    check_along_written(parts);
}

void check_job(ReadCase& parts, const job::Job& job) {
    check_line_length(parts, job);
    if (job.return_bend && !lip_fits(parts, job)) {
        return;
    }
    if (!along_fits(parts, job)) {
        return;
    }
    check_flange_stands(parts, job);
    check_cut_past_bend(parts, job);
    check_passes(parts, job);
    check_front(parts, job);
    check_openings(parts, job);
    if (is_chain(parts)) {
        return; // check_chain() names the piece
    }
    if (job.blank.line.curve() == outline::Curve::concave) {
        check_concave_flange(parts, job);
        check_room_for_drive(parts, job);
    } else if (job.blank.line.curve() == outline::Curve::convex) {
        check_convex_web(parts, job);
    }
}

} // namespace flangewright::case_file
