#include "io/case_file/lip_check.hpp"

#include "solver/findings/flange_development.hpp"
#include "solver/findings/lip_development.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::case_file {

namespace {

bool has_step(const ReadCase& parts) {
    return std::ranges::find(parts.run.steps, job::StepKind::return_bend) != parts.run.steps.end();
}

void check_pair(ReadCase& parts) {
    if (has_step(parts) && parts.return_bend_table == nullptr) {
        parts.run_table->object_found(
            "steps",
            "a return bend, and no word of the lip",
            "a section [return_bend]",
            "add [return_bend] with side, lip_depth and nose_radius"
        );
    } else if (!has_step(parts) && parts.return_bend_table != nullptr && parts.run.has_good_steps) {
        parts.return_bend_table->object_found(
            "lip_depth",
            "a lip that no step bends",
            "\"return-bend\" among the steps of [run]",
            "add \"return-bend\" to the steps, or delete [return_bend]"
        );
    }
}

// The second block's height comes from the depth on the drawing.
void check_depth_is_given(ReadCase& parts) {
    if (parts.return_bend_table != nullptr && parts.blank.flat_width && !parts.blank.flange_depth) {
        object_to_size(
            parts,
            "flat_width",
            "flange_depth, outside face of the web to outside of the lip",
            "write flange_depth from the drawing; the flat width of flange and lip follows",
            "a flat width for a flange with a lip"
        );
    }
}

bool flange_is_clamped(ReadCase& parts, const job::Job& job) {
    const double least = 3 * job.sheet.thickness;
    if (findings::straight_between_bends(job) >= least) {
        return true;
    }
    const double bends = findings::mould_setback(job) + findings::lip_setback(job);
    parts.blank_table->object(
        "flange_depth",
        "at least " + shown_length(bends + least, *parts.blank_table)
            + " (both bends and three thicknesses of flange between them, else nothing clamps it)",
        "deepen the flange, or take smaller nose radii"
    );
    return false;
}

// A flat width stated beside the depth must leave a lip.
bool width_holds_lip(ReadCase& parts, const job::Job& job) {
    const job::Blank& blank = job.blank;
    const double least = blank.lip_begin() + findings::lip_bend_allowance(job)
        + 2 * job.sheet.thickness + blank.trim_allowance;
    const double narrowest =
        blank.flange_widths.is_empty() ? blank.flange_width : blank.flange_widths.least();
    if (!parts.blank.flat_width || narrowest >= least) {
        return true;
    }
    object_to_size(
        parts,
        "flat_width",
        "at least " + shown_length(least, *parts.blank_table)
            + " (both bends, two thicknesses of lip, and the trim allowance)",
        "widen the blank, or take a shallower flange",
        "a flat width of " + shown_length(narrowest, *parts.blank_table)
    );
    return false;
}

bool lip_stands(ReadCase& parts, const job::Job& job) {
    const double least = findings::lip_setback(job) + 2 * job.sheet.thickness;
    if (job.return_bend->lip_depth >= least) {
        return true;
    }
    parts.return_bend_table->object(
        "lip_depth",
        "at least " + shown_length(least, *parts.return_bend_table)
            + " (the bend, and two thicknesses of straight lip)",
        "widen the lip, or take a smaller nose radius"
    );
    return false;
}

// Flat, the lip lies furthest in on a concave line; bent, it may lie furthest in on a convex one.
bool leaves_metal(ReadCase& parts, const job::Job& job) {
    const double radius = job.blank.line.radius();
    const double margin = 2 * job.sheet.thickness;
    const bool has_flat_width = job.blank.flange_width < job.blank.line.concave_radius() - margin;
    const bool has_room = std::isinf(radius) || job.return_bend->lip_depth < radius - margin;
    if (has_flat_width && has_room) {
        return true;
    }
    parts.return_bend_table->object_found(
        "lip_depth",
        "a lip that reaches the centre of a bend line of radius "
            + shown_length(radius, *parts.return_bend_table),
        "flange and lip whose flat edge keeps two thicknesses from the centre",
        "take a shallower lip or flange, less trim allowance or a larger radius"
    );
    return false;
}

} // namespace

void check_lip_written(ReadCase& parts) {
    check_pair(parts);
    check_depth_is_given(parts);
    check_nose(parts.return_bend.nose_radius, parts.sheet.thickness, parts.return_bend_table);
}

bool lip_fits(ReadCase& parts, const job::Job& job) {
    return flange_is_clamped(parts, job) && lip_stands(parts, job) && leaves_metal(parts, job)
        && width_holds_lip(parts, job);
}

} // namespace flangewright::case_file
