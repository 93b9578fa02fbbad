#include "io/build_log/bias_file.hpp"

#include "io/key_file/excerpt.hpp"
#include "io/key_file/text_file.hpp"
#include "io/sheet_library/user_folder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace flangewright::build_log {

namespace {

using key_file::InputProblem;

constexpr std::string_view head =
    "# Predicted less measured, mean of each figure of each part; written by flangewright log.\n"
    "date,sheet,lot,part,case,figure,unit,n,predicted_less_measured\n";
constexpr std::size_t n_cells = 9;
constexpr std::size_t most_parts = 10; // that a sentence speaks of

template <typename Number>
bool take_number(std::string_view cell, Number& value) {
    const char* end = cell.data() + cell.size();
    const auto outcome = std::from_chars(cell.data(), end, value);
    return outcome.ec == std::errc() && outcome.ptr == end;
}

std::optional<BiasRow> row_in(std::string_view line) {
    std::array<std::string_view, n_cells> cells;
    for (std::size_t i = 0; i < n_cells; ++i) {
        const std::size_t end = line.find(',');
        const bool is_last = i + 1 == n_cells;
        if ((end == std::string_view::npos) != is_last) {
            return std::nullopt;
        }
        cells[i] = line.substr(0, end);
        line.remove_prefix(is_last ? line.size() : end + 1);
    }
    BiasRow row;
    std::array<std::string*, 7> texts{
        &row.date, &row.sheet, &row.lot, &row.part, &row.case_file, &row.figure, &row.unit};
    for (std::size_t i = 0; i < texts.size(); ++i) {
        *texts[i] = cells[i];
    }
    const bool is_good = take_number(cells[7], row.n) && take_number(cells[8], row.mean)
        && row.n > 0 && std::isfinite(row.mean);
    return is_good ? std::optional(row) : std::nullopt;
}

bool is_same_part(const BiasRow& a, const BiasRow& b) {
    return a.case_file == b.case_file && a.lot == b.lot && a.part == b.part;
}

std::string unit_words(const std::string& unit) {
    return unit == "percent" ? "points of per cent" : unit;
}

int n_decimals(const std::string& unit) {
    return unit == "mm" ? 2 : 1;
}

/// The last parts' differences in one figure.
std::string sentence(const std::vector<const BiasRow*>& rows, const std::string& sheet) {
    double sum = 0;
    double least = rows.front()->mean;
    double most = least;
    for (const BiasRow* row : rows) {
        sum += row->mean;
        least = std::min(least, row->mean);
        most = std::max(most, row->mean);
    }
    const double mean = sum / static_cast<double>(rows.size());
    const BiasRow& last = *rows.back();
    const int decimals = n_decimals(last.unit);
    const std::string size = fmt::format("{:.{}f}", std::abs(mean), decimals);
    const bool is_nothing = size.find_first_of("123456789") == std::string::npos;
    std::string text = rows.size() == 1
        ? fmt::format("On your last part of {} ({})", sheet, last.date)
        : fmt::format("On your last {} parts of {} (the last {})", rows.size(), sheet, last.date);
    text += is_nothing ? fmt::format(" {} came out as predicted", last.figure)
                       : fmt::format(
                           " {} came out {} {} {} than predicted",
                           last.figure,
                           size,
                           unit_words(last.unit),
                           mean < 0 ? "more" : "less"
                       );
    if (rows.size() > 1) {
        text += fmt::format(
            " (measured less predicted from {:+.{}f} to {:+.{}f})",
            -most,
            decimals,
            -least,
            decimals
        );
    }
    return text + ".";
}

} // namespace

std::optional<std::filesystem::path> users_bias_file() {
    const auto sheets = sheet_library::users_own_folder();
    return sheets ? std::optional(sheets->parent_path() / "bias.csv") : std::nullopt;
}

std::string as_cell(std::string_view text) {
    std::string cell(text);
    std::ranges::replace_if(
        cell,
        [](unsigned char c) { return c == ',' || c == '"' || c == '#' || c < 0x20 || c == 0x7F; },
        '_'
    );
    return cell;
}

Result<std::vector<BiasRow>, InputProblem>
bias_from(std::string_view text, const std::string& file) {
    std::vector<BiasRow> rows;
    bool has_names = false;
    for (int line = 1; !text.empty(); ++line) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        const std::string_view row = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        if (row.empty() || row.front() == '#') {
            continue;
        }
        if (!has_names) {
            has_names = true; // the line of names
            continue;
        }
        std::optional<BiasRow> read = row_in(row);
        if (!read) {
            return tl::unexpected(InputProblem{
                file,
                line,
                0,
                "row",
                key_file::quoted_excerpt(row),
                fmt::format("{} values, the last two numbers", n_cells),
                "put the line right or delete it"});
        }
        rows.push_back(std::move(*read));
    }
    return rows;
}

Result<std::vector<BiasRow>, InputProblem> read_bias(const std::filesystem::path& path) {
    std::error_code ignored;
    if (!std::filesystem::exists(path, ignored)) {
        return std::vector<BiasRow>();
    }
    const auto text = key_file::read_text_file(path, {"file of notes", 10'000'000});
    if (!text) {
        return tl::unexpected(text.error());
    }
    return bias_from(*text, path.string());
}

std::string bias_text(std::vector<BiasRow> rows, const std::vector<BiasRow>& added) {
    std::erase_if(rows, [&added](const BiasRow& old) {
        return std::ranges::any_of(added, [&old](const BiasRow& each) {
            return is_same_part(each, old);
        });
    });
    rows.insert(rows.end(), added.begin(), added.end());
    std::string text(head);
    for (const BiasRow& row : rows) {
        text += fmt::format(
            "{},{},{},{},{},{},{},{},{:.6g}\n",
            row.date,
            row.sheet,
            row.lot,
            row.part,
            row.case_file,
            row.figure,
            row.unit,
            row.n,
            row.mean
        );
    }
    return text;
}

std::vector<std::string>
experience_with(const std::vector<BiasRow>& rows, const std::string& sheet) {
    std::vector<std::string> sentences;
    const std::string name = as_cell(sheet);
    std::vector<std::string> told;
    for (const BiasRow& first : rows) {
        if (first.sheet != name || std::ranges::find(told, first.figure) != told.end()) {
            continue;
        }
        told.push_back(first.figure);
        std::vector<const BiasRow*> same;
        for (const BiasRow& row : rows) {
            if (row.sheet == name && row.figure == first.figure && row.unit == first.unit) {
                same.push_back(&row);
            }
        }
        if (same.size() > most_parts) {
            same.erase(same.begin(), same.end() - static_cast<std::ptrdiff_t>(most_parts));
        }
        sentences.push_back(sentence(same, sheet));
    }
    if (!sentences.empty()) {
        sentences.emplace_back("No figure of this page has been changed by that.");
    }
    return sentences;
}

} // namespace flangewright::build_log
