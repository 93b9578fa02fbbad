#include "io/sheet_library/material_reader.hpp"

#include "io/sheet_library/hardening_reader.hpp"
#include "io/sheet_library/limit_reader.hpp"
#include "io/sheet_library/yield_reader.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::sheet_library {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;
using key_file::ValueRule;
using material::SheetMaterial;
using material::Sourced;

ValueRule elongation_rule(const std::string& key) {
    return {
        .key = key,
        .measure = Measure::percent,
        .lowest = 0.001,
        .highest = 1.0,
        .reason = "engineering strain of a tensile test",
        .remedy = "write the elongation like \"16 %\"",
        .need = Need::optional};
}

struct BendColumns {
    std::optional<std::vector<double>> thickness;
    std::optional<std::vector<double>> ratio;
};

BendColumns read_bend_columns(TableReader& table) {
    return {
        table.values(
            {.key = "thickness",
             .measure = Measure::length,
             .lowest = 0.1,
             .highest = 15,
             .reason = "thickness of each row",
             .remedy = "write one thickness for each row of the bend table"}
        ),
        table.values(
            {.key = "radius_over_thickness",
             .measure = Measure::number,
             .lowest = 0,
             .highest = 20,
             .reason = "smallest inside radius as a multiple of the thickness",
             .remedy = "write the multiple, 3 for 3t"}
        )};
}

void read_bend_limits(TableReader& material_table, SheetMaterial& material) {
    std::optional<TableReader> table = material_table.table("smallest_bend", Need::optional);
    if (!table) {
        return;
    }
    const BendColumns columns = read_bend_columns(*table);
    material.bend_grade = read_grade(*table);
    material.bend_source = read_source(*table);
    table->finish();
    if (!columns.thickness || !columns.ratio) {
        return;
    }
    const std::vector<double>& thickness = *columns.thickness;
    if (thickness.empty()
        || std::adjacent_find(thickness.begin(), thickness.end(), std::greater_equal<>())
            != thickness.end()) {
        table->object("thickness", "thicknesses that grow", "sort the rows by thickness");
    } else if (thickness.size() != columns.ratio->size()) {
        table->object(
            "radius_over_thickness", "as many values as thicknesses", "write one value for each row"
        );
    } else {
        for (std::size_t i = 0; i < thickness.size(); ++i) {
            material.bend_limits.push_back({thickness[i], (*columns.ratio)[i]});
        }
    }
}

// A yield strain this large means a unit slip: no sheet metal stretches 3 % elastically.
void check_yield_against_modulus(TableReader& table, const SheetMaterial& material) {
    constexpr double largest_yield_strain = 0.03;
    if (material.hardening && material.youngs_modulus > 0
        && material.hardening->at(0).stress > largest_yield_strain * material.youngs_modulus) {
        table.object_found(
            "hardening",
            "a curve that starts to flow above 3 % of the Young's modulus",
            "a stress at the start far below the modulus",
            "check the units of the stresses"
        );
    }
}

} // namespace

ValueRule modulus_rule() {
    return {
        .key = "youngs_modulus",
        .measure = Measure::stress,
        .lowest = 20'000,
        .highest = 450'000,
        .reason = "sheet metals lie between magnesium and tungsten",
        .remedy = "check the unit: aluminium is about 70 GPa, steel about 205 GPa"};
}

ValueRule poisson_rule() {
    return {
        .key = "poisson_ratio",
        .measure = Measure::number,
        .lowest = 0.1,
        .highest = 0.45,
        .reason = "sheet metals lie near 0.3",
        .remedy = "write 0.33 for aluminium or 0.29 for steel if no better value is known"};
}

Sourced read_sourced(TableReader& table, const ValueRule& rule) {
    if (!table.holds_table(rule.key)) {
        const std::optional<double> value = table.value(rule);
        return {value, material::DataGrade::unknown, value ? "source not given" : ""};
    }
    std::optional<TableReader> inner = table.table(rule.key, rule.need);
    ValueRule value_rule = rule;
    value_rule.key = "value";
    value_rule.need = Need::required;
    const std::optional<double> value = inner->value(value_rule);
    Sourced sourced{value, read_grade(*inner), read_source(*inner)};
    inner->finish();
    return sourced;
}

std::optional<SheetMaterial> read_material(TableReader& table) {
    SheetMaterial material;
    material.name = table.text("name", Need::optional).value_or("written out in the case file");
    material.note = table.text("note", Need::optional).value_or("");
    const Sourced modulus = read_sourced(table, modulus_rule());
    const Sourced poisson = read_sourced(table, poisson_rule());
    read_hardening(table, material);
    read_yield(table, material);
    material.youngs_modulus = modulus.value.value_or(0);
    material.poisson_ratio = poisson.value.value_or(0);
    material.uniform_elongation = read_sourced(table, elongation_rule("uniform_elongation"));
    material.total_elongation = read_sourced(table, elongation_rule("total_elongation"));
    read_bend_limits(table, material);
    read_other_curves(table, material);
    read_r_values(table, material);
    read_edge_limits(table, material);
    read_forming_limit(table, material);
    check_yield_against_modulus(table, material);
    if (!modulus.value || !poisson.value || !material.hardening) {
        return std::nullopt;
    }
    return material;
}

} // namespace flangewright::sheet_library
