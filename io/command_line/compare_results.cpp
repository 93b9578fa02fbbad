#include "io/command_line/compare_results.hpp"

#include "io/command_line/coupon_command.hpp"
#include "io/command_line/words.hpp"
#include "io/compare/compare_page.hpp"
#include "io/compare/compare_tables.hpp"
#include "io/compare/job_line.hpp"
#include "io/compare/part_drawing.hpp"
#include "io/run_folder/whole_file.hpp"
#include "io/tables/shown_length.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace flangewright::command_line {

namespace {

namespace fs = std::filesystem;
using compare::ComparedRun;
using compare::Figure;
using compare::RunEnd;
using tables::shown_number;

/// More would make the page too heavy to open.
constexpr std::size_t most_pictures = 24;

/// As it could be typed again.
std::string command_of(const CompareArguments& arguments) {
    std::string command = "flangewright compare";
    for (const fs::path& each : arguments.cases) {
        command += " " + compare::shell_word(each.string());
    }
    for (const compare::Variation& variation : arguments.variations) {
        std::string values;
        for (const std::string& value : variation.values) {
            values += (values.empty() ? "" : ",") + value;
        }
        command += " --vary " + compare::shell_word(variation.key + "=" + values);
    }
    return command;
}

std::string title_of(const WrittenStudy& study) {
    const std::string& first = study.variants.front().file.job.title;
    const std::size_t n_more = study.arguments.cases.size() - 1;
    return n_more == 0 ? first : fmt::format("{}, and {} more", first, n_more);
}

compare::PartDrawings drawings_of(const std::vector<ComparedRun>& runs, std::string& note) {
    compare::PartDrawings drawings{"Thinning, %", {}};
    std::size_t n_done = 0;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const auto& record = runs[i].record;
        n_done += record.end == RunEnd::done ? 1 : 0;
        if (!record.last_shape || drawings.parts.size() == most_pictures) {
            continue;
        }
        if (auto shape = vtk::read_shape(*record.last_shape, "thinning")) {
            shape->figure *= 100;
            drawings.parts.push_back(
                {fmt::format("{}: {}", i + 1, runs[i].label), std::move(*shape)}
            );
        }
    }
    if (drawings.parts.size() < n_done) {
        note = fmt::format("{} of {} parts are drawn.", drawings.parts.size(), n_done);
    }
    return drawings;
}

std::string with_error(const Figure& figure, double factor, int n_decimals) {
    if (!figure.value) {
        return "-";
    }
    const std::string value = shown_number(factor * *figure.value, n_decimals);
    return figure.error ? value + " +- " + tables::shown_error(factor * *figure.error, n_decimals)
                        : value;
}

} // namespace

Result<fs::path> write_results(const WrittenStudy& study, const std::vector<ComparedRun>& runs) {
    compare::TableFacts facts{program_version(), date_today(), command_of(study.arguments), {}};
    compare::StudyFacts page;
    page.title = title_of(study);
    page.program_version = facts.program_version;
    page.date = facts.date;
    page.command = facts.command;
    page.common = compare::common_settings(study.arguments.variations);
    page.unit = study.variants.front().file.unit;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        facts.names.push_back(study.variants[i].name);
        page.run_pages.push_back(
            runs[i].record.end == RunEnd::done ? "runs/" + facts.names.back() + "/sheet.html" : ""
        );
    }
    if (study.arguments.with_pictures) {
        page.pictures = compare::part_drawings(drawings_of(runs, page.pictures_note));
    } else {
        page.pictures_note = "Pictures are left out, as asked.";
    }
    const std::vector<std::pair<const char*, std::string>> files{
        {"compare.csv", compare_csv(facts, runs)},
        {"compare.json", compare_json(facts, runs)},
        {"compare.html", compare_page(page, runs)}};
    Result<fs::path> written = study.folder;
    for (const auto& [name, text] : files) {
        written = run_folder::write_whole(study.folder / name, text);
        if (!written) {
            break;
        }
    }
    return written;
}

std::string results_text(const std::vector<ComparedRun>& runs) {
    const bool has_lips = std::ranges::any_of(runs, [](const ComparedRun& run) {
        return run.record.lip_angle_deg.value.has_value();
    });
    std::vector<std::vector<std::string>> rows{
        {"",
         "variant",
         "verdict",
         "limit used, %",
         "angle, deg",
         "springback, deg",
         "lift, mm",
         "depth left, mm"}};
    if (has_lips) {
        rows.front().insert(rows.front().end(), {"lip, deg", "lip springback", "lip edge, %"});
    }
    std::string reasons;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const auto& [label, record] = runs[i];
        if (record.end != RunEnd::done) {
            rows.push_back({std::to_string(i + 1), label, word_for(record.end)});
            reasons += fmt::format("  {}: {}\n", i + 1, record.reason);
            continue;
        }
        rows.push_back(
            {std::to_string(i + 1),
             label,
             record.verdict,
             with_error(record.share, 100, 1),
             with_error(record.flange_angle_deg, 1, 1),
             with_error(record.springback_deg, 1, 1),
             with_error(record.web_lift_mm, 1, 2),
             with_error(record.depth_left_mm, 1, 1)}
        );
        if (has_lips) {
            rows.back().insert(
                rows.back().end(),
                {with_error(record.lip_angle_deg, 1, 1),
                 with_error(record.lip_springback_deg, 1, 1),
                 with_error(record.lip_edge_share, 100, 1)}
            );
        }
    }
    return as_columns(rows) + reasons + "\n" + as_lines(advice(runs));
}

} // namespace flangewright::command_line
