#include "io/compare/run_record.hpp"

#include "io/tables/json_figures.hpp"
#include "io/tables/shown_length.hpp"
#include "solver/findings/depth_left.hpp"
#include "solver/findings/verdict.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fstream>
#include <sstream>

namespace flangewright::compare {

namespace {

namespace fs = std::filesystem;
using tables::Json;
using tables::shown_number;

/// Follows keys down; null where one is missing.
const Json& at(const Json& from, std::initializer_list<const char*> keys) {
    static const Json nothing;
    const Json* found = &from;
    for (const char* key : keys) {
        if (!found->is_object() || !found->contains(key)) {
            return nothing;
        }
        found = &(*found)[key];
    }
    return *found;
}

std::optional<double> number_at(const Json& from, std::initializer_list<const char*> keys) {
    const Json& found = at(from, keys);
    return found.is_number() ? std::optional(found.get<double>()) : std::nullopt;
}

std::string text_at(const Json& from, std::initializer_list<const char*> keys) {
    const Json& found = at(from, keys);
    return found.is_string() ? found.get<std::string>() : "";
}

const Json& steps_of(const Json& summary) {
    static const Json none = Json::array();
    const Json& steps = at(summary, {"steps"});
    return steps.is_array() ? steps : none;
}

/// Half-width by mesh and scatter together, as on the run's own page.
std::optional<double> error_of(const Json& summary, const char* key) {
    const auto mesh = number_at(summary, {"mesh_error", key});
    const auto scatter = number_at(summary, {"scatter", "total", key});
    if (!mesh || !scatter) {
        return mesh ? mesh : scatter;
    }
    return std::hypot(*mesh, *scatter);
}

std::string error_meaning(const Json& summary) {
    const bool has_mesh = at(summary, {"mesh_error"}).is_object();
    const bool has_scatter = at(summary, {"scatter"}).is_object();
    return has_mesh ? (has_scatter ? "mesh and scatter" : "mesh") : (has_scatter ? "scatter" : "");
}

/// The step whose edge is strained most: before a trim, after the last bend.
std::size_t step_of_edge(const Json& steps) {
    std::size_t chosen = 0;
    double most = -1;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const auto strain = number_at(steps[i], {"edge_strain_log", "max"});
        if (strain && std::abs(*strain) > most) {
            most = std::abs(*strain);
            chosen = i;
        }
    }
    return chosen;
}

std::optional<double> last_springback(const Json& steps) {
    std::optional<double> found;
    for (const Json& step : steps) {
        const auto here = number_at(step, {"springback_deg_middle", "mean"});
        found = here ? here : found;
    }
    return found;
}

/// Place of the limit that the verdict's share is of.
std::string deciding_place(const Json& summary) {
    const auto share = number_at(summary, {"verdict", "share_used"});
    const Json& limits = at(summary, {"verdict", "limits"});
    if (share && limits.is_array()) {
        for (const Json& limit : limits) {
            if (number_at(limit, {"share"}) == share) {
                return text_at(limit, {"place"});
            }
        }
    }
    return {};
}

/// Of the free edge's share: as far off as the edge's strain. Of other places nothing is known.
std::optional<double> share_error(const Json& summary, double edge_strain) {
    const auto share = number_at(summary, {"verdict", "share_used"});
    const auto error = error_of(summary, "edge_strain_log");
    if (!share || !error || edge_strain == 0 || deciding_place(summary) != findings::edge_place) {
        return std::nullopt;
    }
    return *share * *error / std::abs(edge_strain);
}

/// One change of `what_would_help` in few words.
std::string help_words(const Json& change) {
    const std::string what = text_at(change, {"what"});
    const double from = number_at(change, {"from_mm"}).value_or(0);
    const double to = number_at(change, {"to_mm"}).value_or(0);
    const std::string sizes =
        fmt::format("{} mm in place of {} mm", shown_number(to, 1), shown_number(from, 1));
    const std::string finish = text_at(change, {"edge_finish"});
    std::string words = what;
    if (what == "less_depth") {
        words = fmt::format("flange {} mm less deep", shown_number(from - to, 1));
    } else if (what == "larger_nose") {
        words = "nose radius " + sizes;
    } else if (what == "larger_plan_radius") {
        words = "plan radius " + sizes;
    } else if (what == "better_edge" || what == "better_trimmed_edge") {
        words = (what == "better_edge" ? "edge " : "trimmed edge ")
            + (finish.empty() ? "better finished" : finish);
    } else if (what == "anneal_first") {
        words = "anneal before the return bend";
    } else if (what == "turned_grain") {
        words = "blank turned by 90 deg to the rolling direction";
    }
    const auto share = number_at(change, {"share"});
    return share ? fmt::format("{}: {} %", words, shown_number(100 * *share, 0)) : words;
}

void read_help(const Json& summary, RunRecord& record) {
    const Json& changes = at(summary, {"what_would_help"});
    if (!changes.is_array()) {
        return;
    }
    for (const Json& change : changes) {
        if (record.helps.empty()) {
            record.helps = help_words(change);
        }
        const auto from = number_at(change, {"from_mm"});
        const auto to = number_at(change, {"to_mm"});
        if (text_at(change, {"what"}) == "less_depth" && from && to) {
            record.too_deep_mm = *from - *to;
        }
    }
}

void read_figures(const Json& summary, RunRecord& record) {
    const Json& steps = steps_of(summary);
    const Json& last = steps.back();
    const Json& edge = steps[step_of_edge(steps)];
    const double edge_strain = number_at(edge, {"edge_strain_log", "max"}).value_or(0);
    record.share = {
        number_at(summary, {"verdict", "share_used"}), share_error(summary, edge_strain)};
    record.flange_angle_deg = {
        number_at(last, {"flange_angle_deg_middle", "mean"}),
        error_of(summary, "flange_angle_deg")};
    record.springback_deg = {last_springback(steps), error_of(summary, "springback_deg")};
    record.web_lift_mm = {
        number_at(last, {"web_lift_mm", "max"}), error_of(summary, "web_lift_mm")};
    record.thinning_percent = {
        number_at(edge, {"thinning_percent", "max"}), error_of(summary, "thinning_percent")};
    const auto edge_error = error_of(summary, "edge_strain_log");
    record.edge_stretch_percent = {
        tables::stretch_percent(edge_strain),
        edge_error ? std::optional(100 * std::exp(edge_strain) * *edge_error) : std::nullopt};
    record.flange_depth_mm = {number_at(last, {"flange_depth_mm", "mean"}), std::nullopt};
}

material::DataGrade grade_of(const std::string& word) {
    using material::DataGrade;
    for (const DataGrade grade :
         {DataGrade::coupon, DataGrade::published, DataGrade::typical, DataGrade::assumed}) {
        if (material::word_for(grade) == word) {
            return grade;
        }
    }
    return DataGrade::unknown;
}

void read_limits(const Json& summary, RunRecord& record) {
    const Json& limits = at(summary, {"verdict", "limits"});
    if (!limits.is_array()) {
        return;
    }
    for (const Json& each : limits) {
        findings::LimitUse use;
        use.place = text_at(each, {"place"});
        use.allowed = number_at(each, {"allowed"});
        use.share = number_at(each, {"share"});
        const Json& is_needed = at(each, {"is_needed"});
        use.is_needed = !is_needed.is_boolean() || is_needed.get<bool>();
        use.grade = grade_of(text_at(each, {"data_grade"}));
        record.limits.push_back(use);
    }
}

/// Angle and springback at the end; the edge's share of the step that used most since the sheet was
/// last soft, among those with a bent lip.
void read_lip(const Json& steps, RunRecord& record) {
    std::optional<double> used;
    for (const Json& step : steps) {
        if (!at(step, {"lip"}).is_object()) {
            continue;
        }
        record.lip_angle_deg.value = number_at(step, {"lip", "angle_deg_middle", "mean"});
        const auto springback = number_at(step, {"lip", "springback_deg_middle", "mean"});
        if (springback) {
            record.lip_springback_deg.value = springback;
        }
        const auto here = number_at(step, {"edge_strain_used_log", "max"});
        used = here ? std::max(used.value_or(*here), *here) : used;
    }
    const auto edge =
        std::ranges::find(record.limits, findings::edge_place, &findings::LimitUse::place);
    if (used && edge != record.limits.end() && edge->allowed && *edge->allowed > 0) {
        record.lip_edge_share.value = std::max(std::expm1(*used), 0.0) / *edge->allowed;
    }
}

std::vector<std::string> cells_of(const std::string& line) {
    std::vector<std::string> cells;
    std::istringstream rest(line);
    for (std::string cell; std::getline(rest, cell, ',');) {
        cells.push_back(cell);
    }
    return cells;
}

std::optional<double> number_in(const std::vector<std::string>& cells, std::size_t column) {
    double value = 0;
    if (column >= cells.size() || cells[column].empty()) {
        return std::nullopt;
    }
    const char* end = cells[column].data() + cells[column].size();
    const auto outcome = std::from_chars(cells[column].data(), end, value);
    return outcome.ec == std::errc() && std::isfinite(value) ? std::optional(value) : std::nullopt;
}

/// A step of stations.csv is a run of rows in which the station grows.
struct StationRows {
    std::vector<std::vector<std::vector<std::string>>> steps;
    std::vector<std::string> head;

    [[nodiscard]] std::size_t column(std::string_view name) const {
        return static_cast<std::size_t>(std::ranges::find(head, name) - head.begin());
    }
    [[nodiscard]] Curve curve(std::size_t step, std::string_view name) const {
        Curve curve;
        for (const auto& row : steps[step]) {
            const auto station = number_in(row, column("station_mm"));
            const auto value = number_in(row, column(name));
            if (station && value) {
                curve.station.push_back(*station);
                curve.value.push_back(*value);
            }
        }
        return curve;
    }
};

StationRows station_rows(const fs::path& file) {
    std::ifstream stream(file);
    StationRows rows;
    std::string line;
    std::getline(stream, line);
    rows.head = cells_of(line);
    double before = 0;
    while (std::getline(stream, line)) {
        std::vector<std::string> cells = cells_of(line);
        const double station = number_in(cells, rows.column("station_mm")).value_or(0);
        if (rows.steps.empty() || station <= before) {
            rows.steps.emplace_back();
        }
        before = station;
        rows.steps.back().push_back(std::move(cells));
    }
    return rows;
}

void read_curves(const fs::path& folder, const Json& steps, RunRecord& record) {
    const StationRows rows = station_rows(folder / "stations.csv");
    const std::size_t edge = step_of_edge(steps);
    if (rows.steps.size() == steps.size()) {
        record.edge_stretch = rows.curve(edge, "edge_stretch_percent");
        record.flange_angle = rows.curve(rows.steps.size() - 1, "flange_angle_deg");
    }
    const fs::path shape =
        folder / "steps" / fmt::format("{}-{}.vtu", steps.size(), text_at(steps.back(), {"name"}));
    std::error_code ignored;
    if (fs::is_regular_file(shape, ignored)) {
        record.last_shape = shape;
    }
}

std::string last_line_of(const fs::path& file) {
    std::ifstream stream(file);
    std::string last;
    for (std::string line; std::getline(stream, line);) {
        last = line.empty() ? last : line;
    }
    // "     0.12 s  trouble writing ...": the time is of no use here.
    const std::size_t behind_time = last.find(" s  ");
    return behind_time == std::string::npos ? last : last.substr(behind_time + 4);
}

/// Why there is no summary.
RunRecord without_summary(const fs::path& folder) {
    RunRecord record;
    std::error_code ignored;
    if (fs::exists(folder / "run.log.part", ignored)) {
        record.reason = "stopped or killed before its end; the same command goes on";
    } else if (fs::exists(folder / "run.log", ignored)) {
        record.end = RunEnd::failed;
        record.reason = last_line_of(folder / "run.log");
    } else {
        record.reason = "not run yet";
    }
    return record;
}

std::string step_reached(const Json& steps) {
    if (steps.empty()) {
        return "before the first step was finished";
    }
    return fmt::format(
        "in {}, at {} deg",
        text_at(steps.back(), {"name"}),
        shown_number(number_at(steps.back(), {"angle_reached_deg"}).value_or(0), 1)
    );
}

Json summary_of(const fs::path& folder) {
    std::ifstream stream(folder / "summary.json");
    return stream ? Json::parse(stream, nullptr, false) : Json();
}

} // namespace

std::string word_for(RunEnd end) {
    switch (end) {
    case RunEnd::done:
        return "done";
    case RunEnd::no_equilibrium:
        return "no equilibrium";
    case RunEnd::failed:
        return "failed";
    case RunEnd::missing:
        break;
    }
    return "not run";
}

RunRecord read_run(const fs::path& folder, const std::string& run_mark) {
    const Json summary = summary_of(folder);
    if (!summary.is_object()) {
        return without_summary(folder);
    }
    RunRecord record;
    if (text_at(summary, {"case", "run_mark"}) != run_mark) {
        std::error_code ignored;
        if (fs::exists(folder / "run.log.part", ignored)) {
            return without_summary(folder);
        }
        record.reason = "the folder holds a run of another case, version or set of options";
        return record;
    }
    const std::string reason = text_at(summary, {"solve", "reason"});
    const Json& steps = steps_of(summary);
    if (reason != "done" || steps.empty()) {
        const bool is_stop = reason == "stopped by the user";
        record.end = is_stop ? RunEnd::missing : RunEnd::no_equilibrium;
        record.reason = (is_stop ? "stopped " : "no equilibrium ") + step_reached(steps);
        return record;
    }
    record.end = RunEnd::done;
    record.verdict = text_at(summary, {"verdict", "word"});
    record.because = text_at(summary, {"verdict", "because"});
    record.data_grade = text_at(summary, {"verdict", "data_grade"});
    record.error_meaning = error_meaning(summary);
    read_figures(summary, record);
    read_limits(summary, record);
    read_lip(steps, record);
    read_help(summary, record);
    read_curves(folder, steps, record);
    return record;
}

void tell_depth_left(const job::Job& job, RunRecord& record) {
    if (record.end == RunEnd::done) {
        record.depth_left_mm.value = findings::depth_left(job, record.limits);
    }
}

} // namespace flangewright::compare
