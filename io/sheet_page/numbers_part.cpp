#include "io/sheet_page/numbers_part.hpp"

#include "io/sheet_page/html.hpp"
#include "io/sheet_page/three_columns.hpp"
#include "io/tables/edge_words.hpp"
#include "io/tables/error_bars.hpp"
#include "io/tables/shown_length.hpp"
#include "io/tables/step_words.hpp"
#include "io/tables/verdict_words.hpp"
#include "io/tables/web_words.hpp"
#include "io/units/angle.hpp"
#include "solver/findings/interior_neck.hpp"
#include "solver/findings/verdict.hpp"

#include <fmt/format.h>

#include <cmath>
#include <functional>
#include <optional>

namespace flangewright::sheet_page {

namespace {

using tables::error_bars;
using tables::shown_error;
using tables::shown_layout_length;
using tables::shown_length;
using tables::shown_number;
using tables::stretch_percent;
using tables::with_capital;
using units::degrees;

std::string percent(double value) {
    return shown_number(value, 1) + " %";
}

std::string spread_deg(const findings::Spread& spread) {
    const std::string least = shown_number(degrees(spread.least), 1);
    const std::string most = shown_number(degrees(spread.most), 1);
    return least == most ? least + " deg" : fmt::format("{} to {} deg", least, most);
}

/// An error bar to stand behind a figure; nothing when it is not known.
std::string with_error(const std::optional<double>& error, double unit) {
    return error ? " &plusmn; " + shown_error(unit * *error, 1) : "";
}

Columns columns_of(const process::JobResult& result) {
    Columns columns;
    for (const process::StepResult& step : result.steps) {
        if (step.kind == job::StepKind::bend_down) {
            columns.held = &step.findings;
        } else if (step.kind == job::StepKind::release && columns.released == nullptr) {
            columns.released = &step.findings;
        }
    }
    return columns;
}

/// `where` says which stations the means are taken over.
std::string
angle_rows(const Columns& columns, const process::JobResult& result, const std::string& where) {
    const findings::HandCalculation& hand = result.by_hand;
    const std::string error = with_error(error_bars(result).springback, degrees(1));
    const std::string angle_error = with_error(error_bars(result).flange_angle, degrees(1));
    return figure_row(
               "Flange angle, mean" + where,
               columns,
               [&](const auto& found) {
                   return shown_deg(found.flange_angle_middle.mean)
                       + (&found == columns.released ? angle_error : "");
               },
               no_figure
           )
        + figure_row(
               "Flange angle, smallest to largest",
               columns,
               [](const auto& found) { return spread_deg(found.flange_angle); },
               no_figure
        )
        + figure_row(
               "Springback, mean" + where,
               columns,
               [&error](const auto& found) {
                   return found.springback_middle ? shown_deg(found.springback_middle->mean) + error
                                                  : no_figure;
               },
               shown_deg(hand.springback)
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

std::string strain_rows(const Columns& columns, const process::JobResult& result) {
    const findings::HandCalculation& hand = result.by_hand;
    const std::string edge_error = with_error(error_bars(result).edge_strain, 100);
    const std::string thinning_error = with_error(error_bars(result).thinning, 100);
    const double thinning_by_hand = 100 * (1 - hand.edge_thickness_ratio);
    return figure_row(
               "Edge stretch, largest",
               columns,
               [&edge_error](const auto& found) {
                   return percent(stretch_percent(found.edge_strain_most)) + edge_error;
               },
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
               [&thinning_error](const auto& found) {
                   return percent(100 * found.thinning_most) + thinning_error;
               },
               percent(thinning_by_hand) + " (edge)"
        );
}

std::string shape_rows(
    const Columns& columns,
    const job::Job& job,
    const process::JobResult& result,
    units::LengthUnit unit
) {
    const bool is_mixed = job.blank.line.curve() == outline::Curve::mixed;
    const std::optional<double> lift = error_bars(result).web_lift;
    const std::string lift_error = lift ? " &plusmn; " + shown_length(*lift, unit) : "";
    return figure_row(
               "Web lift, part set on the block",
               columns,
               [&](const auto& found) {
                   return shown_length(found.web_lift, unit)
                       + (&found == columns.released ? lift_error : "");
               },
               no_figure
           )
        + figure_row(
               "Plan radius at the bend tangent",
               columns,
               [unit, is_mixed](const auto& found) {
                   if (is_mixed) {
                       return std::string("several");
                   }
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

/// The bend radius that stretches the outer fibre so much, in thicknesses.
std::string radius_words(double bend_strain) {
    const double radius = findings::radius_over_thickness_of(bend_strain);
    if (!std::isfinite(radius)) {
        return "flat";
    }
    return findings::is_sharp_bend(bend_strain) ? "sharp bend"
                                                : "radius " + shown_number(radius, 1) + " t";
}

/// A bend's stretch is told as a radius too.
bool is_bend(const findings::LimitUse& limit) {
    return findings::is_bend(limit.place);
}

/// A stretch in per cent; in the bend, the radius beside it as bend tables give it.
std::string limit_cell(const findings::LimitUse& limit, double stretch) {
    const std::string shown = percent(100 * stretch);
    return !is_bend(limit) ? shown : shown + "<br><small>" + radius_words(stretch) + "</small>";
}

/// The interior's figures are told even while nothing there is needed: they are known.
bool is_told(const findings::LimitUse& limit) {
    return limit.is_needed || (limit.place == findings::interior_place && limit.allowed);
}

std::string allowed_cell(const findings::LimitUse& limit) {
    if (!is_told(limit)) {
        return "not needed";
    }
    if (limit.allowed && is_bend(limit) && findings::is_sharp_bend(*limit.allowed)) {
        return "sharp bend<br><small>table: radius 0 t</small>";
    }
    return limit.allowed ? limit_cell(limit, *limit.allowed) : "not known";
}

std::string share_cell(const findings::LimitUse& limit) {
    if (!is_told(limit)) {
        return no_figure;
    }
    return limit.share ? shown_number(100 * *limit.share, 0) + " %" : "not known";
}

/// What a data grade means to the one who must trust it.
std::string grade_words(material::DataGrade grade) {
    switch (grade) {
    case material::DataGrade::coupon:
        return "measured on a coupon of this sheet";
    case material::DataGrade::published:
        return "published values, not measured on your sheet";
    case material::DataGrade::typical:
        return "typical values; your sheet may bear less";
    case material::DataGrade::assumed:
        return "assumed, not measured; bend a coupon of your own sheet first";
    case material::DataGrade::unknown:
        break;
    }
    return "not known";
}

std::string short_grade_words(material::DataGrade grade) {
    return grade == material::DataGrade::unknown ? "not known" : material::word_for(grade);
}

/// One limit: its figures, and below them where the allowed one comes from.
std::string limit_rows(const findings::LimitUse& limit) {
    const std::string source = limit.source.empty() ? "none" : safe(limit.source);
    const std::string beside = limit.beside.empty() ? "" : " " + safe(limit.beside) + ".";
    return row(safe(with_capital(limit.place)),
               {limit_cell(limit, limit.reached), allowed_cell(limit), share_cell(limit)})
        + fmt::format(
               "<tr class=\"source\"><td colspan=\"4\">Allowed figure: {}. Source: "
               "{}.{}</td></tr>\n",
               short_grade_words(limit.grade),
               source,
               beside
        );
}

/// What the figures behind the plus-minus signs mean.
std::string error_words(const process::JobResult& result) {
    if (!result.mesh_error && !result.scatter) {
        return "";
    }
    std::string words = "<p class=\"note\">&plusmn; stands for what ";
    if (result.mesh_error) {
        words += "the choice of mesh leaves open";
    }
    if (!result.scatter) {
        return words + ". The sheet, the tools and their friction vary by more.</p>\n";
    }
    words += result.mesh_error ? " and for what " : "";
    return words
        + "sheet and tools may differ by, one row each below, together as the root of the "
          "sum of squares. It is no bound: a bad edge or another alloy is not in it.</p>\n";
}

/// Whether the web sits flat, or why that is not said.
std::string web_words(const tables::RunFacts& facts, const process::JobResult& result) {
    if (!result.mesh_error) {
        return "<p class=\"note\">The web lift has no error bar for the mesh, which moves it most; "
               "a "
               "quick mesh may miss it.</p>\n";
    }
    const std::string sentence = tables::web_sentence(result, facts.unit);
    return sentence.empty() ? sentence : "<p>" + safe(sentence) + "</p>\n";
}

/// A move with its sign, "+0.3 mm"; "0" when none is left at these decimals.
std::string shown_move(double value, const std::string& size) {
    const bool is_nothing = size.find_first_of("123456789") == std::string::npos;
    return is_nothing ? "0" : (value < 0 ? "-" : "+") + size;
}

/// A sentence begins large and ends with a point.
std::string as_sentence(const std::string& text) {
    const std::string sentence = with_capital(text);
    return sentence.empty() || sentence.back() == '.' ? sentence : sentence + ".";
}

} // namespace

std::string verdict_part(const process::JobResult& result) {
    const findings::Verdict& verdict = result.verdict;
    const std::string word =
        tables::verdict_words(findings::word_for(verdict.word), verdict.share_used);
    return fmt::format(
        "<section class=\"verdict\">\n<h2>Will it split?</h2>\n<p "
        "class=\"word\">{}</p>\n<p>{}</p>\n"
        "<p class=\"grade\">Material data behind this: <strong>{}</strong>.</p>\n</section>\n",
        safe(word),
        safe(as_sentence(verdict.because)),
        grade_words(verdict.grade)
    );
}

std::string limits_part(const job::Job& job, const findings::Verdict& verdict) {
    if (verdict.limits.empty()) {
        return {};
    }
    std::string content = "<table class=\"numbers limits\"><thead><tr><th>Place</th>"
                          "<th>reached</th><th>allowed</th><th>share used</th></tr></thead>"
                          "<tbody>\n";
    for (const findings::LimitUse& limit : verdict.limits) {
        content += limit_rows(limit);
    }
    content += "</tbody></table>\n"
               "<p class=\"note\">For the bend, the small line gives the even bend radius that "
               "stretches the outer fibre as much, in sheet thicknesses t. "
        + tables::edge_limit_words(job) + "</p>\n";
    return section("limits", "What the verdict weighs", content);
}

std::string
numbers_part(const tables::RunFacts& facts, const job::Job& job, const process::JobResult& result) {
    const Columns columns = columns_of(result);
    const std::string where = job.blank.has_free_end() ? " away from cut ends" : "";
    std::string content = "<table class=\"numbers\"><thead><tr><th>Figure</th><th>on the block</th>"
                          "<th>released</th><th>by hand</th></tr></thead><tbody>\n";
    content += angle_rows(columns, result, where) + strain_rows(columns, result)
        + shape_rows(columns, job, result, facts.unit) + "</tbody></table>\n";
    content += "<p class=\"note\">Angles are turned through from the web; 90 deg is square. Read "
               "angles to half a degree, stretch to one per cent: the estimate is no finer.</p>\n";
    content += error_words(result);
    content += web_words(facts, result);
    if (!result.disagreements.empty()) {
        content += "<p><strong>Where computed and by hand are far apart:</strong></p>\n<ul>\n";
        for (const findings::Disagreement& entry : result.disagreements) {
            content += "<li>" + safe(as_sentence(entry.sentence)) + "</li>\n";
        }
        content += "</ul>\n";
    }
    return section("figures", "The figures", content);
}

std::string scatter_part(const tables::RunFacts& facts, const process::JobResult& result) {
    if (!result.scatter) {
        return {};
    }
    std::string content = "<table class=\"numbers\"><thead><tr><th>More of this</th>"
                          "<th>springback, deg</th><th>edge stretch, %</th><th>web lift</th></tr>"
                          "</thead><tbody>\n";
    for (const process::ScatterPart& part : result.scatter->parts) {
        const double turn = part.moves.springback;
        const double stretch = part.moves.edge_strain;
        const double lift = part.moves.web_lift;
        content +=
            row(with_capital(safe(part.what)) + ", by " + safe(part.band),
                {shown_move(turn, shown_number(std::abs(degrees(turn)), 2)),
                 shown_move(stretch, shown_number(std::abs(100 * stretch), 2)),
                 shown_move(lift, shown_length(std::abs(lift), facts.unit))});
    }
    content +=
        "</tbody></table>\n<p class=\"note\">Each row is one more solve on a quick mesh with "
        "that value raised by its band. Lowered, take the move the other way round.</p>\n";
    return section("scatter", "What sheet and tools may differ by", content);
}

namespace {

std::string lip_layout_rows(const findings::HandCalculation& hand, units::LengthUnit unit) {
    if (!hand.lip) {
        return {};
    }
    return row("Flat, flange's bend tangent to the lip's",
               {shown_layout_length(hand.lip->bend_begin, unit)})
        + row("Flat, lip's bend tangent to its net edge",
              {shown_layout_length(hand.lip->flat_width, unit)})
        + row("Bend allowance of the lip", {shown_length(hand.lip->bend_allowance, unit)})
        + row("Setback of the lip", {shown_length(hand.lip->mould_setback, unit)});
}

} // namespace

std::string layout_part(const tables::RunFacts& facts, const findings::HandCalculation& hand) {
    const std::string content = "<table class=\"case\"><tbody>\n"
        + row("Bend allowance, flat length round the nose",
              {shown_length(hand.bend_allowance, facts.unit)})
        + row("Setback, bend tangent to mould point",
              {shown_length(hand.mould_setback, facts.unit)})
        + row("Flat width, bend tangent to free edge",
              {shown_layout_length(hand.flat_width, facts.unit)})
        + lip_layout_rows(hand, facts.unit)
        + row("Block angle for the wanted flange angle, springback by hand",
              {shown_deg(hand.block_angle_for_wanted)})
        + "</tbody></table>\n";
    return section("layout", "For layout, by hand", content);
}

} // namespace flangewright::sheet_page
