// A sheet written out, with further keys, read as a file of its own.
#pragma once

#include "io/sheet_library/material_reader.hpp"

#include <gtest/gtest.h>

#include <string>

namespace flangewright::sheet_library {

inline const std::string plain_material = R"(youngs_modulus = 70000
poisson_ratio = 0.33
[hardening]
law = "voce"
yield_stress = 76
saturation_stress = 229
rate = 16.6
)";

struct ReadMaterial {
    std::optional<material::SheetMaterial> material;
    std::vector<key_file::InputProblem> problems;

    /// The first problem in one line, or "no problem".
    [[nodiscard]] std::string problem() const {
        return problems.empty() ? "no problem" : key_file::line_for(problems.front());
    }
};

inline ReadMaterial read_with(const std::string& more) {
    const auto document = key_file::document_from(plain_material + more, "own.toml");
    EXPECT_TRUE(document.has_value()) << (document ? "" : key_file::line_for(document.error()));
    key_file::Reading reading("own.toml");
    key_file::TableReader table(reading, document->root, {1, 1}, "");
    ReadMaterial read{read_material(table), {}};
    table.finish();
    reading.report_unknown();
    read.problems = reading.sorted_problems();
    return read;
}

} // namespace flangewright::sheet_library
