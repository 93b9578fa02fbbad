// Reading a case in a test: the job of a good one, the lines of a bad one.
#pragma once

#include "io/case_file/case_file.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace flangewright::case_file {

inline job::Job read_well(const std::string& text) {
    const auto result = read_case_text(text, "case.toml");
    EXPECT_TRUE(result.has_value()) << (result ? "" : line_for(result.error().front()));
    return result ? result->job : job::Job{};
}

inline std::vector<std::string> lines_of(const CaseFileResult& result) {
    std::vector<std::string> lines;
    if (!result) {
        for (const InputProblem& problem : result.error()) {
            lines.push_back(line_for(problem));
        }
    }
    return lines;
}

} // namespace flangewright::case_file
