// What earlier parts taught: mean differences, part by part, in a file of the user's own.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace flangewright::build_log {

/// One figure of one part. Texts hold no comma, quote or line break.
struct BiasRow {
    std::string date; ///< year-month-day it was read in
    std::string sheet;
    std::string lot;
    std::string part; ///< which piece, where several were made from one case
    std::string case_file;
    std::string figure; ///< name_of(Figure)
    std::string unit;
    int n = 0; ///< readings behind it
    double mean = 0; ///< predicted less measured
};

/// "$XDG_CONFIG_HOME/flangewright/bias.csv", beside the user's own sheets; empty without a home.
/// Units: none. Source: as sheet_library::users_own_folder(). Fails: never.
[[nodiscard]] std::optional<std::filesystem::path> users_bias_file();

/// The text as a row of the file can hold it. Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string as_cell(std::string_view text);

/// All rows; none when there is no such file. Units: as each row says. Source: docs/build-log.md.
/// Fails: with the first line that is no such row.
[[nodiscard]] Result<std::vector<BiasRow>, key_file::InputProblem>
read_bias(const std::filesystem::path& path);

/// The same for a text at hand; `file` is only its name.
[[nodiscard]] Result<std::vector<BiasRow>, key_file::InputProblem>
bias_from(std::string_view text, const std::string& file);

/// The file's text with these rows at its end; rows of the same case, lot and part go first, so
/// that a part read twice counts once. Units, source: as read_bias(). Fails: never.
[[nodiscard]] std::string bias_text(std::vector<BiasRow> rows, const std::vector<BiasRow>& added);

/// A sentence for each figure that parts of this sheet were measured for, over the last ten of
/// them; none without any. Units: as the rows. Source: docs/build-log.md. Fails: never.
[[nodiscard]] std::vector<std::string>
experience_with(const std::vector<BiasRow>& rows, const std::string& sheet);

} // namespace flangewright::build_log
