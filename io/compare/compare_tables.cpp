#include "io/compare/compare_tables.hpp"

#include "io/tables/json_figures.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace flangewright::compare {

namespace {

using tables::Json;

/// The figures in the order of the columns.
struct Column {
    const char* name;
    Figure RunRecord::*figure;
};

constexpr std::array<Column, 11> columns{
    {{"share_used", &RunRecord::share},
     {"edge_stretch_percent", &RunRecord::edge_stretch_percent},
     {"thinning_percent", &RunRecord::thinning_percent},
     {"flange_angle_deg", &RunRecord::flange_angle_deg},
     {"springback_deg", &RunRecord::springback_deg},
     {"web_lift_mm", &RunRecord::web_lift_mm},
     {"flange_depth_mm", &RunRecord::flange_depth_mm},
     {"depth_left_mm", &RunRecord::depth_left_mm},
     {"lip_angle_deg", &RunRecord::lip_angle_deg},
     {"lip_springback_deg", &RunRecord::lip_springback_deg},
     {"lip_edge_share", &RunRecord::lip_edge_share}}};

std::string cell(const std::optional<double>& value) {
    return value && std::isfinite(*value) ? fmt::format("{:.7g}", *value) : "";
}

/// In quotes where a comma or a quote stands in it.
std::string text_cell(const std::string& text) {
    if (text.find_first_of(",\"\n\r") == std::string::npos) {
        return text;
    }
    std::string quoted = "\"";
    for (const char letter : text) {
        quoted += letter == '"' ? "\"\"" : std::string(1, letter == '\n' ? ' ' : letter);
    }
    return quoted + "\"";
}

std::string word_for(Difference difference) {
    switch (difference) {
    case Difference::within_errors:
        return "within errors";
    case Difference::beyond_errors:
        return "beyond errors";
    case Difference::unknown:
        break;
    }
    return "not known";
}

Json figure_json(const RunRecord& record, const Column& column, const RunRecord* best) {
    const Figure& figure = record.*column.figure;
    return {
        {"value", tables::number(figure.value)},
        {"error", tables::number(figure.error)},
        {"to_best",
         best == nullptr || best == &record
             ? Json(nullptr)
             : Json(word_for(difference(figure, best->*column.figure)))}};
}

Json run_json(const ComparedRun& run, const std::string& name, const RunRecord* best) {
    const RunRecord& record = run.record;
    Json entry = {
        {"label", run.label},
        {"folder", "runs/" + name},
        {"case", "cases/" + name + ".toml"},
        {"end", word_for(record.end)},
        {"reason", record.reason}};
    if (record.end != RunEnd::done) {
        return entry;
    }
    entry["verdict"] = record.verdict;
    entry["because"] = record.because;
    entry["data_grade"] = record.data_grade;
    entry["error_bars_of"] = record.error_meaning;
    for (const Column& column : columns) {
        entry[column.name] = figure_json(record, column, best);
    }
    entry["too_deep_mm"] = tables::number(record.too_deep_mm);
    entry["helps_most"] = record.helps;
    return entry;
}

} // namespace

std::string compare_csv(const TableFacts& facts, const std::vector<ComparedRun>& runs) {
    std::string table = "variant,label,folder,end,verdict,data_grade";
    for (const Column& column : columns) {
        table += fmt::format(",{0},{0}_error", column.name);
    }
    table += ",too_deep_mm,helps_most,reason\n";
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const RunRecord& record = runs[i].record;
        table += fmt::format(
            "{},{},{},{},{},{}",
            i + 1,
            text_cell(runs[i].label),
            text_cell("runs/" + facts.names[i]),
            word_for(record.end),
            record.verdict,
            record.data_grade
        );
        for (const Column& column : columns) {
            const Figure& figure = record.*column.figure;
            table += "," + cell(figure.value) + "," + cell(figure.error);
        }
        table += "," + cell(record.too_deep_mm) + "," + text_cell(record.helps) + ","
            + text_cell(record.reason) + "\n";
    }
    return table;
}

std::string compare_json(const TableFacts& facts, const std::vector<ComparedRun>& runs) {
    const std::optional<std::size_t> best = best_run(runs);
    const RunRecord* best_record = best ? &runs[*best].record : nullptr;
    Json list = Json::array();
    for (std::size_t i = 0; i < runs.size(); ++i) {
        list.push_back(run_json(runs[i], facts.names[i], best_record));
    }
    const Json all = {
        {"schema", 1},
        {"program", {{"name", "flangewright"}, {"version", facts.program_version}}},
        {"date", facts.date},
        {"command", facts.command},
        {"best", best ? Json(*best + 1) : Json(nullptr)},
        {"advice", advice(runs)},
        {"variants", list}};
    return all.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

} // namespace flangewright::compare
