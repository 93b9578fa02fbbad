// A good case with random damage: an answer every time, never a crash and never a NaN in the job.
#include "io/case_file/case_file.hpp"
#include "tests/io/case_file/case_text.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace flangewright::case_file {
namespace {

void expect_sound(const CaseFileResult& result, const std::string& text) {
    if (!result) {
        ASSERT_FALSE(result.error().empty()) << text;
        for (const InputProblem& problem : result.error()) {
            EXPECT_FALSE(problem.allowed.empty()) << text;
            EXPECT_FALSE(problem.remedy.empty()) << text;
        }
        return;
    }
    const job::Job& job = result->job;
    for (const double value :
         {job.sheet.thickness,
          job.blank.web_width,
          job.blank.flange_width,
          job.block.nose_radius,
          job.drive.corner_radius,
          job.drive.angle}) {
        EXPECT_TRUE(std::isfinite(value) && value > 0) << text;
    }
}

TEST(DamagedCaseFile, AlwaysGetsAnAnswer) {
    std::mt19937 random(11); // fixed, so that a failure can be seen again
    const std::string letters = "0123456789.-\"[]={}#, \nenzmin";
    for (int i = 0; i < 3000; ++i) {
        std::string text = good_case;
        for (int n = 0; n < 2; ++n) {
            text[random() % text.size()] = letters[random() % letters.size()];
        }
        expect_sound(read_case_text(text, "f"), text);
    }
}

TEST(DamagedCaseFile, MayEndAnywhere) {
    for (std::size_t length = 0; length <= good_case.size(); ++length) {
        const std::string text = good_case.substr(0, length);
        expect_sound(read_case_text(text, "f"), text);
    }
}

} // namespace
} // namespace flangewright::case_file
