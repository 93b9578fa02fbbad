#include "io/build_log/blank_table.hpp"

#include "io/tables/shown_length.hpp"
#include "solver/process/job_result.hpp"

#include <fmt/format.h>

namespace flangewright::build_log {

namespace {

constexpr std::string_view head =
    "# What you measured on the part. Leave empty what you did not; delete rows and columns at "
    "will.\n"
    "# A row without station is the whole part: mean angle, least thickness, largest web lift.\n"
    "# Angle: web to flange, 90 is square. Thickness: at the flange's edge. Before and after: two\n"
    "# ink marks on the edge, the station half way between them; across a crack the metal alone.\n"
    "# Cracked: yes where a crack or a visible neck lies between both marks.\n";

/// Five places, the outer ones a little off the ends.
std::string rows_for(const std::string& step, double length, units::LengthUnit unit) {
    std::string rows = step + ",,,,,,,\n";
    for (const double share : {0.1, 0.3, 0.5, 0.7, 0.9}) {
        rows += fmt::format(
            "{},{},,,,,,\n",
            step,
            tables::shown_number(
                tables::in_unit(share * length, unit), unit == units::LengthUnit::inch ? 2 : 0
            )
        );
    }
    return rows;
}

} // namespace

std::string blank_table(const job::Job& job, units::LengthUnit unit) {
    const std::string word = tables::unit_word(unit);
    std::string text(head);
    text += fmt::format(
        "step,station_{0},angle_deg,thickness_{0},before_{0},after_{0},web_lift_{0},cracked\n", word
    );
    for (std::size_t i = 0; i < job.steps.size(); ++i) {
        text += rows_for(
            fmt::format("{} {}", i + 1, process::name_of(job.steps[i])),
            job.blank.line.length(),
            unit
        );
    }
    return text;
}

} // namespace flangewright::build_log
