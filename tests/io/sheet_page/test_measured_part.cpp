#include "io/sheet_page/measured_part.hpp"
#include "tests/support/formed_flange.hpp"

#include <gmock/gmock.h>

#include <algorithm>

namespace flangewright::sheet_page {
namespace {

using ::testing::HasSubstr;

TEST(MeasuredPart, AsksAfterEachStepForWhatCanBeMeasuredThere) {
    const process::JobResult result = support::made_up_result();
    const std::vector<MeasuredRow> rows = rows_to_fill({}, result);
    const auto asked = [&rows](const std::string& step, const std::string& what) {
        return std::ranges::any_of(rows, [&](const MeasuredRow& row) {
            return row.step == step && row.what.starts_with(what) && !row.predicted.empty();
        });
    };
    EXPECT_TRUE(asked("1 bend-down", "flange angle"));
    EXPECT_TRUE(asked("1 bend-down", "edge marks: stretch at station"));
    EXPECT_TRUE(asked("1 bend-down", "thickness, least"));
    EXPECT_FALSE(asked("1 bend-down", "web lift")) << "held flat";
    EXPECT_TRUE(asked("2 release", "web lift"));
    const std::string part = measured_part(rows, {"A <note>."});
    EXPECT_THAT(part, HasSubstr("<td></td><td></td></tr>"));
    EXPECT_THAT(part, HasSubstr("A &lt;note&gt;."));
}

TEST(MeasuredPart, IsFoundAgainInAPage) {
    const std::string blank = measured_part({{"1 x", "angle", "90 deg"}}, {});
    const std::string filled = measured_part({{"1 x", "angle", "90 deg", "88", "+2"}}, {});
    const std::string page = "<body>before\n" + blank + "after</body>";
    const std::string changed = with_measured(page, filled);
    EXPECT_EQ(changed, "<body>before\n" + filled + "after</body>");
    EXPECT_EQ(with_measured(changed, blank), page) << "and once more";
    EXPECT_EQ(with_measured("<body></body>", filled), "");
}

} // namespace
} // namespace flangewright::sheet_page
