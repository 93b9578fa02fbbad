// Holes, notches and tabs of [blank], each in braces of its own.
#include "io/case_file/sections.hpp"

namespace flangewright::case_file {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;

constexpr std::size_t most_of_a_kind = 100;

key_file::ValueRule
length_rule(const std::string& key, double lowest, double highest, const std::string& reason) {
    return {
        .key = key,
        .measure = Measure::length,
        .lowest = lowest,
        .highest = highest,
        .reason = reason,
        .remedy = "check the unit against the drawing"};
}

key_file::ValueRule station_rule(const std::string& key, const std::string& of) {
    return length_rule(key, 0, 3000, of + ", along the bend line from its start");
}

/// The tables of a list; none after a problem.
std::vector<TableReader> list_of(TableReader& table, const std::string& key) {
    std::optional<std::vector<TableReader>> list = table.tables(key, Need::optional);
    if (!list) {
        return {};
    }
    if (list->size() > most_of_a_kind) {
        table.object(key, "at most 100 of a kind", "leave out those far from the bend");
        return {};
    }
    return *list;
}

/// Signed distance from `web` or `flange`, one of which is written.
std::optional<double> read_distance(TableReader& table) {
    if (table.has("web") == table.has("flange")) {
        table.object_all(
            table.has("web") ? "both web and flange" : "neither web nor flange",
            "one of them: the hole's centre off the bend tangent, in the flat",
            "write web = 20 for a hole 20 into the web, flange = 8 for one in the flange"
        );
        return std::nullopt;
    }
    const bool is_web = table.has("web");
    const std::optional<double> off = table.value(length_rule(
        is_web ? "web" : "flange", 0.5, 1000, "centre off the bend tangent, in the flat"
    ));
    return off ? std::optional(is_web ? -*off : *off) : std::nullopt;
}

std::vector<Written<outline::Hole>> read_holes(TableReader& table) {
    std::vector<Written<outline::Hole>> holes;
    for (TableReader& each : list_of(table, "holes")) {
        const auto station = each.value(station_rule("station", "the centre"));
        const std::optional<double> distance = read_distance(each);
        const auto diameter =
            each.value(length_rule("diameter", 0.5, 500, "of the hole as drilled or cut"));
        const bool is_pin = each.flag("pin");
        each.finish();
        if (station && distance && diameter) {
            holes.push_back({{*station, *distance, *diameter, is_pin}, {each}});
        }
    }
    return holes;
}

std::vector<Written<outline::Notch>> read_notches(TableReader& table) {
    std::vector<Written<outline::Notch>> notches;
    for (TableReader& each : list_of(table, "notches")) {
        const auto station = each.value(station_rule("station", "its middle"));
        const auto width =
            each.value(length_rule("width", 0.5, 200, "of the slot; its bottom is half round"));
        const auto depth = each.value(
            length_rule("depth", 0.25, 300, "from the flat edge to the bottom of the round")
        );
        each.finish();
        if (station && width && depth) {
            notches.push_back({{*station, *width, *depth}, {each}});
        }
    }
    return notches;
}

std::vector<Written<outline::Tab>> read_tabs(TableReader& table) {
    std::vector<Written<outline::Tab>> tabs;
    for (TableReader& each : list_of(table, "tabs")) {
        const auto begin = each.value(station_rule("from", "where it begins"));
        const auto end = each.value(station_rule("to", "where it ends"));
        const auto height =
            each.value(length_rule("height", 0.5, 200, "beyond the flat edge beside it"));
        each.finish();
        if (begin && end && height) {
            tabs.push_back({{*begin, *end, *height}, {each}});
        }
    }
    return tabs;
}

} // namespace

OpeningsSection read_openings(TableReader& table) {
    return {read_holes(table), read_notches(table), read_tabs(table)};
}

} // namespace flangewright::case_file
