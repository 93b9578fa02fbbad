// A value that varies along the bend line: pairs of station and value.
#include "io/case_file/sections.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace flangewright::case_file {

namespace {

using key_file::Measure;
using key_file::TableReader;
using key_file::ValueRule;

using Pairs = std::vector<std::array<double, 2>>;

constexpr double least_apart = 0.5; // mm; nearer stations are a step, not a slope

bool is_in_order(const Pairs& pairs, const std::string& key, TableReader& table) {
    for (std::size_t i = 1; i < pairs.size(); ++i) {
        if (!(pairs[i][0] >= pairs[i - 1][0] + least_apart)) {
            table.object_found(
                key,
                fmt::format("a station at pair {} that does not lie past the one before", i + 1),
                "stations that rise by 0.5 mm or more",
                "give the pairs from the line's start on; round a step off over some length"
            );
            return false;
        }
    }
    return true;
}

} // namespace

std::optional<outline::Profile> read_profile(TableReader& table, const ValueRule& rule) {
    constexpr std::size_t most_pairs = 100;
    const ValueRule station{
        .key = rule.key,
        .measure = Measure::length,
        .lowest = 0,
        .highest = 3000,
        .reason = "station, along the bend line from its start",
        .remedy = "write pairs [station, value], stations from the line's start on"};
    const std::optional<Pairs> pairs = table.pairs(station, rule);
    if (!pairs) {
        return std::nullopt;
    }
    if (pairs->empty() || pairs->size() > most_pairs) {
        table.object_found(
            rule.key,
            fmt::format("{} pairs", pairs->size()),
            "1 to 100 pairs [station, value]",
            "give station and value wherever the slope changes"
        );
        return std::nullopt;
    }
    if (!is_in_order(*pairs, rule.key, table)) {
        return std::nullopt;
    }
    std::vector<outline::ProfilePoint> points;
    for (const std::array<double, 2>& pair : *pairs) {
        points.push_back({pair[0], pair[1]});
    }
    return outline::Profile(std::move(points));
}

ValueAlong read_value_along(TableReader& table, const ValueRule& rule) {
    if (!table.holds_list(rule.key)) {
        return {table.value(rule), {}};
    }
    const std::optional<outline::Profile> profile = read_profile(table, rule);
    if (!profile) {
        return {};
    }
    const bool varies = profile->most() > profile->least();
    return {profile->most(), varies ? *profile : outline::Profile{}};
}

} // namespace flangewright::case_file
