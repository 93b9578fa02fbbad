#include "io/blank_template/plan_outline.hpp"

#include <gtest/gtest.h>

namespace flangewright::blank_template {
namespace {

paper::Sheet page() {
    paper::Sheet sheet;
    sheet.add_line(paper::Pen::cut, {-20, 0}, {100, 30});
    return sheet;
}

TEST(PlanOutline, SetsTheHeadAboveTheDrawingLineByLine) {
    paper::Sheet sheet = page();
    add_head(sheet, {"Part", "first", "second"});
    ASSERT_EQ(sheet.words.size(), 3U);
    EXPECT_GT(sheet.words[2].at.y(), 30);
    EXPECT_GT(sheet.words[1].at.y(), sheet.words[2].at.y() + 2.6);
    EXPECT_GT(sheet.words[0].at.y(), sheet.words[1].at.y() + 2.6);
    EXPECT_EQ(sheet.words[0].at.x(), -20);
    EXPECT_GT(sheet.words[0].height, sheet.words[1].height);
}

// A title may have 200 letters; a page is some 190 mm wide.
TEST(PlanOutline, BreaksLongLinesSoThatTheyStayOnAPage) {
    paper::Sheet sheet = page();
    std::string title;
    for (int i = 0; i < 40; ++i) {
        title += "word ";
    }
    add_head(sheet, {title, title});
    EXPECT_GT(sheet.words.size(), 4U);
    for (const paper::Words& words : sheet.words) {
        EXPECT_LE(0.6 * words.height * static_cast<double>(words.text.size()), 190);
    }
}

} // namespace
} // namespace flangewright::blank_template
