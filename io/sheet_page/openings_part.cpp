#include "io/sheet_page/openings_part.hpp"

#include "io/sheet_page/html.hpp"
#include "io/tables/shown_length.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace flangewright::sheet_page {

namespace {

using findings::OpeningFindings;
using tables::shown_length;
using tables::shown_number;

/// The largest stretch of a rim in any step.
double stretch_most(const process::JobResult& result, const OpeningFindings& opening) {
    double most = opening.tension_most;
    for (const process::StepResult& step : result.steps) {
        for (const OpeningFindings& each : step.findings.openings) {
            if (each.kind == opening.kind && each.number == opening.number) {
                most = std::max(most, each.tension_most);
            }
        }
    }
    return std::max(0.0, std::expm1(most));
}

std::string diameters(const OpeningFindings& opening, units::LengthUnit unit) {
    return opening.least_diameter && opening.most_diameter
        ? shown_length(*opening.least_diameter, unit) + " to "
            + shown_length(*opening.most_diameter, unit)
        : "";
}

} // namespace

std::string openings_part(const tables::RunFacts& facts, const process::JobResult& result) {
    if (result.steps.empty() || result.steps.back().findings.openings.empty()) {
        return {};
    }
    std::string rows;
    for (const OpeningFindings& opening : result.steps.back().findings.openings) {
        rows +=
            row(fmt::format("{} {}", word_for(opening.kind), opening.number),
                {shown_number(100 * stretch_most(result, opening), 1) + " %",
                 shown_length(opening.station, facts.unit),
                 shown_length(opening.distance, facts.unit),
                 diameters(opening, facts.unit)});
    }
    return section(
        "openings",
        "Holes, notches and tabs",
        "<table class=\"numbers\"><thead><tr><th></th><th>largest stretch of the rim</th>"
        "<th>at station</th><th>past the bend tangent, flat</th><th>diameter at the "
        "end</th></tr></thead><tbody>\n"
            + rows
            + "</tbody></table>\n<p class=\"note\">A rim is a cut edge: the verdict weighs the one "
              "that stretches most as it weighs the free edge. A sharp corner, such as at a tab's "
              "root, has no one stretch: round it.</p>\n"
    );
}

} // namespace flangewright::sheet_page
