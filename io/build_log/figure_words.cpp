#include "io/build_log/figure_words.hpp"

#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <cmath>

namespace flangewright::build_log {

namespace {

using tables::shown_number;

std::string shown(Figure figure, double value, units::LengthUnit unit) {
    switch (figure) {
    case Figure::angle:
    case Figure::springback:
        return shown_number(units::degrees(value), 1) + " deg";
    case Figure::edge_stretch:
        return shown_number(100 * value, 1) + " %";
    case Figure::web_lift:
    case Figure::thickness:
        break;
    }
    return tables::shown_length(value, unit);
}

/// With its sign; of stretch in points, as a per cent of a per cent would be read otherwise.
std::string shown_difference(const Compared& each, units::LengthUnit unit) {
    const double size = std::abs(each.difference());
    const std::string text = each.figure == Figure::edge_stretch
        ? shown_number(100 * size, 1) + " points"
        : shown(each.figure, size, unit);
    const bool is_nothing = text.find_first_of("123456789") == std::string::npos;
    return (is_nothing ? "" : each.difference() < 0 ? "-" : "+") + text;
}

/// What the whole part's figure is.
const char* of_whole(Figure figure) {
    switch (figure) {
    case Figure::angle:
    case Figure::springback:
        return ", mean";
    case Figure::web_lift:
        return ", largest";
    case Figure::thickness:
        return ", least";
    case Figure::edge_stretch:
        break;
    }
    return "";
}

} // namespace

std::string name_of(Figure figure) {
    switch (figure) {
    case Figure::angle:
        return "flange angle";
    case Figure::springback:
        return "springback";
    case Figure::web_lift:
        return "web lift";
    case Figure::thickness:
        return "thickness";
    case Figure::edge_stretch:
        break;
    }
    return "edge stretch";
}

std::string unit_of(Figure figure) {
    switch (figure) {
    case Figure::angle:
    case Figure::springback:
        return "deg";
    case Figure::edge_stretch:
        return "percent";
    case Figure::web_lift:
    case Figure::thickness:
        break;
    }
    return "mm";
}

double in_own_unit(Figure figure, double value) {
    switch (figure) {
    case Figure::angle:
    case Figure::springback:
        return units::degrees(value);
    case Figure::edge_stretch:
        return 100 * value;
    case Figure::web_lift:
    case Figure::thickness:
        break;
    }
    return value;
}

std::vector<sheet_page::MeasuredRow>
rows_of(const std::vector<Compared>& all, const Prediction& prediction, units::LengthUnit unit) {
    std::vector<sheet_page::MeasuredRow> rows;
    for (const Compared& each : all) {
        const std::string place = each.station
            ? " at station " + tables::brief_length(*each.station, unit)
            : std::string(of_whole(each.figure));
        rows.push_back(
            {fmt::format("{} {}", each.step + 1, prediction.steps[each.step].name),
             name_of(each.figure) + place,
             shown(each.figure, each.predicted, unit),
             shown(each.figure, each.measured, unit),
             shown_difference(each, unit)}
        );
    }
    return rows;
}

} // namespace flangewright::build_log
