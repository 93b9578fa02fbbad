#include "io/command_line/wanted_depth.hpp"

#include "io/key_file/excerpt.hpp"
#include "io/tables/shown_length.hpp"
#include "mesh/outline/clearance.hpp"
#include "solver/findings/flange_development.hpp"
#include "solver/process/outline_guess.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::command_line {

namespace {

using key_file::InputProblem;

InputProblem wrong_depth(const std::string& found, std::string allowed, std::string remedy) {
    return {
        "command line",
        0,
        0,
        "--depth",
        key_file::quoted_excerpt(found),
        std::move(allowed),
        std::move(remedy)};
}

/// Whether a blank of that net width can be cut and bent.
bool has_room(const job::Job& job, double net_width) {
    const double t = job.sheet.thickness;
    const double cut = net_width + job.blank.trim_allowance;
    return std::isfinite(cut) && cut <= job.blank.line.concave_radius() - 2 * t
        && !outline::find_overlap(job.blank.line, job.blank.web_width, cut);
}

} // namespace

std::optional<InputProblem> take_depth(const std::string& depth, case_file::CaseFile& file) {
    if (depth.empty()) {
        return std::nullopt;
    }
    job::Job& job = file.job;
    if (job.return_bend) {
        return wrong_depth(
            depth,
            "a part without a return lip",
            "write flange_depth into the case: the lip is developed with it"
        );
    }
    const units::Written read = units::read_length(depth, file.unit);
    if (!read) {
        return wrong_depth(depth, read.error().allowed, read.error().remedy);
    }
    constexpr double highest = 300; // mm, as in a case
    const double least = std::max(1.0, findings::mould_setback(job) + 2 * job.sheet.thickness);
    if (!(*read >= least && *read <= highest)) {
        return wrong_depth(
            depth,
            tables::shown_length(least, file.unit) + " to "
                + tables::shown_length(highest, file.unit)
                + " (the bend and two thicknesses of straight flange at least)",
            "check the depth against the drawing, and its unit"
        );
    }
    job.blank.flange_depth = *read;
    const outline::Profile net = process::guessed_net_widths(job, outline::Profile({{0, *read}}));
    if (!has_room(job, net.most())) {
        return wrong_depth(
            depth,
            "a depth whose flat flange has room inside the curve of the bend line",
            "take a shallower flange, less trim allowance or a larger bend line radius"
        );
    }
    file.states_depth = true;
    file.flange_depths = {};
    return std::nullopt;
}

std::optional<outline::Profile> wanted_depth(const case_file::CaseFile& file) {
    if (!file.states_depth) {
        return std::nullopt;
    }
    return file.flange_depths.is_empty() ? outline::Profile({{0, file.job.blank.flange_depth}})
                                         : file.flange_depths;
}

} // namespace flangewright::command_line
