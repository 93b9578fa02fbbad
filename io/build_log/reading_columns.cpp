#include "io/build_log/reading_columns.hpp"

#include "io/key_file/excerpt.hpp"
#include "io/key_file/nearest_word.hpp"
#include "io/units/angle.hpp"
#include "io/units/length.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace flangewright::build_log {

namespace {

using key_file::InputProblem;
using tensile::CsvTable;

enum class Kind { word, length, angle };

/// How a column is called that may be there, by quantity.
struct Name {
    const char* stem;
    Kind kind;
};

constexpr std::array<Name, n_quantities> known_names{
    Name{"step", Kind::word},
    Name{"station", Kind::length},
    Name{"angle", Kind::angle},
    Name{"thickness", Kind::length},
    Name{"before", Kind::length},
    Name{"after", Kind::length},
    Name{"web_lift", Kind::length},
    Name{"cracked", Kind::word}};

/// Names a column may have: "angle_deg"; "station_mm" or "station_in".
std::vector<std::string> names_of(const Name& name) {
    const std::string stem = name.stem;
    switch (name.kind) {
    case Kind::word:
        return {stem};
    case Kind::angle:
        return {stem + "_deg"};
    case Kind::length:
        break;
    }
    return {stem + "_mm", stem + "_in"};
}

std::vector<std::string> all_names() {
    std::vector<std::string> names;
    for (const Name& known : known_names) {
        const std::vector<std::string> spellings = names_of(known);
        names.insert(names.end(), spellings.begin(), spellings.end());
    }
    return names;
}

double factor_for(const std::string& name) {
    if (name.ends_with("_in")) {
        return units::mm_per_inch;
    }
    return name.ends_with("_deg") ? units::radians(1) : 1;
}

/// Looks through the names of one file's table.
class Search {
public:
    Search(const CsvTable& table, const std::string& file) : table_(table), file_(file) {}

    Result<ReadingColumns, InputProblem> columns() {
        for (std::size_t i = 0; i < table_.names.size(); ++i) {
            if (const auto problem = take_name(tensile::small_letters(table_.names[i]), i)) {
                return tl::unexpected(*problem);
            }
        }
        if (!columns_.has(Quantity::step)) {
            return tl::unexpected(name_problem("step", "no such column", "a column step", ""));
        }
        if (columns_.has(Quantity::before) != columns_.has(Quantity::after)) {
            return tl::unexpected(name_problem(
                columns_.has(Quantity::before) ? "after" : "before",
                "no such column",
                "both before and after, or neither",
                "edge marks are read before and after; add the other column"
            ));
        }
        return columns_;
    }

private:
    std::optional<InputProblem> take_name(const std::string& name, std::size_t column) {
        for (std::size_t q = 0; q < n_quantities; ++q) {
            const std::vector<std::string> names = names_of(known_names[q]);
            if (std::ranges::find(names, name) != names.end()) {
                if (columns_.has(static_cast<Quantity>(q))) {
                    return name_problem(name, "this quantity twice", "each column once", "");
                }
                columns_.set(static_cast<Quantity>(q), column, factor_for(name));
                return std::nullopt;
            }
            if (name == known_names[q].stem
                || name.starts_with(known_names[q].stem + std::string("_"))
                || name.starts_with(known_names[q].stem + std::string(" "))) {
                return name_problem(
                    key_file::excerpt(table_.names[column]),
                    "no unit, or one that is not known",
                    key_file::listed(names),
                    "write the column's unit so"
                );
            }
        }
        const std::vector<std::string> known = all_names();
        const auto nearest = key_file::nearest_word(name, known);
        return name_problem(
            key_file::excerpt(table_.names[column]),
            "no column this table may have",
            key_file::listed(known),
            nearest ? "write " + *nearest : ""
        );
    }

    [[nodiscard]] InputProblem name_problem(
        const std::string& key,
        const std::string& found,
        const std::string& allowed,
        const std::string& remedy
    ) const {
        return {
            file_,
            table_.names_line,
            0,
            key,
            found,
            allowed,
            remedy.empty() ? "name the columns as \"flangewright log CASE --template FILE\" does"
                           : remedy};
    }

    const CsvTable& table_;
    const std::string& file_;
    ReadingColumns columns_;
};

} // namespace

std::optional<double>
ReadingColumns::at(Quantity quantity, const CsvTable& table, std::size_t row) const {
    if (!index_[place_of(quantity)]) {
        return std::nullopt;
    }
    const double value = table.columns[*index_[place_of(quantity)]][row];
    return std::isnan(value) ? std::nullopt : std::optional(factor_[place_of(quantity)] * value);
}

void ReadingColumns::set(Quantity quantity, std::size_t column, double factor) {
    index_[place_of(quantity)] = column;
    factor_[place_of(quantity)] = factor;
}

Result<ReadingColumns, InputProblem>
reading_columns(const CsvTable& table, const std::string& file) {
    return Search(table, file).columns();
}

} // namespace flangewright::build_log
