// A table of numbers under a line of names, separated by commas, semicolons or tabs.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace flangewright::tensile {

/// Columns as they were named; all of one length.
struct CsvTable {
    std::vector<std::string> names; ///< without blanks and quotes
    int names_line = 0; ///< from 1
    std::vector<std::vector<double>> columns;
    std::vector<int> lines; ///< of each row, from 1
};

/// A column of words, each standing for a number.
struct WordColumn {
    std::string name; ///< in small letters
    std::vector<std::pair<std::string, double>> words; ///< in small letters
    std::string allowed; ///< for problems
};

/// Columns, by name in small letters, whose cells may be more than numbers.
struct CellRules {
    std::vector<std::string> yes_or_no = {}; ///< words instead of numbers: 1 and 0
    std::vector<std::string> may_be_empty = {}; ///< not a number where nothing stands
    std::vector<WordColumn> words = {};
    bool all_may_be_empty = false; ///< but for columns of words that are not named above
};

/// Empty lines and lines that begin with "#" are passed over. The separator is the semicolon if the
/// names have one, else the tab, else the comma. Units: as in the file. Source: CSV after RFC 4180,
/// from memory; without line breaks in quotes. Fails: with the first cell that is no finite number
/// (or what the rules want), or row that is too short.
[[nodiscard]] Result<CsvTable, key_file::InputProblem>
csv_table(std::string_view text, const std::string& file, const CellRules& rules = {});

/// With A to Z as a to z. Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string small_letters(std::string_view text);

} // namespace flangewright::tensile
