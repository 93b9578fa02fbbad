#include "io/sheet_library/yield_reader.hpp"

#include "io/sheet_library/hardening_reader.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace flangewright::sheet_library {

namespace {

using key_file::Need;
using key_file::TableReader;
using material::LawParameter;
using material::LawValues;
using material::YieldEntry;

constexpr const char* isotropic = "von_mises";

const YieldEntry* chosen_law(TableReader& table) {
    std::vector<std::string> names;
    for (const YieldEntry& entry : material::yield_laws()) {
        names.push_back(entry.name);
    }
    const std::optional<std::string> name = table.word("law", names, Need::required);
    const auto found = name ? std::ranges::find(names, *name) : names.end();
    return found == names.end()
        ? nullptr
        : &material::yield_laws()[static_cast<std::size_t>(found - names.begin())];
}

std::optional<LawValues> read_values(TableReader& table, const YieldEntry& entry) {
    LawValues values;
    for (const LawParameter& parameter : entry.parameters) {
        const auto list = table.values(
            {.key = parameter.name,
             .lowest = parameter.lowest,
             .highest = parameter.highest,
             .reason = parameter.meaning,
             .remedy = "check the number against its source"}
        );
        if (!list) {
            continue;
        }
        if (!parameter.is_list && list->size() != 1) {
            table.object_found(
                parameter.name,
                fmt::format("{} numbers", list->size()),
                "one number",
                "write " + parameter.meaning
            );
            continue;
        }
        values[parameter.name] = *list;
    }
    if (values.size() != entry.parameters.size()) {
        return std::nullopt;
    }
    if (entry.objection != nullptr) {
        if (const auto objection = entry.objection(values)) {
            table.object_found(
                objection->first,
                fmt::format("{:g}", fmt::join(values.at(objection->first), ", ")),
                objection->second,
                "check the numbers against their source"
            );
            return std::nullopt;
        }
    }
    return values;
}

bool has_back_stress_beside(
    TableReader& table, const YieldEntry& entry, const material::SheetMaterial& material
) {
    if (entry.name == isotropic || material.back_stresses.empty()) {
        return false;
    }
    table.object_found(
        "law",
        fmt::format("\"{}\" for a sheet with back stresses", entry.name),
        fmt::format("\"{}\" beside back stresses", isotropic),
        "leave out either [yield] or [hardening.back_stress]"
    );
    return true;
}

} // namespace

void read_yield(TableReader& material_table, material::SheetMaterial& material) {
    std::optional<TableReader> table = material_table.table("yield", Need::optional);
    if (!table) {
        return;
    }
    const material::DataGrade grade = read_grade(*table);
    const std::string source = read_source(*table);
    const YieldEntry* entry = chosen_law(*table);
    if (entry == nullptr) {
        return; // which keys belong to it is not known, so none is called unknown
    }
    const std::optional<LawValues> values = read_values(*table, *entry);
    table->finish();
    if (!values || has_back_stress_beside(*table, *entry, material)) {
        return;
    }
    material.yield_name = entry->name;
    material.yield_values = *values;
    material.yield_grade = grade;
    material.yield_source = source;
    if (entry->name != isotropic) { // which has an update of its own
        material.yield = entry->make(*values);
    }
}

} // namespace flangewright::sheet_library
