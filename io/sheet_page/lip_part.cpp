#include "io/sheet_page/lip_part.hpp"

#include "io/sheet_page/html.hpp"
#include "io/sheet_page/three_columns.hpp"
#include "io/tables/along_line.hpp"
#include "io/tables/shown_length.hpp"
#include "solver/findings/lip_advice.hpp"

namespace flangewright::sheet_page {

namespace {

using findings::PartFindings;
using tables::shown_length;
using tables::shown_number;
using tables::stretch_percent;

std::string percent_of(double log_strain) {
    return shown_number(stretch_percent(log_strain), 1) + " %";
}

/// The part with its lip: held on the block, and as the first release after that left it.
Columns columns_of(const process::JobResult& result) {
    Columns columns;
    for (const process::StepResult& step : result.steps) {
        if (step.kind == job::StepKind::return_bend) {
            columns.held = &step.findings;
        } else if (step.findings.lip && step.kind == job::StepKind::release && columns.released == nullptr) {
            columns.released = &step.findings;
        }
    }
    return columns;
}

std::string rows(const Columns& columns, const findings::LipByHand& hand, units::LengthUnit unit) {
    return figure_row(
               "Lip angle, from the flange, mean",
               columns,
               [](const PartFindings& found) { return shown_deg(found.lip->angle_middle.mean); },
               no_figure
           )
        + figure_row(
               "Springback of the lip, mean",
               columns,
               [](const PartFindings& found) {
                   const auto& springback = found.lip->springback_middle;
                   return springback ? shown_deg(*springback) : no_figure;
               },
               shown_deg(hand.springback)
        )
        + figure_row(
               "Flange angle, mean",
               columns,
               [](const PartFindings& found) { return shown_deg(found.flange_angle_middle.mean); },
               no_figure
        )
        + figure_row(
               "Edge stretch of the lip, from flat, largest",
               columns,
               [](const PartFindings& found) { return percent_of(found.edge_strain_most); },
               percent_of(hand.edge_strain)
        )
        + figure_row(
               "&nbsp;&nbsp;since the sheet was last soft",
               columns,
               [](const PartFindings& found) { return percent_of(found.edge_tension_used); },
               no_figure
        )
        + figure_row(
               "Stretch of the lip bend's outer fibre, largest",
               columns,
               [](const PartFindings& found) { return percent_of(found.lip->bend_strain_most); },
               percent_of(hand.bend_strain)
        )
        + figure_row(
               "Lip depth to the free edge, trim included",
               columns,
               [unit](const PartFindings& found) {
                   return shown_length(found.lip->depth_mean, unit);
               },
               no_figure
        )
        + figure_row(
               "Flange depth to the lip's outside",
               columns,
               [unit](const PartFindings& found) {
                   return shown_length(found.flange_depth_mean, unit);
               },
               no_figure
        );
}

} // namespace

std::string
lip_part(const tables::RunFacts& facts, const job::Job& job, const process::JobResult& result) {
    const Columns columns = columns_of(result);
    if (columns.held == nullptr || !columns.held->lip || !result.by_hand.lip) {
        return {};
    }
    const std::optional<std::string> advice =
        findings::lip_advice(job, process::findings_of_steps(result), result.verdict);
    return section(
        "lip",
        "The return lip",
        "<p>" + safe(advice.value_or(""))
            + "</p>\n<table class=\"numbers\"><thead><tr><th></th><th>on the "
              "block</th><th>released</th>"
              "<th>by hand</th></tr></thead><tbody>\n"
            + rows(columns, *result.by_hand.lip, facts.unit)
            + "</tbody></table>\n<p class=\"note\">The second block stands where the drawing puts "
              "the lip, and the flange lies flat on it while the lip is bent. By hand: the lip's "
              "edge by the ratio of its radii, bent over flat.</p>\n"
    );
}

} // namespace flangewright::sheet_page
