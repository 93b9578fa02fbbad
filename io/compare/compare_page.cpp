#include "io/compare/compare_page.hpp"

#include "io/compare/overlay_plot.hpp"
#include "io/sheet_page/cautions_part.hpp"
#include "io/sheet_page/html.hpp"
#include "io/sheet_page/page_style.hpp"

#include <fmt/format.h>

#include <cmath>

namespace flangewright::compare {

namespace {

using sheet_page::safe;
using sheet_page::section;
using tables::shown_error;
using tables::shown_number;

constexpr const char* no_figure = "&ndash;";

/// Beside the style of the runs' pages.
constexpr std::string_view own_style = R"(
body { max-width: 270mm; }
.compared th, .compared td { padding-right: 2mm; }
.compared td.figure, .compared thead th.figure { text-align: right; white-space: nowrap; }
.compared thead th small { font-weight: normal; white-space: nowrap; }
.compared .best > * { background: #f1eee4; }
.compared .word { font-weight: bold; }
.compared small { display: block; }
.compared .same { font-weight: bold; color: #1c1c1c; }
.compared svg { width: 9mm; height: 4mm; vertical-align: middle; }
.compared .number { font-weight: bold; white-space: nowrap; }
.bar { display: block; height: 1.6mm; margin-top: 0.8mm; background: #e6e6e6; position: relative; }
.bar i { position: absolute; left: 0; top: 0; bottom: 0; background: #186078; }
.bar b { position: absolute; left: 66.6%; top: -0.6mm; bottom: -0.6mm; width: 0.5mm;
  background: #1c1c1c; }
.verdict .advice { font-size: 13pt; line-height: 1.35; margin: 0; }
svg.plot { width: 100%; display: block; margin: 2mm 0; break-inside: avoid; }
svg.plot text, svg.scale text { font-size: 14px; fill: #333; font-family: inherit; }
svg.plot text.title { font-size: 15px; font-weight: bold; fill: #1c1c1c; }
svg.plot .grid { stroke: #e2e2e2; } svg.plot .zero { stroke: #777; }
svg.scale { width: 110mm; display: block; margin: 1mm 0 2mm; }
svg.scale text { font-size: 12px; }
.parts { display: grid; grid-template-columns: repeat(auto-fill, minmax(58mm, 1fr)); gap: 4mm; }
.part { break-inside: avoid; } .part svg { width: 100%; display: block; }
.part p { margin: 1mm 0 0; font-size: 9pt; overflow-wrap: anywhere; }
.command { font-family: "DejaVu Sans Mono", "Liberation Mono", monospace; font-size: 8.5pt;
  overflow-wrap: anywhere; }
@media print { @page { size: landscape; } }
@media screen and (max-width: 900px) { .scroll { overflow-x: auto; } }
)";

std::string head_part(const StudyFacts& facts, std::size_t n_runs) {
    return fmt::format(
        "<header>\n<h1>{}</h1>\n<p>{} variants side by side, by flangewright {} on {}</p>\n{}"
        "</header>\n",
        safe(facts.title),
        n_runs,
        safe(facts.program_version),
        safe(facts.date),
        sheet_page::caution_line()
    );
}

std::string advice_part(const std::vector<ComparedRun>& runs) {
    return "<section class=\"verdict\">\n<h2>What the table says</h2>\n<p class=\"advice\">"
        + safe(advice(runs)) + "</p>\n</section>\n";
}

/// The line of this variant in the plots.
std::string swatch(std::size_t number) {
    const Stroke stroke = stroke_of(number);
    return fmt::format(
        "<svg viewBox=\"0 0 36 16\"><line x1=\"0\" y1=\"8\" x2=\"36\" y2=\"8\" stroke=\"{}\" "
        "stroke-width=\"4\" stroke-dasharray=\"{}\"/></svg>",
        stroke.colour,
        stroke.dashes
    );
}

/// How a figure is printed.
struct Shown {
    Figure RunRecord::*figure = nullptr;
    double factor = 1;
    int n_decimals = 1;
};

/// A figure with its error, marked where it can't be told from the best one's.
std::string cell(const RunRecord& record, const RunRecord* best, const Shown& shown) {
    const Figure& figure = record.*shown.figure;
    if (!figure.value || !std::isfinite(*figure.value)) {
        return std::string("<td class=\"figure\">") + no_figure + "</td>";
    }
    const bool is_same = best != nullptr && best != &record
        && difference(figure, best->*shown.figure) == Difference::within_errors;
    return fmt::format(
        "<td class=\"figure\">{}{}{}</td>",
        is_same ? "<span class=\"same\" title=\"not to be told from the best\">&asymp;</span> "
                : "",
        shown_number(shown.factor * *figure.value, shown.n_decimals),
        figure.error ? "<small>&plusmn; "
                + shown_error(shown.factor * *figure.error, shown.n_decimals) + "</small>"
                     : ""
    );
}

/// Share with a bar that ends at one and a half times what is allowed.
std::string share_cell(const RunRecord& record, const RunRecord* best) {
    std::string text = cell(record, best, {&RunRecord::share, 100, 1});
    if (record.share.value && std::isfinite(*record.share.value)) {
        const double filled = std::clamp(*record.share.value / 1.5, 0.0, 1.0);
        text.insert(
            text.size() - 5,
            fmt::format(
                "<span class=\"bar\"><i style=\"width:{:.1f}%\"></i><b></b></span>", 100 * filled
            )
        );
    }
    return text;
}

std::string
name_cells(const StudyFacts& facts, const std::vector<ComparedRun>& runs, std::size_t number) {
    const std::string page =
        number < facts.run_pages.size() ? facts.run_pages[number] : std::string();
    const std::string label = safe(runs[number].label);
    return fmt::format(
        "<th scope=\"row\" class=\"number\">{} {}</th><td>{}</td>",
        number + 1,
        swatch(number),
        page.empty() ? label : "<a href=\"" + safe(page) + "\">" + label + "</a>"
    );
}

std::string run_row(
    const StudyFacts& facts,
    const std::vector<ComparedRun>& runs,
    std::size_t number,
    const std::optional<std::size_t>& best
) {
    const RunRecord& record = runs[number].record;
    const std::string names = name_cells(facts, runs, number);
    if (record.end != RunEnd::done) {
        return fmt::format(
            "<tr>{}<td class=\"word\">{}</td><td colspan=\"8\">{}</td></tr>\n",
            names,
            word_for(record.end),
            safe(record.reason)
        );
    }
    const RunRecord* best_record = best ? &runs[*best].record : nullptr;
    const bool is_inch = facts.unit == units::LengthUnit::inch;
    const double length = is_inch ? 1 / units::mm_per_inch : 1;
    const int length_decimals = is_inch ? 3 : 2;
    return fmt::format(
        "<tr{}>{}<td><span class=\"word\">{}</span><small>{} "
        "data</small></td>{}{}{}{}{}{}{}{}</tr>\n",
        best && *best == number ? " class=\"best\"" : "",
        names,
        safe(record.verdict),
        safe(record.data_grade),
        share_cell(record, best_record),
        cell(record, best_record, {&RunRecord::edge_stretch_percent, 1, 1}),
        cell(record, best_record, {&RunRecord::thinning_percent, 1, 1}),
        cell(record, best_record, {&RunRecord::flange_angle_deg, 1, 1}),
        cell(record, best_record, {&RunRecord::springback_deg, 1, 1}),
        cell(record, best_record, {&RunRecord::web_lift_mm, length, length_decimals}),
        cell(record, best_record, {&RunRecord::flange_depth_mm, length, length_decimals}),
        cell(record, best_record, {&RunRecord::depth_left_mm, length, length_decimals - 1})
    );
}

std::string table_head(const StudyFacts& facts) {
    const std::string unit = tables::unit_word(facts.unit);
    std::string head = "<thead><tr><th></th><th>Variant</th><th>Verdict</th>";
    const auto add = [&head](const std::string& name, const std::string& in) {
        head += "<th class=\"figure\">" + name + "<br><small>" + in + "</small></th>";
    };
    add("Limit used", "%");
    add("Edge stretch", "largest, %");
    add("Thinning", "largest, %");
    add("Flange angle", "at the end, deg");
    add("Springback", "deg");
    add("Web lift", unit);
    add("Flange depth", unit);
    add("Depth left", "about, " + unit);
    return head + "</tr></thead>\n";
}

std::string
marks_note(const std::vector<ComparedRun>& runs, const std::optional<std::size_t>& best) {
    std::string meaning;
    for (const ComparedRun& run : runs) {
        meaning = meaning.empty() ? run.record.error_meaning : meaning;
    }
    if (!best) {
        return {};
    }
    std::string note =
        "<p class=\"note\">The shaded row is the best one (word first, then limit used). ";
    note += meaning.empty()
        ? "No run has error bars, so nothing is said of whether a difference means something."
        : "&plusmn; is the error bar of " + meaning
            + ". &asymp;: the difference to the best row is smaller than both error bars "
              "together; take the two as equal. A figure without &plusmn; has no error bar.";
    return note
        + " The bar ends at 150 %, its stroke is the limit. Edge stretch and thinning are those of "
          "the step that strains the edge most, trim allowance included. Depth left: how much "
          "deeper "
          "the flange may be and still hold (negative: so much too deep), by this run's shares and "
          "the edge's stretch by hand, not by another run; solve-for flange-depth finds it by "
          "runs. "
          "None is told where the edge is not stretched or a limit is not known.</p>\n";
}

std::string table_part(const StudyFacts& facts, const std::vector<ComparedRun>& runs) {
    const std::optional<std::size_t> best = best_run(runs);
    std::string rows;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        rows += run_row(facts, runs, i, best);
    }
    return section(
        "numbers-side-by-side",
        "Side by side",
        "<div class=\"scroll\"><table class=\"compared\">\n" + table_head(facts) + "<tbody>\n"
            + rows + "</tbody></table></div>\n" + marks_note(runs, best)
    );
}

/// The lips, where there are any.
std::string lips_part(const std::vector<ComparedRun>& runs) {
    const std::optional<std::size_t> best = best_run(runs);
    std::string rows;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const RunRecord& record = runs[i].record;
        if (record.lip_angle_deg.value) {
            const RunRecord* best_record = best ? &runs[*best].record : nullptr;
            rows += fmt::format(
                "<tr{}><th scope=\"row\" class=\"number\">{} {}</th>{}{}{}</tr>\n",
                best && *best == i ? " class=\"best\"" : "",
                i + 1,
                swatch(i),
                cell(record, best_record, {&RunRecord::lip_angle_deg, 1, 1}),
                cell(record, best_record, {&RunRecord::lip_springback_deg, 1, 1}),
                cell(record, best_record, {&RunRecord::lip_edge_share, 100, 1})
            );
        }
    }
    if (rows.empty()) {
        return {};
    }
    return section(
        "lips",
        "The lip",
        "<table class=\"compared\">\n<thead><tr><th></th>"
        "<th class=\"figure\">Lip angle<br><small>to the flange, at the end, deg</small></th>"
        "<th class=\"figure\">Lip springback<br><small>deg</small></th>"
        "<th class=\"figure\">Edge's limit used<br><small>since last soft, %</small></th>"
        "</tr></thead>\n<tbody>\n"
            + rows + "</tbody></table>\n"
    );
}

/// Why each one holds or not, and what would help.
std::string reasons_part(const StudyFacts& facts, const std::vector<ComparedRun>& runs) {
    std::string items;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const RunRecord& record = runs[i].record;
        if (record.end != RunEnd::done) {
            continue;
        }
        std::string item = "<li><b>" + std::to_string(i + 1) + "</b> " + safe(record.because);
        if (!record.helps.empty()) {
            item += " Would help most: " + safe(record.helps) + " of the limit used.";
        }
        if (record.too_deep_mm) {
            item +=
                " Too deep by " + safe(tables::brief_length(*record.too_deep_mm, facts.unit)) + ".";
        }
        items += item + "</li>\n";
    }
    return items.empty() ? "" : section("reasons", "Why", "<ul>\n" + items + "</ul>\n");
}

std::string plots_part(const StudyFacts& facts, const std::vector<ComparedRun>& runs) {
    const std::string unit = tables::unit_word(facts.unit);
    OverlayPlot stretch{
        "Stretch of the free edge", "%", "Station along the bend line, " + unit, {}};
    OverlayPlot angle{"Flange angle at the end", "deg", stretch.along_title, {}};
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const auto in_unit = [&facts](Curve curve) {
            for (double& station : curve.station) {
                station = tables::in_unit(station, facts.unit);
            }
            return curve;
        };
        stretch.lines.push_back({i, in_unit(runs[i].record.edge_stretch)});
        angle.lines.push_back({i, in_unit(runs[i].record.flange_angle)});
    }
    const std::string plots = overlay_plot(stretch) + overlay_plot(angle);
    return plots.empty() ? "" : section("plots", "Along the bend line", plots);
}

std::string pictures_part(const StudyFacts& facts) {
    if (facts.pictures.empty() && facts.pictures_note.empty()) {
        return {};
    }
    const std::string note = facts.pictures_note.empty()
        ? ""
        : "<p class=\"note\">" + safe(facts.pictures_note) + "</p>\n";
    return section(
        "pictures",
        "The parts at the end, all in one scale of size and of colour",
        facts.pictures + note
    );
}

std::string study_part(const StudyFacts& facts) {
    const std::string common =
        facts.common.empty() ? "" : "<p>In every variant: " + safe(facts.common) + ".</p>\n";
    return section(
        "study",
        "How it was made",
        common + "<p class=\"command\">" + safe(facts.command)
            + "</p>\n<p class=\"note\">Each variant is a run of its own; its name leads to its "
              "page. "
              "Figures for programs: compare.csv, compare.json.</p>\n"
    );
}

} // namespace

std::string compare_page(const StudyFacts& facts, const std::vector<ComparedRun>& runs) {
    std::string page = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                       "<meta name=\"viewport\" content=\"width=device-width\">\n<title>";
    page += safe(facts.title) + ", compared</title>\n<style>";
    page += sheet_page::page_style();
    page += own_style;
    page += "</style>\n</head>\n<body>\n";
    page += head_part(facts, runs.size()) + advice_part(runs) + table_part(facts, runs);
    page += lips_part(runs) + plots_part(facts, runs) + pictures_part(facts)
        + reasons_part(facts, runs);
    page += study_part(facts) + sheet_page::cautions_part();
    return page + "<footer>flangewright " + safe(facts.program_version) + ", " + safe(facts.date)
        + "</footer>\n</body>\n</html>\n";
}

} // namespace flangewright::compare
