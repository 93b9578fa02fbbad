#include "io/blank_template/outline_table.hpp"

#include "io/tables/shown_length.hpp"

#include <fmt/format.h>

#include <cmath>

namespace flangewright::blank_template {

namespace {

std::vector<double>
stations_of(const TemplateRequest& request, const std::vector<process::DepthAt>& depths) {
    std::vector<double> stations;
    stations.reserve(depths.size());
    for (const process::DepthAt& at : depths) {
        stations.push_back(at.station);
    }
    if (stations.empty()) {
        for (const outline::ProfilePoint& point : request.net.points()) {
            stations.push_back(point.station);
        }
    }
    return stations;
}

} // namespace

std::string outline_table(
    const TemplateRequest& request,
    const std::vector<process::DepthAt>& depths,
    const std::vector<process::DepthAt>& flange_depths
) {
    const std::string unit = tables::unit_word(request.unit);
    const int n_decimals = request.unit == units::LengthUnit::inch ? 4 : 3;
    const auto number = [&](double length) {
        return "," + tables::shown_number(tables::in_unit(length, request.unit), n_decimals);
    };
    const auto heads = [&](const char* what) {
        return fmt::format(",wanted_{1}_{0},formed_{1}_{0}", unit, what);
    };
    const auto cells = [&](const process::DepthAt& at) {
        return number(at.wanted) + number(at.reached) + number(at.miss());
    };
    std::string text = fmt::format("station_{0},net_width_{0},cut_width_{0}", unit);
    if (!depths.empty()) {
        text += heads(flange_depths.empty() ? "depth" : "lip_depth") + ",miss_" + unit;
    }
    if (!flange_depths.empty()) {
        text += heads("flange_depth") + ",flange_miss_" + unit;
    }
    text += "\n";
    const outline::Profile cut = request.cut();
    const std::vector<double> stations = stations_of(request, depths);
    for (std::size_t i = 0; i < stations.size(); ++i) {
        text += number(stations[i]).substr(1) + number(request.net.at(stations[i]))
            + number(cut.at(stations[i]));
        text += i < depths.size() ? cells(depths[i]) : "";
        text += i < flange_depths.size() ? cells(flange_depths[i]) : "";
        text += "\n";
    }
    return text;
}

std::optional<std::string> flat_width_lines(const TemplateRequest& request) {
    constexpr std::size_t most = 100;
    const std::vector<outline::ProfilePoint> points = request.cut().points();
    if (points.size() > most) {
        return std::nullopt;
    }
    std::string text = fmt::format(
        "# For [blank] of the case, {} flange_depth: the blank as cut, to compute it.\n"
        "flat_width = ",
        request.job.return_bend ? "beside" : "in the place of"
    );
    if (points.size() == 1) {
        return text + fmt::format("\"{:.4f} mm\"\n", points.front().value);
    }
    text += "[\n";
    for (const outline::ProfilePoint& point : points) {
        // Down, so that the last station does not lie past the line's end.
        const double station = std::floor(point.station * 1e4) / 1e4;
        text += fmt::format("    [\"{:.4f} mm\", \"{:.4f} mm\"],\n", station, point.value);
    }
    return text + "]\n";
}

} // namespace flangewright::blank_template
