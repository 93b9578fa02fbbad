#include "io/case_file/chain_check.hpp"

#include "io/units/angle.hpp"
#include "mesh/outline/clearance.hpp"
#include "solver/findings/flange_development.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace flangewright::case_file {

namespace {

/// A problem of one piece, on its own key or on the one all pieces come from.
void object_to(
    ReadCase& parts, ChainPiece& piece, const std::string& allowed, const std::string& remedy
) {
    if (piece.table) {
        piece.table->object(piece.key, allowed, remedy);
        return;
    }
    key_file::TableReader& table = *parts.bend_line_table;
    table.object_found(
        parts.bend_line.pieces_key,
        fmt::format(
            "a {} radius of {} in {}",
            piece.piece.curvature > 0 ? "concave" : "convex",
            shown_length(1 / std::abs(piece.piece.curvature), table),
            piece.name
        ),
        allowed,
        remedy
    );
}

/// All that is wrong between pieces is a problem of the key they come from.
void object_to_all(
    ReadCase& parts, const std::string& found, const std::string& allowed, const std::string& remedy
) {
    parts.bend_line_table->object_found(parts.bend_line.pieces_key, found, allowed, remedy);
}

bool is_concave_too_tight(ReadCase& parts, const job::Job& job, ChainPiece& piece) {
    const double radius = 1 / std::abs(piece.piece.curvature);
    const double most_width = radius - 2 * job.sheet.thickness;
    if (job.blank.width_with_tabs() <= most_width) { // false for an infinite width as well
        return false;
    }
    const bool is_depth = !parts.blank.flat_width;
    const double most = is_depth
        ? findings::formed_flange_depth(job, most_width - job.blank.trim_allowance)
        : most_width;
    object_to(
        parts,
        piece,
        fmt::format(
            "a radius with room for the flange (the flat flange reaches inward, and the cut edge's "
            "radius must stay above two thicknesses: here {} must be less than {})",
            is_depth ? "flange_depth" : "flat_width",
            shown_length(most, *parts.bend_line_table)
        ),
        "take a larger radius there, or a narrower flange"
    );
    return true;
}

bool has_no_room_for_drive(ReadCase& parts, const job::Job& job, ChainPiece& piece) {
    const double needed = least_concave_radius(job);
    if (1 / std::abs(piece.piece.curvature) > needed) {
        return false;
    }
    object_to(
        parts,
        piece,
        "a radius above " + shown_length(needed, *parts.bend_line_table)
            + " (nose radius, gap and the drive's corner must fit inside the curve)",
        "take a larger radius there, or a smaller nose or corner radius"
    );
    return true;
}

bool is_convex_too_tight(ReadCase& parts, const job::Job& job, ChainPiece& piece) {
    const double needed = job.blank.web_width + 2 * job.sheet.thickness;
    if (1 / std::abs(piece.piece.curvature) >= needed) {
        return false;
    }
    object_to(
        parts,
        piece,
        "a radius of at least " + shown_length(needed, *parts.bend_line_table)
            + " (web width and two thicknesses: the web reaches inward to the centre)",
        "narrow the web, since far metal changes nothing, or take a larger radius"
    );
    return true;
}

/// The tightest piece of each kind stands for all: the flat width is developed for it.
bool is_piece_too_tight(ReadCase& parts, const job::Job& job) {
    const double concave = job.blank.line.concave_radius();
    const double convex = job.blank.line.convex_radius();
    for (ChainPiece& piece : parts.bend_line.pieces) {
        const double curvature = piece.piece.curvature;
        if (curvature > 0 && 1 / curvature <= concave
            && (is_concave_too_tight(parts, job, piece) || has_no_room_for_drive(parts, job, piece)
            )) {
            return true;
        }
        if (curvature < 0 && -1 / curvature <= convex && is_convex_too_tight(parts, job, piece)) {
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
    object_to_all(
        parts,
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
    object_to_all(
        parts,
        fmt::format(
            "a bend line that crosses itself ({} and {})",
            parts.bend_line.pieces[found->piece].name,
            parts.bend_line.pieces[found->other].name
        ),
        "a line that keeps clear of itself",
        "check radii and sweeps, and which pieces are concave and which convex"
    );
    return true;
}

void check_overlap(ReadCase& parts, const job::Job& job) {
    const std::optional<outline::Meeting> found =
        outline::find_overlap(job.blank.line, job.blank.web_width, job.blank.width_with_tabs());
    if (!found) {
        return;
    }
    const bool is_flange = found->distance > 0;
    object_to_all(
        parts,
        fmt::format(
            "a blank that lies over itself: the {} along {} runs into {}, {} from its bend line",
            is_flange ? "flange" : "web",
            parts.bend_line.pieces[found->piece].name,
            parts.bend_line.pieces[found->other].name,
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
