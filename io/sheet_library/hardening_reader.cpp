#include "io/sheet_library/hardening_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace flangewright::sheet_library {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;
using key_file::ValueRule;
using material::DataGrade;
using material::HardeningEntry;
using material::LawParameter;
using material::LawValues;

constexpr std::array grades{
    DataGrade::coupon,
    DataGrade::published,
    DataGrade::typical,
    DataGrade::assumed,
    DataGrade::unknown};

Measure measure_of(material::Quantity quantity) {
    switch (quantity) {
    case material::Quantity::stress:
        return Measure::stress;
    case material::Quantity::strain:
        return Measure::strain;
    case material::Quantity::number:
        return Measure::number;
    }
    return Measure::number;
}

const HardeningEntry* chosen_law(TableReader& table) {
    std::vector<std::string> names;
    for (const HardeningEntry& entry : material::hardening_laws()) {
        names.push_back(entry.name);
    }
    const std::optional<std::string> name = table.word("law", names, Need::required);
    if (!name) {
        return nullptr;
    }
    const auto found = std::find(names.begin(), names.end(), *name);
    return &material::hardening_laws()[static_cast<std::size_t>(found - names.begin())];
}

std::optional<LawValues> read_law_values(TableReader& table, const HardeningEntry& entry) {
    LawValues values;
    for (const LawParameter& parameter : entry.parameters) {
        const ValueRule rule{
            .key = parameter.name,
            .measure = measure_of(parameter.quantity),
            .lowest = parameter.lowest,
            .highest = parameter.highest,
            .reason = parameter.meaning,
            .remedy = "check the value and its unit against the data sheet"};
        if (parameter.is_list) {
            if (const auto list = table.values(rule)) {
                values[parameter.name] = *list;
            }
        } else if (const auto single = table.value(rule)) {
            values[parameter.name] = {*single};
        }
    }
    if (values.size() != entry.parameters.size()) {
        return std::nullopt;
    }
    if (entry.objection != nullptr) {
        if (const auto objection = entry.objection(values)) {
            table.object(objection->first, objection->second, "check the curve point by point");
            return std::nullopt;
        }
    }
    return values;
}

// "[0, 0.14]", or nothing.
std::optional<material::StrainRange> read_fitted_to(TableReader& table) {
    const std::optional<std::vector<double>> ends = table.values(
        {.key = "fitted_to",
         .measure = Measure::strain,
         .lowest = 0,
         .highest = 2,
         .reason = "plastic strain from and to which the curve was fitted",
         .remedy = "write it like [0, 0.14]",
         .need = Need::optional}
    );
    if (!ends) {
        return std::nullopt;
    }
    if (ends->size() != 2 || (*ends)[0] >= (*ends)[1]) {
        table.object("fitted_to", "two plastic strains that grow", "write it like [0, 0.14]");
        return std::nullopt;
    }
    return material::StrainRange{(*ends)[0], (*ends)[1]};
}

ValueRule stiffness_rule() {
    return {
        .key = "stiffness",
        .measure = Measure::stress,
        .lowest = 1,
        .highest = 500'000,
        .reason =
            "slope at which a back stress starts; sheet metals: from some hundred MPa to a few "
            "times the Young's modulus",
        .remedy = "check the value and its unit; stiffness over recall rate is what it grows to"};
}

ValueRule recall_rule() {
    return {
        .key = "recall_rate",
        .measure = Measure::number,
        .lowest = 0,
        .highest = 100'000,
        .reason = "how fast a back stress stops growing, per unit plastic strain; 0 never stops",
        .remedy = "write the rate as a plain number, 100 reaches two thirds at a strain of 1 %"};
}

void read_back_stress(TableReader& hardening_table, material::SheetMaterial& material) {
    std::optional<TableReader> table = hardening_table.table("back_stress", Need::optional);
    if (!table) {
        return;
    }
    const std::optional<std::vector<double>> stiffness = table->values(stiffness_rule());
    const std::optional<std::vector<double>> recall = table->values(recall_rule());
    material.back_stress_grade = read_grade(*table);
    material.back_stress_source = read_source(*table);
    table->finish();
    if (!stiffness || !recall) {
        return;
    }
    if (stiffness->empty() || stiffness->size() > material::n_back_stresses_most) {
        table->object_found(
            "stiffness",
            fmt::format("{} values", stiffness->size()),
            "one to three back stresses",
            stiffness->empty() ? "leave the section out for isotropic hardening"
                               : "leave out those that matter least"
        );
    } else if (stiffness->size() != recall->size()) {
        table->object(
            "recall_rate", "as many values as stiffnesses", "write one rate for each back stress"
        );
    } else {
        for (std::size_t i = 0; i < stiffness->size(); ++i) {
            material.back_stresses.push_back({(*stiffness)[i], (*recall)[i]});
        }
    }
}

} // namespace

DataGrade read_grade(TableReader& table) {
    std::vector<std::string> words;
    words.reserve(grades.size());
    for (const DataGrade grade : grades) {
        words.push_back(material::word_for(grade));
    }
    const std::optional<std::string> word = table.word("grade", words, Need::optional);
    const auto found = word ? std::find(words.begin(), words.end(), *word) : words.end();
    return found == words.end() ? DataGrade::unknown
                                : grades[static_cast<std::size_t>(found - words.begin())];
}

std::string read_source(TableReader& table) {
    return table.text("source", Need::optional).value_or("source not given");
}

void read_hardening(TableReader& material_table, material::SheetMaterial& material) {
    std::optional<TableReader> table = material_table.table("hardening", Need::required);
    if (!table) {
        return;
    }
    material.curve_grade = read_grade(*table);
    material.curve_source = read_source(*table);
    material.fitted_to = read_fitted_to(*table);
    const HardeningEntry* entry = chosen_law(*table);
    if (entry == nullptr) {
        return; // which keys belong to it is not known, so none is called unknown
    }
    if (const std::optional<LawValues> values = read_law_values(*table, *entry)) {
        material.law_name = entry->name;
        material.law_values = *values;
        material.hardening = entry->make(*values);
    }
    read_back_stress(*table, material);
    table->finish();
}

void read_other_curves(TableReader& material_table, material::SheetMaterial& material) {
    for (const HardeningEntry& entry : material::hardening_laws()) {
        if (!material_table.holds_table(entry.name)) {
            continue;
        }
        std::optional<TableReader> table = material_table.table(entry.name, Need::optional);
        material::OtherCurve curve;
        curve.law_name = entry.name;
        curve.grade = read_grade(*table);
        curve.source = read_source(*table);
        curve.fitted_to = read_fitted_to(*table);
        const std::optional<LawValues> values = read_law_values(*table, entry);
        table->finish();
        if (entry.name == material.law_name) {
            material_table.object_found(
                entry.name,
                "the law of [hardening] once more",
                "another law beside the one that is used",
                "leave this section out"
            );
        } else if (values) {
            curve.law_values = *values;
            curve.law = entry.make(*values);
            material.other_curves.push_back(std::move(curve));
        }
    }
}

} // namespace flangewright::sheet_library
