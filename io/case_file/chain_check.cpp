#include "io/case_file/chain_check.hpp"

#include "io/units/angle.hpp"
#include "mesh/outline/clearance.hpp"
#include "solver/findings/flange_development.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace flangewright::case_file {

namespace {

bool is_concave_too_tight(ReadCase& parts, const job::Job& job, ChainPiece& piece) {
    const double radius = 1 / std::abs(piece.piece.curvature);
    const double most_width = radius - 2 * job.sheet.thickness;
    if (job.blank.flange_width <= most_width) { // false for an infinite width as well
        return false;
    }
    const bool is_depth = !parts.blank.flat_width;
    const double most = is_depth
        ? findings::formed_flange_depth(job, most_width - job.blank.trim_allowance)
        : most_width;
    piece.table.object(
        piece.key,
        fmt::format(
            "a radius with room for the flange (the flat flange reaches inward, and the cut edge's "
            "radius must stay above two thicknesses: here {} must be less than {})",
            is_depth ? "flange_depth" : "flat_width",
            shown_length(most, piece.table)
        ),
        "take a larger radius for this piece, or a narrower flange"
    );
    return true;
}

bool has_no_room_for_drive(const job::Job& job, ChainPiece& piece) {
    const double needed = least_concave_radius(job);
    if (1 / std::abs(piece.piece.curvature) > needed) {
        return false;
    }
    piece.table.object(
        piece.key,
        "a radius above " + shown_length(needed, piece.table)
            + " (nose radius, gap and the drive's corner must fit inside the curve)",
        "take a larger radius for this piece, or a smaller nose or corner radius"
    );
    return true;
}

bool is_convex_too_tight(const job::Job& job, ChainPiece& piece) {
    const double needed = job.blank.web_width + 2 * job.sheet.thickness;
    if (1 / std::abs(piece.piece.curvature) >= needed) {
        return false;
    }
    piece.table.object(
        piece.key,
        "a radius of at least " + shown_length(needed, piece.table)
            + " (web width and two thicknesses: the web reaches inward to the centre)",
        "narrow the web, since far metal changes nothing, or take a larger radius"
    );
    return true;
}

bool is_piece_too_tight(ReadCase& parts, const job::Job& job) {
    const double tightest = job.blank.line.concave_radius();
    for (ChainPiece& piece : parts.bend_line.pieces) {
        const double curvature = piece.piece.curvature;
        // The flat width is developed for the tightest concave piece; that one is to be named.
        const bool is_tightest = curvature > 0 && 1 / curvature <= tightest;
        if ((is_tightest && is_concave_too_tight(parts, job, piece))
            || (curvature > 0 && has_no_room_for_drive(job, piece))
            || (curvature < 0 && is_convex_too_tight(job, piece))) {
            return true;
        }
    }
    return false;
}

bool turns_too_far(ReadCase& parts, const job::Job& job) {
    const double turn = job.blank.line.largest_turn();
    if (turn < 2 * std::numbers::pi * (1 - 1e-9)) {
        return false;
    }
    parts.bend_line_table->object_found(
        "pieces",
        fmt::format("a bend line that turns through {:g} deg", units::degrees(turn)),
        "less than 360 deg between any two places",
        "leave pieces out: a part of the line is run as a slice with end = \"continues\""
    );
    return true;
}

bool crosses_itself(ReadCase& parts, const job::Job& job) {
    const std::optional<outline::Meeting> found = outline::find_self_crossing(job.blank.line);
    if (!found) {
        return false;
    }
    parts.bend_line_table->object_found(
        "pieces",
        fmt::format(
            "a bend line that crosses itself (pieces {} and {})", found->piece + 1, found->other + 1
        ),
        "a line that keeps clear of itself",
        "check radii and sweeps, and which pieces are concave and which convex"
    );
    return true;
}

void check_overlap(ReadCase& parts, const job::Job& job) {
    const std::optional<outline::Meeting> found =
        outline::find_overlap(job.blank.line, job.blank.web_width, job.blank.flange_width);
    if (!found) {
        return;
    }
    const bool is_flange = found->distance > 0;
    parts.bend_line_table->object_found(
        "pieces",
        fmt::format(
            "a blank that lies over itself: the {} along piece {} runs into piece {}, {} from its "
            "bend line",
            is_flange ? "flange" : "web",
            found->piece + 1,
            found->other + 1,
            shown_length(std::abs(found->distance), *parts.bend_line_table)
        ),
        "pieces whose web and flange keep clear of each other",
        is_flange ? "narrow the flange, or move the pieces apart"
                  : "narrow the web, since far metal changes nothing, or move the pieces apart"
    );
}

} // namespace

void check_chain(ReadCase& parts, const job::Job& job) {
    if (!is_piece_too_tight(parts, job) && !turns_too_far(parts, job)
        && !crosses_itself(parts, job)) {
        check_overlap(parts, job);
    }
}

} // namespace flangewright::case_file
