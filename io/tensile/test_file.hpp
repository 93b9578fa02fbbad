// Reads a tensile test as a testing machine exports it: a table of text with named columns.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"
#include "solver/material/fit/tensile_test.hpp"

#include <filesystem>
#include <string_view>

namespace flangewright::tensile {

/// Sizes of the strip before the test, mm; what the file's columns need and can't tell.
struct StripSizes {
    std::optional<double> gauge_length = {};
    std::optional<double> width = {};
    std::optional<double> thickness = {};
};

/// The record and where its rows stand in the file.
struct TestFile {
    material::TensileTest test;
    std::vector<int> lines; ///< of each point, from 1
    std::vector<std::string> ignored; ///< columns that were not needed
};

/// Units: returns strains as plain numbers and MPa. Source: docs/materials.md; 1 lbf = 4.448222 N,
/// 1 ksi = 6.894757 MPa, NIST SP 811. Fails: with the first problem, by line and column.
[[nodiscard]] Result<TestFile, key_file::InputProblem>
read_test_file(const std::filesystem::path& path, const StripSizes& sizes);

/// The same for a text at hand; `file` is only its name. Units, source, fails: as above.
[[nodiscard]] Result<TestFile, key_file::InputProblem>
test_from(std::string_view text, const std::string& file, const StripSizes& sizes);

} // namespace flangewright::tensile
