// Reads what was measured on a part: one row for each place after each step.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace flangewright::build_log {

/// One row: what was read at one place after one step. mm, rad.
struct Reading {
    std::size_t step = 0; ///< place among the job's steps, from 0
    std::optional<double> station; ///< empty: of the whole part
    std::optional<double> angle; ///< web to flange; of the whole part its mean
    std::optional<double> thickness; ///< at the free edge; of the whole part the least
    std::optional<double> before; ///< distance of two edge marks round the station, flat
    std::optional<double> after; ///< the same after the step, without the gap of a crack
    std::optional<double> web_lift; ///< gap there; of the whole part the largest
    bool is_cracked = false; ///< a crack or visible neck between both marks
    int line = 0; ///< in the file, from 1

    [[nodiscard]] bool has_marks() const { return before && after; }
    /// Engineering strain between the marks. Units: -. Source: definition. Fails: never.
    [[nodiscard]] double stretch() const { return *after / *before - 1; }
};

/// All rows in which something was measured.
struct Readings {
    std::vector<Reading> rows;
    std::vector<std::string> not_measured; ///< "thickness": no such column, or nothing in it
};

/// What the readings belong to, to find slips by.
struct MeasuredPart {
    std::vector<std::string> steps; ///< names in order
    double length = 0; ///< of the bend line
    double thickness = 0; ///< of the sheet
};

/// Columns may be left out and cells may be empty, but for `step`. Units: returns mm, rad. Source:
/// docs/build-log.md, "The table of readings". Fails: with the first problem, by line and column: a
/// name that is not known or lacks its unit, a figure that can't be, nothing measured at all.
[[nodiscard]] Result<Readings, key_file::InputProblem>
readings_from(std::string_view text, const std::string& file, const MeasuredPart& part);

/// The same from a file. Fails: also when it can't be read.
[[nodiscard]] Result<Readings, key_file::InputProblem>
read_readings(const std::filesystem::path& path, const MeasuredPart& part);

} // namespace flangewright::build_log
