#include "io/compare/compare_tables.hpp"
#include "tests/io/compare/compared_runs.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <limits>
#include <sstream>

namespace flangewright::compare {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

const TableFacts facts{"9.8.7", "2026-02-03", "flangewright compare x", {"a", "b"}};

TEST(CompareTables, CsvHasARowForEachVariantAndAsManyCellsInEach) {
    const std::string text = compare_csv(
        facts,
        {made_up_run("nose = 3", "holds", 0.7, 0.02),
         failed_run("nose = 4; \"x\"", "no equilibrium in bend-down at 63 deg")}
    );
    std::istringstream lines(text);
    std::string line;
    std::getline(lines, line);
    const auto n_commas = std::ranges::count(line, ',');
    int n_rows = 0;
    while (std::getline(lines, line)) {
        EXPECT_EQ(std::ranges::count(line, ','), n_commas) << line;
        ++n_rows;
    }
    EXPECT_EQ(n_rows, 2);
    EXPECT_THAT(text, HasSubstr("1,nose = 3,runs/a,done,holds,typical,0.7,0.02,"));
    EXPECT_THAT(text, HasSubstr("\"nose = 4; \"\"x\"\"\""));
}

TEST(CompareTables, JsonSaysBestMarksAndAdvice) {
    const std::string text = compare_json(
        facts, {made_up_run("a", "holds", 0.7, 0.02), made_up_run("b", "holds", 0.71, 0.02)}
    );
    EXPECT_THAT(text, HasSubstr("\"best\": 1"));
    EXPECT_THAT(text, HasSubstr("\"to_best\": \"within errors\""));
    EXPECT_THAT(text, HasSubstr("\"to_best\": null"));
    EXPECT_THAT(text, HasSubstr("can't be told apart"));
    EXPECT_THAT(text, HasSubstr("\"folder\": \"runs/b\""));
}

TEST(CompareTables, JsonHasNoNumberThatIsNone) {
    ComparedRun odd = made_up_run("a", "unknown", std::numeric_limits<double>::quiet_NaN());
    odd.record.web_lift_mm.value = std::numeric_limits<double>::infinity();
    const std::string text = compare_json(facts, {odd, failed_run("b", "x")});
    EXPECT_THAT(text, Not(HasSubstr("nan")));
    EXPECT_THAT(text, Not(HasSubstr("inf")));
}

} // namespace
} // namespace flangewright::compare
