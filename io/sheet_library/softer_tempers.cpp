#include "io/sheet_library/softer_tempers.hpp"

#include "io/sheet_library/sheet_library.hpp"

#include <algorithm>
#include <cctype>

namespace flangewright::sheet_library {

namespace {

bool are_digits(std::string_view text) {
    return std::ranges::all_of(text, [](unsigned char c) { return std::isdigit(c) != 0; });
}

double first_yield(const material::SheetMaterial& sheet) {
    return sheet.hardening == nullptr ? 0 : sheet.hardening->at(0).stress;
}

} // namespace

AlloyAndTemper alloy_and_temper_of(std::string_view name) {
    constexpr std::size_t n_digits = 4;
    constexpr std::string_view tempers = "OFHWT";
    if (name.size() < n_digits + 2 || !are_digits(name.substr(0, n_digits)) || name[n_digits] != '-'
        || tempers.find(name[n_digits + 1]) == std::string_view::npos) {
        return {};
    }
    const std::size_t end = std::min(name.find(' '), name.size());
    return {
        std::string(name.substr(0, n_digits)),
        std::string(name.substr(n_digits + 1, end - n_digits - 1)),
        std::string(name.substr(end))};
}

std::vector<material::SheetMaterial> softer_tempers_of(const material::SheetMaterial& sheet) {
    const AlloyAndTemper now = alloy_and_temper_of(sheet.name);
    std::vector<material::SheetMaterial> softer;
    for (const KnownSheet& known : known_sheets()) {
        const AlloyAndTemper other = alloy_and_temper_of(known.material.name);
        const bool is_same = other.alloy == now.alloy && other.rest == now.rest;
        // The one that is meant by the name: a user's own.
        if (now.alloy.empty() || !is_same || find_sheet(known.material.name) != &known
            || !(first_yield(known.material) < first_yield(sheet))) {
            continue;
        }
        softer.push_back(known.material);
    }
    std::ranges::stable_sort(softer, std::ranges::greater{}, first_yield);
    return softer;
}

} // namespace flangewright::sheet_library
