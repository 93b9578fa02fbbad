#include "io/sheet_library/hardening_reader.hpp"

#include <algorithm>
#include <array>

namespace flangewright::sheet_library {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;
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
        const key_file::ValueRule rule{
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
    const HardeningEntry* entry = chosen_law(*table);
    if (entry == nullptr) {
        return; // which keys belong to it is not known, so none is called unknown
    }
    if (const std::optional<LawValues> values = read_law_values(*table, *entry)) {
        material.law_name = entry->name;
        material.law_values = *values;
        material.hardening = entry->make(*values);
    }
    table->finish();
}

} // namespace flangewright::sheet_library
