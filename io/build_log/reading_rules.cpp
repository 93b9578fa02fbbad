#include "io/build_log/reading_rules.hpp"

#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <array>

namespace flangewright::build_log {

namespace {

using key_file::InputProblem;
using Problem = std::optional<InputProblem>;

constexpr double least_gauge = 1; // mm: no eye reads less to a per cent
constexpr double most_gauge = 200; // mm
constexpr double most_lift = 50; // mm
constexpr double least_stretch = -0.3;
constexpr double most_stretch = 2;
constexpr double station_play = 0.05; // mm past an end of the line

std::string mm(const std::optional<double>& value) {
    return fmt::format("{:.4g} mm", value.value_or(0));
}

std::string deg(const std::optional<double>& value) {
    return fmt::format("{:.4g} deg", units::degrees(value.value_or(0)));
}

/// A figure that was read, as the user would write it, and what it may be.
struct Bounded {
    const char* key;
    std::optional<double> value;
    std::string shown;
    std::array<double, 2> range;
    std::string allowed;
};

Problem outside(const Bounded& figure, const std::string& file, int line) {
    if (!figure.value || (*figure.value >= figure.range[0] && *figure.value <= figure.range[1])) {
        return std::nullopt;
    }
    return InputProblem{
        file,
        line,
        0,
        figure.key,
        figure.shown,
        figure.allowed,
        "measure it again, check the unit in the column's name, or leave the cell empty"};
}

std::array<Bounded, 5> bounded(const Reading& reading, const MeasuredPart& part) {
    const double t = part.thickness;
    return {
        Bounded{
            "station",
            reading.station,
            mm(reading.station),
            {-station_play, part.length * (1 + 1e-6) + station_play},
            fmt::format("0 to {:.4g} mm, the length of the bend line", part.length)},
        Bounded{
            "angle",
            reading.angle,
            deg(reading.angle),
            {0, units::radians(180)},
            "0 to 180 deg, turned through: 90 is square"},
        Bounded{
            "thickness",
            reading.thickness,
            mm(reading.thickness),
            {0.3 * t, 1.5 * t},
            fmt::format("0.3 to 1.5 of the sheet's {:.4g} mm", t)},
        Bounded{
            "web_lift",
            reading.web_lift,
            mm(reading.web_lift),
            {0, most_lift},
            fmt::format("0 to {:g} mm", most_lift)},
        Bounded{
            "before",
            reading.before,
            mm(reading.before),
            {least_gauge, most_gauge},
            fmt::format("{:g} to {:g} mm", least_gauge, most_gauge)}};
}

Problem marks_problem(const Reading& reading, const std::string& file) {
    if (reading.after && !reading.before) {
        return InputProblem{
            file,
            reading.line,
            0,
            "before",
            "nothing, though after is there",
            "the distance of the marks before forming",
            "write it, or leave both empty"};
    }
    if (!reading.has_marks()) {
        return std::nullopt;
    }
    if (!reading.station) {
        return InputProblem{
            file,
            reading.line,
            0,
            "station",
            "nothing, though marks were measured",
            "the station half way between both marks",
            "write it like 40"};
    }
    return outside(
        {"after",
         reading.stretch(),
         fmt::format("{:.4g} mm from {:.4g} mm", *reading.after, *reading.before),
         {least_stretch, most_stretch},
         fmt::format("a stretch of {:g} to {:g} %", 100 * least_stretch, 100 * most_stretch)},
        file,
        reading.line
    );
}

} // namespace

std::optional<InputProblem>
problem_of(const Reading& reading, const MeasuredPart& part, const std::string& file) {
    for (const Bounded& figure : bounded(reading, part)) {
        if (Problem problem = outside(figure, file, reading.line)) {
            return problem;
        }
    }
    return marks_problem(reading, file);
}

} // namespace flangewright::build_log
