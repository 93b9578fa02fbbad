#include "io/sheet_library/sheet_library.hpp"

#include "io/key_file/nearest_word.hpp"
#include "io/sheet_library/sheet_file.hpp"
#include "mesh/base/check.hpp"

#include <algorithm>

namespace flangewright::sheet_library {

namespace {

KnownSheet built_in_sheet(const DataFile& data) {
    SheetFile file = sheet_from(key_file::document_from(data.text, std::string(data.name)));
    if (!file.sheet) {
        throw InternalError(
            file.problems.empty() ? "sheet data" : key_file::line_for(file.problems.front())
        );
    }
    file.sheet->file_name = data.name;
    return std::move(*file.sheet);
}

// The one library of the process; set once, before anything is looked up.
std::vector<KnownSheet>& sheets_in_use() {
    static std::vector<KnownSheet> sheets = built_in_sheets();
    return sheets;
}

bool has_name(const KnownSheet& sheet, const std::string& bare) {
    return bare_name(sheet.material.name) == bare;
}

bool has_other_name(const KnownSheet& sheet, const std::string& bare) {
    return std::ranges::any_of(sheet.other_names, [&bare](const std::string& other) {
        return bare_name(other) == bare;
    });
}

} // namespace

std::string bare_name(std::string_view name) {
    std::string bare;
    for (const char c : name) {
        if (c != ' ' && c != '-' && c != '_') {
            bare += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        }
    }
    return bare;
}

std::string name_with_origin(const material::SheetMaterial& material) {
    return material.own_file.empty()
        ? material.name
        : material.name + " (your own data: " + material.own_file + ")";
}

void sort_by_name(std::vector<KnownSheet>& sheets) {
    std::ranges::sort(sheets, {}, [](const KnownSheet& sheet) { return sheet.material.name; });
}

std::vector<KnownSheet> built_in_sheets() {
    std::vector<KnownSheet> sheets;
    for (const DataFile& file : data_files()) {
        sheets.push_back(built_in_sheet(file));
    }
    sort_by_name(sheets);
    return sheets;
}

void use_library(Library library) {
    sheets_in_use() = std::move(library.sheets);
}

std::span<const KnownSheet> known_sheets() {
    return sheets_in_use();
}

const KnownSheet* find_sheet(std::string_view name) {
    const std::string wanted = bare_name(name);
    for (const auto& matches : {has_name, has_other_name}) {
        for (const bool is_own : {true, false}) {
            for (const KnownSheet& sheet : known_sheets()) {
                if (sheet.material.own_file.empty() != is_own && matches(sheet, wanted)) {
                    return &sheet;
                }
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
