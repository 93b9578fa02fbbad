#include "io/tensile/csv_table.hpp"

#include "io/key_file/excerpt.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>
#include <optional>

namespace flangewright::tensile {

namespace {

using key_file::InputProblem;

std::string_view bare(std::string_view cell) {
    constexpr std::string_view around = " \t\r\"";
    const std::size_t first = cell.find_first_not_of(around);
    return first == std::string_view::npos
        ? std::string_view{}
        : cell.substr(first, cell.find_last_not_of(around) - first + 1);
}

std::vector<std::string_view> cells_of(std::string_view line, char separator) {
    std::vector<std::string_view> cells;
    for (std::size_t begin = 0;;) {
        const std::size_t end = line.find(separator, begin);
        cells.push_back(bare(line.substr(begin, end - begin)));
        if (end == std::string_view::npos) {
            return cells;
        }
        begin = end + 1;
    }
}

char separator_of(std::string_view names) {
    for (const char c : {';', '\t'}) {
        if (names.find(c) != std::string_view::npos) {
            return c;
        }
    }
    return ',';
}

std::optional<double> number_in(std::string_view cell) {
    cell.remove_prefix(!cell.empty() && cell.front() == '+' ? 1 : 0);
    double number = 0;
    const char* end = cell.data() + cell.size();
    const auto outcome = std::from_chars(cell.data(), end, number);
    const bool is_number = outcome.ec == std::errc() && outcome.ptr == end && std::isfinite(number);
    return is_number ? std::optional(number) : std::nullopt;
}

/// One reading, line by line.
class Reader {
public:
    Reader(const std::string& file, const CellRules& rules) : file_(file), rules_(rules) {}

    std::optional<InputProblem> take(std::string_view line) {
        ++line_;
        const std::string_view text = bare(line);
        if (text.empty() || text.front() == '#') {
            return std::nullopt;
        }
        return table_.names.empty() ? take_names(line) : take_row(line);
    }
    CsvTable& table() { return table_; }

private:
    std::optional<InputProblem> take_names(std::string_view line) {
        separator_ = separator_of(line);
        for (const std::string_view name : cells_of(line, separator_)) {
            table_.names.emplace_back(name);
        }
        table_.names_line = line_;
        table_.columns.resize(table_.names.size());
        return std::nullopt;
    }

    std::optional<InputProblem> take_row(std::string_view line) {
        const std::vector<std::string_view> cells = cells_of(line, separator_);
        for (std::size_t i = 0; i < table_.names.size(); ++i) {
            if (i >= cells.size()) {
                return InputProblem{
                    file_,
                    line_,
                    0,
                    table_.names[i],
                    "a row that ends before this column",
                    fmt::format("{} values in each row", table_.names.size()),
                    "write the missing values, or leave the row out"};
            }
            const std::optional<double> number = value_in(cells[i], i);
            if (!number) {
                return cell_problem(cells[i], i);
            }
            table_.columns[i].push_back(*number);
        }
        table_.lines.push_back(line_);
        return std::nullopt;
    }

    [[nodiscard]] bool is_among(const std::vector<std::string>& names, std::size_t column) const {
        return std::ranges::find(names, small_letters(table_.names[column])) != names.end();
    }

    [[nodiscard]] const WordColumn* words_of(std::size_t column) const {
        const auto found =
            std::ranges::find(rules_.words, small_letters(table_.names[column]), &WordColumn::name);
        return found == rules_.words.end() ? nullptr : &*found;
    }

    [[nodiscard]] std::optional<double> value_in(std::string_view cell, std::size_t column) const {
        const bool may_be_empty = is_among(rules_.may_be_empty, column)
            || (rules_.all_may_be_empty && words_of(column) == nullptr);
        if (cell.empty() && may_be_empty) {
            return std::numeric_limits<double>::quiet_NaN();
        }
        if (const WordColumn* column_of_words = words_of(column)) {
            const auto found = std::ranges::find(
                column_of_words->words, small_letters(cell), &std::pair<std::string, double>::first
            );
            return found == column_of_words->words.end() ? std::nullopt
                                                         : std::optional(found->second);
        }
        if (is_among(rules_.yes_or_no, column)) {
            const std::string word = small_letters(cell);
            return word == "yes" ? std::optional(1.0)
                : word == "no"   ? std::optional(0.0)
                                 : std::nullopt;
        }
        return number_in(cell);
    }

    [[nodiscard]] InputProblem cell_problem(std::string_view cell, std::size_t column) const {
        if (const WordColumn* words = words_of(column)) {
            return {
                file_,
                line_,
                0,
                table_.names[column],
                key_file::quoted_excerpt(cell),
                words->allowed,
                "write one of these words"};
        }
        const bool is_word = is_among(rules_.yes_or_no, column);
        return {
            file_,
            line_,
            0,
            table_.names[column],
            key_file::quoted_excerpt(cell),
            is_word ? "yes or no" : "a number with a point, never a comma",
            is_word ? "write one of both words"
                    : "write it like 12.5; units belong into the column's name"};
    }

    const std::string& file_;
    const CellRules& rules_;
    int line_ = 0;
    char separator_ = ',';
    CsvTable table_;
};

} // namespace

std::string small_letters(std::string_view text) {
    std::string small(text);
    std::ranges::transform(small, small.begin(), [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    });
    return small;
}

Result<CsvTable, InputProblem>
csv_table(std::string_view text, const std::string& file, const CellRules& rules) {
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    if (text.starts_with(byte_order_mark)) {
        text.remove_prefix(byte_order_mark.size());
    }
    Reader reader(file, rules);
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        if (const auto problem = reader.take(text.substr(0, end))) {
            return tl::unexpected(*problem);
        }
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    if (reader.table().lines.empty()) {
        return tl::unexpected(InputProblem{
            file,
            0,
            0,
            "file",
            reader.table().names.empty() ? "an empty file" : "names without a row of numbers",
            "a line of column names and the rows of a test below it",
            "export the test again"});
    }
    return std::move(reader.table());
}

} // namespace flangewright::tensile
