#include "io/compare/variation.hpp"

#include "io/key_file/excerpt.hpp"
#include "io/units/length.hpp"
#include "io/units/written_number.hpp"

#include <algorithm>

namespace flangewright::compare {

namespace {

using key_file::InputProblem;

constexpr const char* like = "write it like --vary block.nose_radius=3mm,4.5mm,6mm";

InputProblem problem(const std::string& key, std::string found, std::string allowed) {
    return {
        "command line",
        0,
        0,
        key.empty() ? "--vary" : "--vary " + key_file::excerpt(key),
        std::move(found),
        std::move(allowed),
        like};
}

std::string trimmed(const std::string& text) {
    const std::size_t begin = text.find_first_not_of(" \t");
    return begin == std::string::npos
        ? ""
        : text.substr(begin, text.find_last_not_of(" \t") + 1 - begin);
}

/// "3mm" and "3.0 mm" are the same, and so are "1 in" and "25.4 mm".
bool is_same(const std::string& one, const std::string& other) {
    if (one == other) {
        return true;
    }
    const auto a = units::split_number(one);
    const auto b = units::split_number(other);
    if (a && b && a->number == b->number && a->unit == b->unit) {
        return true;
    }
    const bool have_units = a && b && !a->unit.empty() && !b->unit.empty();
    const units::Written length = units::read_length(one, units::LengthUnit::millimetre);
    const units::Written other_length = units::read_length(other, units::LengthUnit::millimetre);
    return have_units && length && other_length && *length == *other_length;
}

} // namespace

Result<Variation, InputProblem> read_variation(const std::string& word) {
    const std::size_t equals = word.find('=');
    Variation variation;
    variation.key = trimmed(word.substr(0, equals));
    if (equals == std::string::npos || variation.key.empty()) {
        return tl::unexpected(
            problem("", key_file::quoted_excerpt(word), "a key of the case file, =, and its values")
        );
    }
    const std::string list = word.substr(equals + 1);
    if (trimmed(list).empty()) {
        return tl::unexpected(problem(variation.key, "no value", "one value or several"));
    }
    for (std::size_t begin = 0; begin <= list.size();) {
        const std::size_t end = std::min(list.find(',', begin), list.size());
        const std::string value = trimmed(list.substr(begin, end - begin));
        if (value.empty()) {
            return tl::unexpected(problem(
                variation.key,
                "an empty value in " + key_file::quoted_excerpt(list),
                "a value before and behind each comma"
            ));
        }
        const auto same = std::ranges::find_if(variation.values, [&value](const auto& earlier) {
            return is_same(earlier, value);
        });
        if (same != variation.values.end()) {
            const std::string shown = *same == value ? key_file::quoted_excerpt(value) + " twice"
                                                     : key_file::quoted_excerpt(*same) + " and "
                    + key_file::quoted_excerpt(value) + ", which are the same";
            return tl::unexpected(problem(variation.key, shown, "each value once"));
        }
        variation.values.push_back(value);
        begin = end + 1;
    }
    return variation;
}

Result<std::vector<Variation>, std::vector<InputProblem>>
read_variations(const std::vector<std::string>& words) {
    std::vector<Variation> variations;
    std::vector<InputProblem> problems;
    for (const std::string& word : words) {
        const Result<Variation, InputProblem> read = read_variation(word);
        if (!read) {
            problems.push_back(read.error());
        } else if (std::ranges::find(variations, read->key, &Variation::key) != variations.end()) {
            problems.push_back(problem(read->key, "this key twice", "each key once"));
        } else {
            variations.push_back(*read);
        }
    }
    return problems.empty() ? Result<std::vector<Variation>, std::vector<InputProblem>>(variations)
                            : tl::unexpected(problems);
}

std::vector<std::vector<Setting>> combinations(const std::vector<Variation>& variations) {
    std::vector<std::vector<Setting>> all{{}};
    for (const Variation& variation : variations) {
        std::vector<std::vector<Setting>> longer;
        for (const std::vector<Setting>& begun : all) {
            for (const std::string& value : variation.values) {
                longer.push_back(begun);
                longer.back().push_back({variation.key, value});
            }
        }
        all = std::move(longer);
    }
    return all;
}

} // namespace flangewright::compare
