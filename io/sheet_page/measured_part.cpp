#include "io/sheet_page/measured_part.hpp"

#include "io/sheet_page/html.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

namespace flangewright::sheet_page {

namespace {

using tables::brief_length;
using tables::shown_length;
using tables::shown_number;
using units::degrees;

constexpr std::string_view begin_mark = "<!-- measured: from here -->\n";
constexpr std::string_view end_mark = "<!-- measured: to here -->\n";

std::string deg(double angle) {
    return shown_number(degrees(angle), 1) + " deg";
}

void add_step(
    std::vector<MeasuredRow>& rows,
    const std::string& name,
    const process::StepResult& step,
    const tables::RunFacts& facts
) {
    const findings::PartFindings& found = step.findings;
    const auto add = [&](const std::string& what, const std::string& predicted) {
        rows.push_back({name, what, predicted});
    };
    add("flange angle, mean away from cut ends", deg(found.flange_angle_middle.mean));
    if (found.lip) {
        add("lip angle from the flange, mean", deg(found.lip->angle_middle.mean));
    }
    if (!job::ends_on_block(step.kind)) {
        add("web lift on the block, largest", shown_length(found.web_lift, facts.unit));
    }
    if (step.kind == job::StepKind::bend_down || step.kind == job::StepKind::return_bend) {
        add("edge marks: stretch at station " + brief_length(found.edge_strain_station, facts.unit),
            shown_number(tables::stretch_percent(found.edge_strain_most), 1) + " %");
        double thinnest = 0;
        for (const findings::StationFindings& at : found.stations) {
            const bool is_first = thinnest == 0;
            thinnest = is_first ? at.least_thickness : std::min(thinnest, at.least_thickness);
        }
        add("thickness, least", shown_length(thinnest, facts.unit));
    }
}

} // namespace

std::vector<MeasuredRow>
rows_to_fill(const tables::RunFacts& facts, const process::JobResult& result) {
    std::vector<MeasuredRow> rows;
    for (std::size_t i = 0; i < result.steps.size(); ++i) {
        const process::StepResult& step = result.steps[i];
        add_step(rows, fmt::format("{} {}", i + 1, process::name_of(step.kind)), step, facts);
    }
    return rows;
}

std::string
measured_part(const std::vector<MeasuredRow>& rows, const std::vector<std::string>& notes) {
    std::string content = "<table class=\"measured\"><thead><tr><th>step</th><th>figure</th>"
                          "<th>predicted</th><th>measured</th><th>predicted less measured</th>"
                          "</tr></thead><tbody>\n";
    std::string before;
    for (const MeasuredRow& each : rows) {
        content +=
            row(safe(each.step == before ? std::string() : each.step),
                {safe(each.what), safe(each.predicted), safe(each.measured), safe(each.difference)}
            );
        before = each.step;
    }
    content += "</tbody></table>\n";
    for (const std::string& note : notes) {
        content += "<p class=\"note\">" + safe(note) + "</p>\n";
    }
    return std::string(begin_mark) + section("measured", "Predicted and measured", content)
        + std::string(end_mark);
}

std::string with_measured(const std::string& page, const std::string& part) {
    const std::size_t begin = page.find(begin_mark);
    const std::size_t end = begin == std::string::npos ? begin : page.find(end_mark, begin);
    if (end == std::string::npos) {
        return {};
    }
    return page.substr(0, begin) + part + page.substr(end + end_mark.size());
}

} // namespace flangewright::sheet_page
