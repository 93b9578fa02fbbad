#include "io/sheet_page/sheet_page.hpp"

#include "io/sheet_page/case_part.hpp"
#include "io/sheet_page/cautions_part.hpp"
#include "io/sheet_page/chance_part.hpp"
#include "io/sheet_page/cure_part.hpp"
#include "io/sheet_page/html.hpp"
#include "io/sheet_page/lip_part.hpp"
#include "io/sheet_page/measured_part.hpp"
#include "io/sheet_page/numbers_part.hpp"
#include "io/sheet_page/openings_part.hpp"
#include "io/sheet_page/page_style.hpp"
#include "io/sheet_page/passes_part.hpp"
#include "io/sheet_page/record_part.hpp"
#include "io/sheet_page/remedies_part.hpp"
#include "io/sheet_page/steps_part.hpp"
#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

namespace flangewright::sheet_page {

namespace {

std::string head_part(const tables::RunFacts& facts, const job::Job& job) {
    return fmt::format(
        "<header>\n<h1>{}</h1>\n<p>Sheet for the build log, by flangewright {} on {}, from {}</p>\n"
        "{}</header>\n",
        safe(job.title),
        safe(facts.program_version),
        safe(facts.date),
        safe(facts.case_file.empty() ? "a case without a file" : facts.case_file),
        caution_line()
    );
}

/// Says what an unfinished run means; empty for a finished one.
std::string stop_part(const process::JobResult& result) {
    if (result.reason == process::StopReason::done) {
        return {};
    }
    const bool was_asked = result.reason == process::StopReason::stop_requested;
    std::string reached = "before the first step was finished";
    if (!result.steps.empty()) {
        const process::StepResult& last = result.steps.back();
        reached = fmt::format(
            "in {}, at a flange angle of {} deg",
            process::name_of(last.kind),
            tables::shown_number(units::degrees(last.report.angle_reached), 1)
        );
    }
    return fmt::format(
        "<section class=\"stopped\"><p>This run did not reach its end: {} {}. The figures below "
        "are "
        "those of the last shape reached, not of the finished part.</p></section>\n",
        was_asked ? "it was stopped by the user" : "no equilibrium was found",
        safe(reached)
    );
}

std::string warnings_part(const tables::RunFacts& facts, const process::JobResult& result) {
    std::string content;
    const auto add = [&content](const std::string& sentence) {
        content += "<li>" + safe(sentence) + "</li>\n";
    };
    for (const std::string& warning : result.warnings) {
        add(warning);
    }
    if (!result.steps.empty()) {
        for (const std::string& note : result.steps.back().findings.notes) {
            add(note);
        }
    }
    for (const std::string& warning : facts.output_warnings) {
        add(warning);
    }
    return content.empty() ? content
                           : section("warnings", "To know", "<ul>\n" + content + "</ul>\n");
}

std::string pictures_part(const std::vector<PagePicture>& pictures) {
    if (pictures.empty()) {
        return {};
    }
    std::string content;
    for (const PagePicture& picture : pictures) {
        content += fmt::format(
            "<figure><img alt=\"{}\" src=\"data:image/png;base64,{}\"></figure>\n",
            safe(picture.caption),
            base64(picture.png)
        );
    }
    return section("pictures", "Pictures", content);
}

/// To be filled in at the bench, with what earlier parts taught beside it.
std::string to_measure_part(const tables::RunFacts& facts, const process::JobResult& result) {
    const std::vector<MeasuredRow> rows = rows_to_fill(facts, result);
    if (rows.empty()) {
        return {};
    }
    std::vector<std::string> notes = facts.own_experience;
    notes.emplace_back("Written by hand, or by \"flangewright log\" from a table of readings.");
    return measured_part(rows, notes);
}

std::string foot_part(const tables::RunFacts& facts, const process::JobResult& result) {
    const process::SolveFigures& figures = result.figures;
    return fmt::format(
        "<footer>flangewright {}, {}. Shell model with {} elements, {} layers, {} unknowns; {} "
        "steps, {} iterations, {} s on {} threads. Figures for programs: summary.json, "
        "stations.csv, edge.csv.</footer>\n",
        safe(facts.program_version),
        safe(facts.date),
        result.mesh.n_elements(),
        figures.n_layers,
        figures.n_degrees_of_freedom,
        figures.n_increments,
        figures.n_iterations,
        tables::shown_number(figures.seconds, 0),
        figures.n_threads
    );
}

} // namespace

std::string sheet_page(
    const tables::RunFacts& facts,
    const job::Job& job,
    const process::JobResult& result,
    const std::vector<PagePicture>& pictures,
    const std::string& view
) {
    std::string page = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                       "<meta name=\"viewport\" content=\"width=device-width\">\n<title>";
    page += safe(job.title);
    page += "</title>\n<style>";
    page += page_style();
    page += "</style>\n</head>\n<body>\n";
    page += head_part(facts, job) + stop_part(result) + verdict_part(result);
    page += remedies_part(facts, result) + chance_part(result);
    page += numbers_part(facts, job, result) + passes_part(facts, job, result)
        + lip_part(facts, job, result) + openings_part(facts, result)
        + steps_part(facts, job, result) + cure_part(facts, result) + scatter_part(facts, result)
        + limits_part(job, result.verdict) + view;
    page += warnings_part(facts, result) + layout_part(facts, result.by_hand);
    page += case_part(facts, job) + heat_part(job) + heat_record_part(job) + cautions_part();
    page += record_part(facts, job) + to_measure_part(facts, result);
    page += foot_part(facts, result) + pictures_part(pictures);
    page += "</body>\n</html>\n";
    return page;
}

} // namespace flangewright::sheet_page
