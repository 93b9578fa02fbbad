#include "io/sheet_page/numbers_part.hpp"

#include "io/sheet_page/html.hpp"
#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <cmath>
#include <functional>
#include <optional>

namespace flangewright::sheet_page {

namespace {

using tables::shown_layout_length;
using tables::shown_length;
using tables::shown_number;
using tables::stretch_percent;
using units::degrees;

/// What a cell says when a figure does not exist there.
const std::string no_figure = "&ndash;";

std::string deg(double angle) {
    return shown_number(degrees(angle), 1) + " deg";
}

std::string percent(double value) {
    return shown_number(value, 1) + " %";
}

std::string spread_deg(const findings::Spread& spread) {
    const std::string least = shown_number(degrees(spread.least), 1);
    const std::string most = shown_number(degrees(spread.most), 1);
    return least == most ? least + " deg" : fmt::format("{} to {} deg", least, most);
}

/// Held and released findings, whichever the run reached.
struct Columns {
    const findings::PartFindings* held = nullptr;
    const findings::PartFindings* released = nullptr;
};

Columns columns_of(const process::JobResult& result) {
    Columns columns;
    for (const process::StepResult& step : result.steps) {
        (step.kind == job::StepKind::release ? columns.released : columns.held) = &step.findings;
    }
    return columns;
}

using Say = std::function<std::string(const findings::PartFindings&)>;

/// One figure in both columns and by hand.
std::string figure_row(
    const std::string& name, const Columns& columns, const Say& say, const std::string& hand
) {
    return row(
        name,
        {columns.held == nullptr ? no_figure : say(*columns.held),
         columns.released == nullptr ? no_figure : say(*columns.released),
         hand}
    );
}

std::string angle_rows(const Columns& columns, const findings::HandCalculation& hand) {
    return figure_row(
               "Flange angle, mean away from the ends",
               columns,
               [](const auto& found) { return deg(found.flange_angle_middle.mean); },
               no_figure
           )
        + figure_row(
               "Flange angle, smallest to largest",
               columns,
               [](const auto& found) { return spread_deg(found.flange_angle); },
               no_figure
        )
        + figure_row(
               "Springback, mean away from the ends",
               columns,
               [](const auto& found) {
                   return found.springback_middle ? deg(found.springback_middle->mean) : no_figure;
               },
               deg(hand.springback)
        )
        + figure_row(
               "Springback, smallest to largest",
               columns,
               [](const auto& found) {
                   return found.springback ? spread_deg(*found.springback) : no_figure;
               },
               no_figure
        );
}

std::string strain_rows(const Columns& columns, const findings::HandCalculation& hand) {
    const double thinning_by_hand = 100 * (1 - hand.edge_thickness_ratio);
    return figure_row(
               "Edge stretch, largest",
               columns,
               [](const auto& found) { return percent(stretch_percent(found.edge_strain_most)); },
               percent(100 * hand.edge_stretch)
           )
        + figure_row(
               "&nbsp;&nbsp;as true (log) strain",
               columns,
               [](const auto& found) { return shown_number(found.edge_strain_most, 4); },
               shown_number(hand.edge_strain, 4)
        )
        + figure_row(
               "Stretch of the bend's outer fibre, largest",
               columns,
               [](const auto& found) { return percent(stretch_percent(found.bend_strain_most)); },
               percent(stretch_percent(hand.bend_strain))
        )
        + figure_row(
               "Thinning, largest",
               columns,
               [](const auto& found) { return percent(100 * found.thinning_most); },
               percent(thinning_by_hand) + " (edge)"
        );
}

std::string shape_rows(const Columns& columns, units::LengthUnit unit) {
    return figure_row(
               "Web lift, part set on the block",
               columns,
               [unit](const auto& found) { return shown_length(found.web_lift, unit); },
               no_figure
           )
        + figure_row(
               "Plan radius at the bend tangent",
               columns,
               [unit](const auto& found) {
                   return std::isinf(found.plan_radius) ? std::string("straight")
                                                        : shown_length(found.plan_radius, unit);
               },
               no_figure
        )
        + figure_row(
               "Flange depth to the free edge, trim included",
               columns,
               [unit](const auto& found) { return shown_length(found.flange_depth_mean, unit); },
               no_figure
        );
}

std::string with_capital(std::string text) {
    if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') {
        text.front() = static_cast<char>(text.front() - 'a' + 'A');
    }
    return text;
}

std::string limit_row(const findings::LimitUse& limit) {
    const auto of_hundred = [](const std::optional<double>& value, int n_decimals) {
        return value ? shown_number(100 * *value, n_decimals) + " %" : std::string("not known");
    };
    return row(
        safe(with_capital(limit.place)),
        {percent(100 * limit.reached),
         limit.is_needed ? of_hundred(limit.allowed, 1) : "not needed",
         limit.is_needed ? of_hundred(limit.share, 0) : no_figure,
         safe(material::word_for(limit.grade)),
         safe(limit.source)}
    );
}

/// What a data grade means to the one who must trust it.
std::string grade_words(material::DataGrade grade) {
    switch (grade) {
    case material::DataGrade::coupon:
        return "measured on a coupon of this sheet";
    case material::DataGrade::published:
        return "from a public source, which is not your sheet";
    case material::DataGrade::typical:
        return "typical values are not minimums";
    case material::DataGrade::assumed:
        return "without a source";
    case material::DataGrade::unknown:
        break;
    }
    return "not known";
}

/// A sentence begins large and ends with a point.
std::string as_sentence(const std::string& text) {
    const std::string sentence = with_capital(text);
    return sentence.empty() || sentence.back() == '.' ? sentence : sentence + ".";
}

} // namespace

std::string verdict_part(const process::JobResult& result) {
    const findings::Verdict& verdict = result.verdict;
    std::string word = findings::word_for(verdict.word);
    if (verdict.share_used) {
        word +=
            fmt::format(": {} % of the limit is used", shown_number(100 * *verdict.share_used, 0));
    }
    return fmt::format(
        "<section class=\"verdict\">\n<h2>Will it split?</h2>\n<p "
        "class=\"word\">{}</p>\n<p>{}</p>\n"
        "<p class=\"grade\">Data behind it: <strong>{}</strong>: {}.</p>\n</section>\n",
        safe(with_capital(word)),
        safe(as_sentence(verdict.because)),
        safe(material::word_for(verdict.grade)),
        grade_words(verdict.grade)
    );
}

std::string limits_part(const findings::Verdict& verdict) {
    if (verdict.limits.empty()) {
        return {};
    }
    std::string content = "<table class=\"limits\"><thead><tr><th>Place</th><th>reached</th>"
                          "<th>allowed</th><th>share used</th><th>data</th><th>source</th></tr>"
                          "</thead><tbody>\n";
    for (const findings::LimitUse& limit : verdict.limits) {
        content += limit_row(limit);
    }
    return section("limits", "What the verdict weighs", content + "</tbody></table>\n");
}

std::string numbers_part(const tables::RunFacts& facts, const process::JobResult& result) {
    const Columns columns = columns_of(result);
    std::string content = "<table class=\"numbers\"><thead><tr><th>Figure</th><th>on the block</th>"
                          "<th>released</th><th>by hand</th></tr></thead><tbody>\n";
    content += angle_rows(columns, result.by_hand) + strain_rows(columns, result.by_hand)
        + shape_rows(columns, facts.unit) + "</tbody></table>\n";
    content += "<p class=\"note\">Angles are turned through from the web; 90 deg is square. Read "
               "angles to half a degree, stretch to one per cent: the estimate is no finer.</p>\n";
    if (!result.disagreements.empty()) {
        content +=
            "<p><strong>Computed and by hand differ by more than a third:</strong></p>\n<ul>\n";
        for (const findings::Disagreement& entry : result.disagreements) {
            content += "<li>" + safe(as_sentence(entry.sentence)) + "</li>\n";
        }
        content += "</ul>\n";
    }
    return section("figures", "The figures", content);
}

std::string layout_part(const tables::RunFacts& facts, const findings::HandCalculation& hand) {
    const std::string content = "<table class=\"case\"><tbody>\n"
        + row("Bend allowance, flat length round the nose",
              {shown_length(hand.bend_allowance, facts.unit)})
        + row("Setback, bend tangent to mould point",
              {shown_length(hand.mould_setback, facts.unit)})
        + row("Flat width, bend tangent to free edge",
              {shown_layout_length(hand.flat_width, facts.unit)})
        + row("Block turned through, for the wanted angle after springback by hand",
              {deg(hand.block_angle_for_wanted)})
        + "</tbody></table>\n";
    return section("layout", "For layout, by hand", content);
}

} // namespace flangewright::sheet_page
