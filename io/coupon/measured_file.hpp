// Reads what was measured on a test flange: one row for each pair of marks along its edge.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace flangewright::coupon {

/// One pair of marks.
struct PairReading {
    int mark_from = 0;
    int mark_to = 0;
    double before = 0; ///< along the edge, mm
    double after = 0; ///< the same once formed, without the gap of a crack
    std::optional<double> thickness; ///< at the edge once formed, mm
    bool is_cracked = false; ///< there is a crack between both marks
    int line = 0; ///< in the file, from 1

    /// Engineering strain of the edge along itself. Units: -. Source: definition. Fails: never.
    [[nodiscard]] double stretch() const { return after / before - 1; }
};

/// Units: returns mm. Source: docs/materials.md, "Coupon". Fails: with the first problem, by line
/// and column.
[[nodiscard]] Result<std::vector<PairReading>, key_file::InputProblem>
read_measured_file(const std::filesystem::path& path);

/// The same for a text at hand; `file` is only its name. Units, source, fails: as above.
[[nodiscard]] Result<std::vector<PairReading>, key_file::InputProblem>
measured_from(std::string_view text, const std::string& file);

} // namespace flangewright::coupon
