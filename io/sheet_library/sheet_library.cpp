#include "io/sheet_library/sheet_library.hpp"

#include "io/key_file/nearest_word.hpp"
#include "io/sheet_library/material_reader.hpp"
#include "mesh/base/check.hpp"

#include <algorithm>

namespace flangewright::sheet_library {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;

// "2024-O", "2024 o" and "2024O" are the same name.
std::string bare_name(std::string_view name) {
    std::string bare;
    for (const char c : name) {
        if (c != ' ' && c != '-' && c != '_') {
            bare += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        }
    }
    return bare;
}

material::Sourced read_stress_value(TableReader& table, const std::string& key, double highest) {
    return read_sourced(
        table,
        {.key = key,
         .measure = Measure::stress,
         .lowest = 1,
         .highest = highest,
         .need = Need::required}
    );
}

KnownSheet read_sheet(const DataFile& file) {
    const auto document = key_file::document_from(file.text, std::string(file.name));
    if (!document) {
        throw InternalError(key_file::line_for(document.error()));
    }
    key_file::Reading reading(document->file);
    TableReader table(reading, document->root, {1, 1}, "");
    KnownSheet sheet;
    sheet.other_names =
        table.texts("other_names", Need::optional).value_or(std::vector<std::string>{});
    sheet.youngs_modulus = read_stress_value(table, "youngs_modulus", 450'000);
    sheet.poisson_ratio = read_sourced(table, {.key = "poisson_ratio", .highest = 0.5});
    sheet.proof_stress = read_stress_value(table, "proof_stress", 3000);
    sheet.tensile_strength = read_stress_value(table, "tensile_strength", 3000);
    const auto material = read_material(table);
    table.finish();
    reading.report_unknown();
    if (!material || !reading.is_clean()) {
        const auto problems = reading.sorted_problems();
        throw InternalError(problems.empty() ? "sheet data" : key_file::line_for(problems.front()));
    }
    sheet.material = *material;
    return sheet;
}

std::vector<KnownSheet> read_all() {
    std::vector<KnownSheet> sheets;
    for (const DataFile& file : data_files()) {
        sheets.push_back(read_sheet(file));
    }
    std::sort(sheets.begin(), sheets.end(), [](const KnownSheet& a, const KnownSheet& b) {
        return a.material.name < b.material.name;
    });
    return sheets;
}

} // namespace

std::span<const KnownSheet> known_sheets() {
    static const std::vector<KnownSheet> sheets = read_all();
    return sheets;
}

const KnownSheet* find_sheet(std::string_view name) {
    const std::string wanted = bare_name(name);
    for (const KnownSheet& sheet : known_sheets()) {
        if (bare_name(sheet.material.name) == wanted) {
            return &sheet;
        }
        for (const std::string& other : sheet.other_names) {
            if (bare_name(other) == wanted) {
                return &sheet;
            }
        }
    }
    return nullptr;
}

std::vector<std::string> resembling_names(std::string_view name) {
    const std::string wanted = bare_name(name);
    std::vector<std::pair<std::size_t, std::string>> close;
    std::vector<std::string> all;
    for (const KnownSheet& sheet : known_sheets()) {
        const std::string& known = sheet.material.name;
        all.push_back(known);
        const std::size_t distance =
            key_file::edit_distance(wanted.substr(0, 100), bare_name(known));
        const bool starts_alike =
            wanted.size() >= 4 && bare_name(known).starts_with(wanted.substr(0, 4));
        if (distance <= 2 || starts_alike) {
            close.emplace_back(distance, known);
        }
    }
    if (close.empty()) {
        return all;
    }
    std::sort(close.begin(), close.end());
    std::vector<std::string> names;
    names.reserve(close.size());
    for (const auto& [distance, known] : close) {
        names.push_back(known);
    }
    return names;
}

} // namespace flangewright::sheet_library
