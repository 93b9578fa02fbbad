#include "io/sheet_page/steps_part.hpp"

#include "io/sheet_page/html.hpp"
#include "io/tables/heat_table.hpp"
#include "io/tables/shown_length.hpp"
#include "io/tables/step_words.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace flangewright::sheet_page {

namespace {

using tables::shown_length;
using tables::shown_number;
using units::degrees;

/// The change of the mean angle since the row before, with its sign.
std::string change_words(double change) {
    const std::string size = shown_number(std::abs(degrees(change)), 2);
    const bool is_nothing = size.find_first_of("123456789") == std::string::npos;
    return is_nothing ? "0" : (change < 0 ? "-" : "+") + size + " deg";
}

bool has(const job::Job& job, job::StepKind kind) {
    return std::ranges::find(job.steps, kind) != job.steps.end();
}

} // namespace

std::string
steps_part(const tables::RunFacts& facts, const job::Job& job, const process::JobResult& result) {
    std::string rows;
    int n_rows = 0;
    for (const process::StepResult& step : result.steps) {
        if (step.kind == job::StepKind::bend_down) {
            continue;
        }
        const findings::PartFindings& now = step.findings;
        const bool has_no_change = n_rows == 0 || step.kind == job::StepKind::return_bend;
        const double angle = now.flange_angle_middle.mean;
        rows +=
            row(tables::words_after(step.kind),
                {shown_number(degrees(angle), 1) + " deg",
                 has_no_change ? "" : change_words(angle - step.angle_before.value_or(angle)),
                 job::ends_on_block(step.kind) ? "held flat"
                                               : shown_length(now.web_lift, facts.unit),
                 shown_number(100 * std::expm1(std::max(0.0, now.edge_tension_used)), 1) + " %"});
        ++n_rows;
    }
    if (n_rows < 2) {
        return {};
    }
    std::string content = "<table class=\"numbers\"><thead><tr><th>The part</th><th>flange angle, "
                          "mean</th><th>change</th><th>web lift</th><th>edge stretch since "
                          "soft</th></tr></thead><tbody>\n"
        + rows + "</tbody></table>\n";
    if (has(job, job::StepKind::trim)) {
        content += "<p class=\"note\">A trimmed flange is measured nearer to the bend, where it "
                   "may stand at another angle; the change is what trimming itself does to the "
                   "part that stays.</p>\n";
    }
    if (has(job, job::StepKind::heat_treat)) {
        content += "<p class=\"note\">The change by heat treatment is that of a part which loses "
                   "its locked-in stress. Distortion in the quench is not predicted: expect more, "
                   "and check angle and lift before the working window closes.</p>\n";
    }
    return section("steps", "After the release", content);
}

std::string heat_part(const job::Job& job) {
    const bool is_annealed = has(job, job::StepKind::anneal);
    const bool is_treated = has(job, job::StepKind::heat_treat);
    std::string rows;
    for (const tables::HeatRow& entry : tables::heat_rows()) {
        const bool is_asked = entry.is_of_anneal ? is_annealed : is_treated;
        if (is_asked && tables::is_for(entry, job.sheet.material.name, job.sheet.thickness)) {
            rows +=
                row(safe(entry.what),
                    {safe(entry.value),
                     safe(
                         entry.source.empty() ? std::string(entry.standing)
                                              : fmt::format("{}: {}", entry.standing, entry.source)
                     )});
        }
    }
    if (rows.empty()) {
        return {};
    }
    return section(
        "heat",
        "Heat: figures to check against the specification",
        "<table class=\"case\"><tbody>\n" + rows
            + "</tbody></table>\n<p class=\"note\">A reminder, not a specification. The current "
              "specification for the alloy and the heat treater's procedure come first; what "
              "stands here from memory may be wrong.</p>\n"
    );
}

} // namespace flangewright::sheet_page
