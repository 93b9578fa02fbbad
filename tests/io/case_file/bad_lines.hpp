// Lines that make a good case a bad one, and what the one error about them must say.
#pragma once

#include "io/case_file/case_file.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ostream>
#include <string>
#include <vector>

namespace flangewright::case_file {

struct BadLines {
    std::string name;
    std::string lines;
    int line = 0;
    std::string key;
    std::vector<std::string> says; ///< pieces of the error
};

inline std::ostream& operator<<(std::ostream& stream, const BadLines& bad) {
    return stream << bad.name;
}

inline void expect_the_one_error(const CaseFileResult& result, const BadLines& bad) {
    ASSERT_FALSE(result.has_value());
    EXPECT_EQ(result.error().size(), 1U) << line_for(result.error().back());
    const InputProblem& problem = result.error().front();
    EXPECT_EQ(problem.line, bad.line) << line_for(problem);
    EXPECT_EQ(problem.key, bad.key) << line_for(problem);
    for (const std::string& piece : bad.says) {
        EXPECT_THAT(line_for(problem), ::testing::HasSubstr(piece));
    }
    EXPECT_FALSE(problem.found.empty());
    EXPECT_FALSE(problem.allowed.empty());
    EXPECT_FALSE(problem.remedy.empty());
}

} // namespace flangewright::case_file
