// Puts a measured edge limit into the user's own file of a sheet.
#pragma once

#include "io/command_line/terminal.hpp"
#include "io/coupon/sheet_with_limit.hpp"
#include "io/key_file/input_problem.hpp"
#include "io/sheet_library/sheet_library.hpp"
#include "mesh/base/result.hpp"

#include <filesystem>
#include <optional>
#include <string>

namespace flangewright::command_line {

/// The text the limit is put into, and where it goes.
struct LimitTarget {
    std::filesystem::path path;
    std::string base;
    std::string base_name; ///< for problems
    bool makes_folder = false; ///< the usual folder may be new
};

/// `out`, else the sheet's own file, else its place in the folder of the user's sheets. A file that
/// is there must hold this very sheet; its other values are kept. Fails: with one problem.
[[nodiscard]] Result<LimitTarget, key_file::InputProblem> limit_target(
    const std::optional<std::filesystem::path>& out,
    const std::optional<std::filesystem::path>& sheets,
    const sheet_library::KnownSheet& sheet
);

/// Writes it and says so. Returns the exit code.
[[nodiscard]] int
store_limit(const LimitTarget& target, const coupon::MeasuredLimit& limit, Terminal& terminal);

} // namespace flangewright::command_line
