#include "io/paper/svg_marks.hpp"
#include "io/paper/svg_sheet.hpp"

#include <gmock/gmock.h>

namespace flangewright::paper {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

Sheet small_sheet() {
    Sheet sheet;
    sheet.paths.push_back({Pen::cut, {{{0, 0}, 1}, {{20, 0}, 0}, {{20, 30}, 0}}, false});
    sheet.circles.push_back({Pen::hole, {10, 10}, 2.5});
    sheet.words.push_back({{0, 30}, "5 < 6 & more", 3, 0, false});
    return sheet;
}

TEST(SvgSheet, GroupsWhatIsDrawnByLayers) {
    const std::string text = svg_of(small_sheet());
    EXPECT_THAT(text, HasSubstr("<g id=\"CUT_OUTLINE\""));
    EXPECT_THAT(text, HasSubstr("<g id=\"HOLES\""));
    EXPECT_THAT(text, Not(HasSubstr("NET_OUTLINE")));
    EXPECT_THAT(text, HasSubstr("r=\"2.500\""));
    EXPECT_THAT(text, HasSubstr("5 &lt; 6 &amp; more"));
}

// Half a circle to the left from (0, 0) to (20, 0) bulges downward; with y down that is the sweep
// against the clock, flag 0. The drawing's lowest point is then 10 below, its highest 33.
TEST(SvgSheet, TurnsYOverAndKeepsTheWayAnArcTurns) {
    const std::string text = svg_of(small_sheet());
    EXPECT_THAT(text, HasSubstr("M 12.000 45.000 A 10.000 10.000 0 0 0 32.000 45.000 L 32.000"));
}

TEST(SvgSheet, IsAtRealSizeWithItsBars) {
    const std::string text = svg_of(small_sheet());
    EXPECT_THAT(text, HasSubstr("width=\"160.000mm\""));
    EXPECT_THAT(text, HasSubstr("viewBox=\"0 0 160.000 "));
    EXPECT_THAT(text, HasSubstr("bar-100-mm"));
    EXPECT_THAT(text, HasSubstr("bar-4-in"));
}

TEST(SvgMarks, LeavesNothingOfATitleThatATagWouldBeMadeOf) {
    EXPECT_EQ(xml_text("a<b>&c\n"), "a&lt;b&gt;&amp;c ");
}

} // namespace
} // namespace flangewright::paper
