#include "io/command_line/result_text.hpp"

#include "io/command_line/words.hpp"
#include "io/tables/chance_words.hpp"
#include "io/tables/cure_words.hpp"
#include "io/tables/edge_words.hpp"
#include "io/tables/error_bars.hpp"
#include "io/tables/pass_table.hpp"
#include "io/tables/remedy_words.hpp"
#include "io/tables/shown_length.hpp"
#include "io/tables/web_words.hpp"
#include "io/units/angle.hpp"
#include "solver/findings/flange_development.hpp"
#include "solver/findings/lip_advice.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace flangewright::command_line {

namespace {

using findings::PartFindings;
using process::JobResult;
using Row = std::vector<std::string>;

std::string degrees_text(double angle) {
    return tables::shown_number(units::degrees(angle), 2) + " deg";
}

std::string spread_text(const findings::Spread& spread) {
    const std::string least = tables::shown_number(units::degrees(spread.least), 2);
    const std::string most = tables::shown_number(units::degrees(spread.most), 2);
    const std::string mean = degrees_text(spread.mean);
    return least == most ? mean : fmt::format("{} ({} to {})", mean, least, most);
}

std::string percent_shown(double percent) {
    return tables::shown_number(percent, 1) + " %";
}

std::string error_heading(const JobResult& result) {
    const std::string meaning = tables::error_bars(result).meaning;
    return meaning.empty() ? "" : "+- by " + meaning;
}

std::string error_text(const std::optional<double>& error, double unit, int n_decimals) {
    return error ? "+- " + tables::shown_error(unit * *error, n_decimals) : "";
}

const PartFindings* findings_of(const JobResult& result, job::StepKind kind) {
    const auto found = std::find_if(
        result.steps.begin(),
        result.steps.end(),
        [kind](const process::StepResult& step) { return step.kind == kind; }
    );
    return found == result.steps.end() ? nullptr : &found->findings;
}

void add_held_rows(std::vector<Row>& rows, const JobResult& result, const job::Job& job) {
    const PartFindings* held = findings_of(result, job::StepKind::bend_down);
    if (held == nullptr) {
        return;
    }
    rows.push_back(
        {"flange angle on the block",
         spread_text(held->flange_angle),
         degrees_text(findings::turned_angle(job))}
    );
    rows.push_back(
        {"edge stretch, largest",
         percent_shown(tables::stretch_percent(held->edge_strain_most)),
         percent_shown(100 * result.by_hand.edge_stretch),
         error_text(tables::error_bars(result).edge_strain, 100, 1)}
    );
    rows.push_back(
        {"thinning, largest",
         percent_shown(100 * held->thinning_most),
         percent_shown(100 * (1 - result.by_hand.edge_thickness_ratio)) + " at the edge",
         error_text(tables::error_bars(result).thinning, 100, 1)}
    );
}

void add_released_rows(
    std::vector<Row>& rows, const JobResult& result, const job::Job& job, units::LengthUnit unit
) {
    const PartFindings* released = findings_of(result, job::StepKind::release);
    if (released == nullptr) {
        return;
    }
    const findings::HandCalculation& hand = result.by_hand;
    const tables::ErrorBars bars = tables::error_bars(result);
    const std::string springback_error = error_text(bars.springback, units::degrees(1), 2);
    rows.push_back(
        {"flange angle released",
         spread_text(released->flange_angle),
         degrees_text(findings::turned_angle(job) - hand.springback),
         error_text(bars.flange_angle, units::degrees(1), 2)}
    );
    if (released->springback) {
        rows.push_back(
            {"springback",
             spread_text(*released->springback),
             degrees_text(hand.springback),
             springback_error}
        );
    }
    if (released->springback_middle && job.blank.has_free_end()) {
        rows.push_back(
            {"springback away from cut ends",
             spread_text(*released->springback_middle),
             degrees_text(hand.springback),
             springback_error}
        );
    }
    rows.push_back(
        {"web lift",
         tables::shown_length(released->web_lift, unit),
         "-",
         bars.web_lift ? "+- " + tables::shown_length(*bars.web_lift, unit) : ""}
    );
}

/// The lip as bent, and as its release leaves it.
void add_lip_rows(std::vector<Row>& rows, const JobResult& result) {
    const PartFindings* held = findings_of(result, job::StepKind::return_bend);
    if (held == nullptr || !held->lip || !result.by_hand.lip) {
        return;
    }
    const findings::LipByHand& hand = *result.by_hand.lip;
    rows.push_back(
        {"lip edge stretch from flat, largest",
         percent_shown(tables::stretch_percent(held->edge_strain_most)),
         percent_shown(100 * hand.edge_stretch)}
    );
    rows.push_back({"lip angle on the block", spread_text(held->lip->angle), "-"});
    for (const process::StepResult& step : result.steps) {
        if (step.findings.lip && step.findings.lip->springback_middle) {
            const findings::LipFindings& lip = *step.findings.lip;
            rows.push_back({"lip angle released", spread_text(lip.angle), "-"});
            rows.push_back(
                {"lip springback",
                 degrees_text(*lip.springback_middle),
                 degrees_text(hand.springback)}
            );
            return;
        }
    }
}

/// What each step after the release leaves.
void add_loose_rows(std::vector<Row>& rows, const JobResult& result, units::LengthUnit unit) {
    for (const process::StepResult& step : result.steps) {
        const bool is_first_release =
            step.kind == job::StepKind::release && &step.findings == findings_of(result, step.kind);
        if (step.kind == job::StepKind::bend_down || is_first_release) {
            continue;
        }
        const std::string after = "after " + process::name_of(step.kind);
        rows.push_back({after + ": flange angle", spread_text(step.findings.flange_angle), "-"});
        if (step.kind == job::StepKind::return_bend) {
            add_lip_rows(rows, result);
        }
        if (job::ends_on_block(step.kind)) {
            continue; // held flat
        }
        rows.push_back(
            {after + ": web lift", tables::shown_length(step.findings.web_lift, unit), "-"}
        );
    }
}

/// What each pass of the drive did, beside the even drive; nothing for one even pass.
std::string passes_text(const job::Job& job, const JobResult& result, units::LengthUnit unit) {
    if (!result.passes || result.passes->as_driven.stations.size() == 0) {
        return "";
    }
    const bool has_even = result.passes->even.has_value();
    std::vector<Row> rows{{"", "as driven", has_even ? "driven evenly" : ""}};
    for (const tables::PassRow& entry : tables::pass_rows(*result.passes, unit)) {
        rows.push_back({entry.head, entry.as_driven, entry.even});
    }
    return "\nDriven " + tables::pass_words(job.drive) + ":\n" + as_columns(rows);
}

// Nothing where nothing is stated.
std::string edge_text(const job::Job& job) {
    const bool is_stated = job.blank.edge_finish || job.trimmed_edge_finish;
    return is_stated ? as_lines(
               "The free edge: " + tables::edge_words(job) + ". " + tables::edge_limit_words(job)
           )
                     : "";
}

std::string verdict_text(const job::Job& job, const JobResult& result) {
    const findings::Verdict& verdict = result.verdict;
    std::string text = "Will it split? " + findings::word_for(verdict.word);
    if (verdict.share_used) {
        text += fmt::format(
            ", {} % of the limit used", tables::shown_number(100 * *verdict.share_used, 0)
        );
    }
    text += fmt::format(" (material data: {})\n", material::word_for(verdict.grade));
    text +=
        as_lines(verdict.because) + edge_text(job) + as_lines(tables::edge_source_words(verdict));
    const std::optional<std::string> about_lip =
        findings::lip_advice(job, process::findings_of_steps(result), verdict);
    return text + (about_lip ? as_lines(*about_lip) : "");
}

std::string remedies_text(const JobResult& result, units::LengthUnit unit) {
    if (!result.remedies) {
        return "";
    }
    std::string text = fmt::format("\n{}:\n", tables::remedies_heading);
    for (const std::string& line : tables::remedy_lines(*result.remedies, unit)) {
        text += as_lines("- " + line);
    }
    return text + as_lines(tables::remedies_note(*result.remedies));
}

std::string chance_text(const JobResult& result) {
    if (!result.chance) {
        return "";
    }
    const std::string caution = tables::chance_caution(*result.chance);
    return fmt::format("\n{}:\n", tables::chance_heading)
        + as_lines(tables::chance_sentence(*result.chance))
        + (caution.empty() ? caution : as_lines(caution));
}

std::string as_lines_if_any(const std::string& text) {
    return text.empty() ? text : as_lines(text);
}

std::string cure_text(const JobResult& result, units::LengthUnit unit) {
    if (!result.web_cure) {
        return "";
    }
    const std::vector<std::string> steps = tables::cure_steps(*result.web_cure, unit);
    std::string text = fmt::format("\n{}:\n", tables::cure_heading);
    if (const std::string occasion = tables::cure_occasion(*result.web_cure, result);
        !occasion.empty()) {
        text += as_lines(occasion);
    }
    for (const std::string& step : steps) {
        text += as_lines(step);
    }
    text += as_lines(tables::cure_outcome(*result.web_cure, unit));
    if (steps.empty()) {
        return text;
    }
    return text + as_lines_if_any(tables::cure_doubt(result)) + as_lines(tables::cure_caution());
}

// Why the run ended early, if it did.
std::string ending_text(const JobResult& result) {
    const double angle = result.steps.empty() ? 0 : result.steps.back().report.angle_reached;
    switch (result.reason) {
    case process::StopReason::done:
        return "";
    case process::StopReason::no_equilibrium:
        return fmt::format(
            "The run stopped early: no balance of forces was found beyond {}. What was reached\n"
            "is kept. Try accuracy = \"fine\", a larger nose radius or more clearance.\n\n",
            degrees_text(angle)
        );
    case process::StopReason::stop_requested:
        return fmt::format(
            "Stopped as asked at {}; what was reached is kept.\n\n", degrees_text(angle)
        );
    }
    return "";
}

} // namespace

std::string result_text(const job::Job& job, const JobResult& result, units::LengthUnit unit) {
    std::string text = "\n" + job.title + "\n\n" + ending_text(result) + verdict_text(job, result);
    text += remedies_text(result, unit) + chance_text(result);
    std::vector<Row> rows{{"", "computed", "by hand", error_heading(result)}};
    add_held_rows(rows, result, job);
    add_released_rows(rows, result, job, unit);
    add_loose_rows(rows, result, unit);
    if (rows.size() > 1) {
        text += "\n" + as_columns(rows);
    }
    text += as_lines_if_any(tables::web_sentence(result, unit));
    text += passes_text(job, result, unit);
    text += cure_text(result, unit);
    if (!result.disagreements.empty()) {
        text += "\nWhere computed and by hand are far apart:\n";
    }
    for (const findings::Disagreement& disagreement : result.disagreements) {
        text += as_lines(disagreement.sentence);
    }
    if (!result.warnings.empty()) {
        text += "\nTo know:\n";
    }
    for (const std::string& warning : result.warnings) {
        text += as_lines(warning);
    }
    return text + "\n" + caution();
}

} // namespace flangewright::command_line
