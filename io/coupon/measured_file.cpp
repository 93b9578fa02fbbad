#include "io/coupon/measured_file.hpp"

#include "io/key_file/text_file.hpp"
#include "io/tensile/csv_table.hpp"
#include "io/units/length.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace flangewright::coupon {

namespace {

using key_file::InputProblem;
using tensile::CsvTable;
using tensile::small_letters;
template <typename T>
using Read = Result<T, InputProblem>;

constexpr double least_gauge = 1; // mm: no eye reads less to a per cent
constexpr double most_gauge = 200; // mm
constexpr double least_stretch = -0.3;
constexpr double most_stretch = 2;
constexpr int most_marks = 10'000;

/// A column and what makes its numbers mm; 1 for what has no unit.
struct Column {
    std::size_t index = 0;
    double factor = 1;
};

/// Takes columns by name and turns single rows into readings.
class Rows {
public:
    Rows(const CsvTable& table, const std::string& file) : table_(table), file_(file) {}

    [[nodiscard]] std::optional<Column> find(const std::string& name) const {
        for (std::size_t i = 0; i < table_.names.size(); ++i) {
            if (small_letters(table_.names[i]) == name) {
                return Column{i, 1};
            }
        }
        return std::nullopt;
    }

    [[nodiscard]] std::optional<Column> find_length(const std::string& stem) const {
        std::optional<Column> column = find(stem + "_mm");
        if (!column) {
            column = find(stem + "_in");
            if (column) {
                column->factor = units::mm_per_inch;
            }
        }
        return column;
    }

    [[nodiscard]] Read<Column> plain(const std::string& name) const {
        const std::optional<Column> column = find(name);
        return column ? Read<Column>(*column)
                      : tl::unexpected(head_problem(name, "no such column", name));
    }

    [[nodiscard]] Read<Column> length(const std::string& stem) const {
        const std::optional<Column> column = find_length(stem);
        return column ? Read<Column>(*column) : tl::unexpected(no_length(stem));
    }

    /// A column that may be missing, but not without its unit.
    [[nodiscard]] Read<std::optional<Column>> length_if_any(const std::string& stem) const {
        const std::optional<Column> column = find_length(stem);
        if (!column && has_stem(stem)) {
            return tl::unexpected(no_length(stem));
        }
        return column;
    }

    [[nodiscard]] double at(const Column& column, std::size_t row) const {
        return column.factor * table_.columns[column.index][row];
    }
    [[nodiscard]] std::size_t n_rows() const { return table_.lines.size(); }
    [[nodiscard]] int line(std::size_t row) const { return table_.lines[row]; }

    [[nodiscard]] InputProblem row_problem(
        std::size_t row, std::string key, std::string found, std::string allowed, std::string remedy
    ) const {
        return {
            file_,
            line(row),
            0,
            std::move(key),
            std::move(found),
            std::move(allowed),
            std::move(remedy)};
    }

private:
    [[nodiscard]] bool has_stem(const std::string& stem) const {
        return std::ranges::any_of(table_.names, [&stem](const std::string& name) {
            return small_letters(name).starts_with(stem);
        });
    }
    [[nodiscard]] InputProblem no_length(const std::string& stem) const {
        return head_problem(
            stem, has_stem(stem) ? "no unit" : "no such column", stem + "_mm or " + stem + "_in"
        );
    }
    [[nodiscard]] InputProblem
    head_problem(const std::string& key, std::string found, std::string allowed) const {
        return {
            file_,
            table_.names_line,
            0,
            key,
            std::move(found),
            std::move(allowed),
            "name the columns as docs/materials.md has them, section \"Coupon\""};
    }

    const CsvTable& table_;
    const std::string& file_;
};

struct Columns {
    Column mark_from;
    Column mark_to;
    Column before;
    Column after;
    std::optional<Column> thickness;
    Column cracked;
};

Read<Columns> columns_of(const Rows& rows) {
    const Read<Column> from = rows.plain("mark_from");
    const Read<Column> to = rows.plain("mark_to");
    const Read<Column> before = rows.length("before");
    const Read<Column> after = rows.length("after");
    const Read<std::optional<Column>> thickness = rows.length_if_any("thickness");
    const Read<Column> cracked = rows.plain("cracked");
    for (const Read<Column>* column : {&from, &to, &before, &after, &cracked}) {
        if (!*column) {
            return tl::unexpected(column->error());
        }
    }
    if (!thickness) {
        return tl::unexpected(thickness.error());
    }
    return Columns{*from, *to, *before, *after, *thickness, *cracked};
}

std::optional<InputProblem>
mark_problem(const Rows& rows, const Columns& columns, std::size_t row) {
    const double from = rows.at(columns.mark_from, row);
    const double to = rows.at(columns.mark_to, row);
    for (const auto& [key, number] : {std::pair("mark_from", from), std::pair("mark_to", to)}) {
        if (number < 0 || number > most_marks || number != std::floor(number)) {
            return rows.row_problem(
                row,
                key,
                fmt::format("{:g}", number),
                fmt::format("a whole number from 0 to {}", most_marks),
                "write the mark's number as it stands on the template"
            );
        }
    }
    if (to <= from) {
        return rows.row_problem(
            row,
            "mark_to",
            fmt::format("{:g} after {:g}", to, from),
            "a mark further on than mark_from",
            "write the smaller number first"
        );
    }
    return std::nullopt;
}

std::optional<InputProblem>
size_problem(const Rows& rows, const PairReading& pair, std::size_t row) {
    if (!(pair.before >= least_gauge && pair.before <= most_gauge)) {
        return rows.row_problem(
            row,
            "before",
            fmt::format("{:.3g} mm", pair.before),
            fmt::format("{:g} to {:g} mm", least_gauge, most_gauge),
            "check the distance of the two marks and the column's unit"
        );
    }
    if (!(pair.after > 0 && pair.stretch() >= least_stretch && pair.stretch() <= most_stretch)) {
        return rows.row_problem(
            row,
            "after",
            fmt::format("{:.4g} mm from {:.4g} mm", pair.after, pair.before),
            fmt::format("a stretch of {:g} to {:g} %", 100 * least_stretch, 100 * most_stretch),
            "check both distances and their units"
        );
    }
    if (pair.thickness && !(*pair.thickness > 0)) {
        return rows.row_problem(
            row,
            "thickness",
            fmt::format("{:g} mm", *pair.thickness),
            "more than 0",
            "measure it again, or leave it empty"
        );
    }
    return std::nullopt;
}

Read<PairReading> pair_in(const Rows& rows, const Columns& columns, std::size_t row) {
    if (const auto problem = mark_problem(rows, columns, row)) {
        return tl::unexpected(*problem);
    }
    PairReading pair;
    pair.mark_from = static_cast<int>(rows.at(columns.mark_from, row));
    pair.mark_to = static_cast<int>(rows.at(columns.mark_to, row));
    pair.before = rows.at(columns.before, row);
    pair.after = rows.at(columns.after, row);
    pair.is_cracked = rows.at(columns.cracked, row) != 0;
    pair.line = rows.line(row);
    if (columns.thickness && !std::isnan(rows.at(*columns.thickness, row))) {
        pair.thickness = rows.at(*columns.thickness, row);
    }
    if (const auto problem = size_problem(rows, pair, row)) {
        return tl::unexpected(*problem);
    }
    return pair;
}

} // namespace

Read<std::vector<PairReading>> measured_from(std::string_view text, const std::string& file) {
    if (const auto problem = key_file::encoding_problem(text, file)) {
        return tl::unexpected(*problem);
    }
    const tensile::CellRules rules{{"cracked"}, {"thickness_mm", "thickness_in"}};
    const Read<CsvTable> table = tensile::csv_table(text, file, rules);
    if (!table) {
        return tl::unexpected(table.error());
    }
    const Rows rows(*table, file);
    const Read<Columns> columns = columns_of(rows);
    if (!columns) {
        return tl::unexpected(columns.error());
    }
    std::vector<PairReading> pairs;
    std::set<std::pair<int, int>> seen;
    for (std::size_t row = 0; row < rows.n_rows(); ++row) {
        const Read<PairReading> pair = pair_in(rows, *columns, row);
        if (!pair) {
            return tl::unexpected(pair.error());
        }
        if (!seen.emplace(pair->mark_from, pair->mark_to).second) {
            return tl::unexpected(rows.row_problem(
                row,
                "mark_from",
                fmt::format("marks {} and {} a second time", pair->mark_from, pair->mark_to),
                "each pair of marks once",
                "delete one of both rows; a second test flange is a file of its own"
            ));
        }
        pairs.push_back(*pair);
    }
    return pairs;
}

Read<std::vector<PairReading>> read_measured_file(const std::filesystem::path& path) {
    const auto text = key_file::read_text_file(path, {"table of marks", 1'000'000});
    if (!text) {
        return tl::unexpected(text.error());
    }
    return measured_from(*text, path.string());
}

} // namespace flangewright::coupon
