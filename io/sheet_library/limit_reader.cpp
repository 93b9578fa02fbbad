#include "io/sheet_library/limit_reader.hpp"

#include "io/sheet_library/hardening_reader.hpp"
#include "io/sheet_library/material_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace flangewright::sheet_library {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;
using key_file::ValueRule;
using material::SheetMaterial;

// Minor over major strain of a strip in tension with r = 4, which no sheet passes.
constexpr double narrowest = 0.8;

ValueRule r_rule(const std::string& key) {
    return {
        .key = key,
        .measure = Measure::number,
        .lowest = 0.05,
        .highest = 5,
        .reason = "width strain over thickness strain; aluminium 0.4 to 1, mild steel 1 to 2.5",
        .remedy = "check that it is width over thickness",
        .need = Need::optional};
}

ValueRule edge_rule(const std::string& key) {
    return {
        .key = key,
        .measure = Measure::percent,
        .lowest = 0.005,
        .highest = 3,
        .reason = "engineering strain of the edge along itself",
        .remedy = "write the stretch like \"10 %\"",
        .need = Need::optional};
}

ValueRule strain_rule(const std::string& key, double lowest, double highest) {
    return {
        .key = key,
        .measure = Measure::strain,
        .lowest = lowest,
        .highest = highest,
        .reason = "true (logarithmic) strain",
        .remedy = "check that it is a true strain, written like 0.25",
        .need = Need::optional};
}

ValueRule direction_rule() {
    return {
        .key = "direction",
        .measure = Measure::angle,
        .lowest = 0,
        .highest = 90,
        .reason = "from the rolling direction to that of the major strain",
        .remedy = "write it in degrees like 90, or leave it out for along the rolling direction",
        .need = Need::optional};
}

/// What is wrong with a point, after one before it; nothing when it can be one of a forming limit.
struct PointProblem {
    std::string found;
    std::string allowed;
    std::string remedy;
};

std::optional<PointProblem>
problem_of(const material::FormingPoint& point, const material::FormingPoint* before) {
    const std::string written = fmt::format("[{:g}, {:g}]", point.minor, point.major);
    if (before != nullptr && point.minor <= before->minor) {
        return PointProblem{
            written + fmt::format(" after [{:g}, {:g}]", before->minor, before->major),
            "minor strains that grow",
            "sort the points by minor strain"};
    }
    if (point.minor > point.major) {
        return PointProblem{
            written,
            "pairs of minor and major strain, the major one not below the minor one",
            "write the minor strain first"};
    }
    if (point.minor < -narrowest * point.major) {
        return PointProblem{
            written,
            "points that thin the sheet: a minor strain of -0.8 times the major one at least",
            "leave out points pressed together: no tension makes a sheet so narrow, and it does "
            "not neck there"};
    }
    return std::nullopt;
}

std::vector<material::FormingPoint> read_points(TableReader& table) {
    const auto pairs = table.pairs(strain_rule("points", -1, 1), strain_rule("points", 0.001, 2));
    std::vector<material::FormingPoint> points;
    for (const auto& [minor, major] : pairs.value_or(std::vector<std::array<double, 2>>{})) {
        const material::FormingPoint point{minor, major};
        const auto problem = problem_of(point, points.empty() ? nullptr : &points.back());
        if (problem) {
            table.object_found("points", problem->found, problem->allowed, problem->remedy);
            return {};
        }
        points.push_back(point);
    }
    return points;
}

} // namespace

void read_r_values(TableReader& material_table, SheetMaterial& material) {
    std::optional<TableReader> table = material_table.table("r_values", Need::optional);
    if (!table) {
        return;
    }
    material::RValues values;
    values.r0 = table->value(r_rule("r0"));
    values.r45 = table->value(r_rule("r45"));
    values.r90 = table->value(r_rule("r90"));
    values.grade = read_grade(*table);
    values.source = read_source(*table);
    table->finish();
    if (values.r0 || values.r45 || values.r90) {
        material.r_values = std::move(values);
    }
}

void read_edge_limits(TableReader& material_table, SheetMaterial& material) {
    std::optional<TableReader> table = material_table.table("edge_limit", Need::optional);
    if (!table) {
        return;
    }
    for (const material::EdgeFinish finish : material::edge_finishes) {
        material::Sourced limit = read_sourced(*table, edge_rule(material::word_for(finish)));
        if (limit.value) {
            material.edge_limits[finish] = std::move(limit);
        }
    }
    table->finish();
}

void read_forming_limit(TableReader& material_table, SheetMaterial& material) {
    std::optional<TableReader> table = material_table.table("forming_limit", Need::optional);
    if (!table) {
        return;
    }
    material::FormingLimit limit;
    limit.points = read_points(*table);
    limit.grade = read_grade(*table);
    limit.source = read_source(*table);
    limit.flc0 = read_sourced(*table, strain_rule("flc0", 0.005, 1.5));
    limit.direction = table->value(direction_rule()).value_or(0);
    table->finish();
    if (!limit.points.empty() || limit.flc0.value) {
        material.forming_limit = std::move(limit);
    }
}

} // namespace flangewright::sheet_library
