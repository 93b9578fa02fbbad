#include "io/build_log/prediction.hpp"

#include "io/tables/json_figures.hpp"
#include "io/tables/verdict_words.hpp"
#include "io/units/angle.hpp"

#include <algorithm>
#include <charconv>

namespace flangewright::build_log {

namespace {

using key_file::InputProblem;
using tables::Json;

constexpr double beyond_end = 0.05; // mm: a rule laid to the cut end

std::vector<std::string_view> split(std::string_view line, char separator) {
    std::vector<std::string_view> parts;
    while (true) {
        const std::size_t end = line.find(separator);
        parts.push_back(line.substr(0, end));
        if (end == std::string_view::npos) {
            return parts;
        }
        line.remove_prefix(end + 1);
    }
}

/// A row of stations.csv by the names of its columns.
class Row {
public:
    Row(const std::vector<std::string_view>& names, std::string_view line)
        : names_(names), cells_(split(line, ',')) {}

    [[nodiscard]] bool is_whole() const { return cells_.size() == names_.size(); }
    [[nodiscard]] std::string_view text(std::string_view name) const {
        const auto found = std::ranges::find(names_, name);
        return found == names_.end() ? std::string_view()
                                     : cells_[static_cast<std::size_t>(found - names_.begin())];
    }
    [[nodiscard]] std::optional<double> number(std::string_view name) const {
        const std::string_view cell = text(name);
        double value = 0;
        const char* end = cell.data() + cell.size();
        const auto outcome = std::from_chars(cell.data(), end, value);
        return outcome.ec == std::errc() && outcome.ptr == end ? std::optional(value)
                                                               : std::nullopt;
    }

private:
    const std::vector<std::string_view>& names_;
    std::vector<std::string_view> cells_;
};

/// The rows of each step: a new one begins where the name changes or stations begin again.
bool take_stations(std::string_view text, Prediction& prediction) {
    std::vector<std::string_view> lines = split(text, '\n');
    const std::vector<std::string_view> names = split(lines.front(), ',');
    std::size_t step = 0;
    for (std::size_t i = 1; i < lines.size(); ++i) {
        if (lines[i].empty()) {
            continue;
        }
        const Row row(names, lines[i]);
        if (!row.is_whole() || !row.number("station_mm") || !row.number("flange_angle_deg")) {
            return false;
        }
        const double station = *row.number("station_mm");
        const auto is_of = [&](std::size_t at) {
            return prediction.steps[at].name == row.text("step")
                && (prediction.steps[at].stations.empty()
                    || prediction.steps[at].stations.back().station < station);
        };
        while (step < prediction.steps.size() && !is_of(step)) {
            ++step;
        }
        if (step == prediction.steps.size()) {
            return false;
        }
        prediction.steps[step].stations.push_back(
            {station,
             units::radians(*row.number("flange_angle_deg")),
             row.number("edge_stretch_percent").value_or(0) / 100,
             row.number("edge_thickness_mm").value_or(0),
             row.number("web_gap_mm").value_or(0)}
        );
        const double thickness = row.number("least_thickness_mm").value_or(0);
        double& least = prediction.steps[step].least_thickness;
        least = least == 0 ? thickness : std::min(least, thickness);
    }
    return true;
}

Prediction taken_summary(const Json& summary) {
    Prediction prediction;
    prediction.title = summary.at("case").at("title").get<std::string>();
    prediction.date = summary.at("case").at("date").get<std::string>();
    prediction.is_finished = summary.at("solve").at("reason") == "done";
    prediction.edge_finish = summary.at("edge_finish").at("as_cut").get<std::string>();
    const Json& trimmed = summary.at("edge_finish").at("trimmed");
    prediction.trimmed_finish = trimmed.is_null() ? std::string() : trimmed.get<std::string>();
    const Json& verdict = summary.at("verdict");
    const Json& share = verdict.at("share_used");
    prediction.verdict = tables::verdict_words(
        verdict.at("word").get<std::string>(),
        share.is_null() ? std::nullopt : std::optional(share.get<double>())
    );
    prediction.because = verdict.at("because").get<std::string>();
    for (const Json& each : summary.at("steps")) {
        StepPrediction step;
        step.name = each.at("name").get<std::string>();
        step.angle = units::radians(each.at("flange_angle_deg_middle").at("mean").get<double>());
        step.web_lift = each.at("web_lift_mm").at("max").get<double>();
        prediction.steps.push_back(step);
    }
    return prediction;
}

InputProblem damaged(const std::string& folder, const std::string& name) {
    return {
        folder,
        0,
        0,
        name,
        "something else than this program writes",
        "the results of a run as they were written",
        "run the case again: flangewright run"};
}

} // namespace

std::optional<double> StepPrediction::at(double station, double StationPrediction::*figure) const {
    if (stations.empty() || station < stations.front().station - beyond_end
        || station > stations.back().station + beyond_end) {
        return std::nullopt;
    }
    const auto after = std::ranges::lower_bound(stations, station, {}, &StationPrediction::station);
    if (after == stations.begin()) {
        return stations.front().*figure;
    }
    if (after == stations.end()) {
        return stations.back().*figure;
    }
    const StationPrediction& before = *(after - 1);
    const double share = (station - before.station) / (after->station - before.station);
    return before.*figure + share * ((*after).*figure - before.*figure);
}

std::optional<double> StepPrediction::mean_edge_stretch(double from, double to) const {
    // Even steps between the marks: finer than any mesh needs.
    constexpr int n = 40;
    double sum = 0;
    if (!at(from, &StationPrediction::edge_stretch) || !at(to, &StationPrediction::edge_stretch)) {
        return std::nullopt;
    }
    for (int i = 0; i < n; ++i) {
        const auto stretch =
            at(from + (to - from) * (i + 0.5) / n, &StationPrediction::edge_stretch);
        if (!stretch) {
            return std::nullopt;
        }
        sum += *stretch;
    }
    return sum / n;
}

Result<Prediction, InputProblem>
prediction_from(std::string_view summary, std::string_view stations, const std::string& folder) {
    const Json read = Json::parse(summary, nullptr, false);
    if (read.is_discarded()) {
        return tl::unexpected(damaged(folder, "summary.json"));
    }
    Prediction prediction;
    try {
        prediction = taken_summary(read);
    } catch (const Json::exception&) { // a key that is missing or of another kind
        return tl::unexpected(damaged(folder, "summary.json"));
    }
    if (!take_stations(stations, prediction)) {
        return tl::unexpected(damaged(folder, "stations.csv"));
    }
    return prediction;
}

} // namespace flangewright::build_log
