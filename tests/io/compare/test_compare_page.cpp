#include "io/compare/compare_page.hpp"
#include "tests/io/compare/compared_runs.hpp"

#include <gmock/gmock.h>

namespace flangewright::compare {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

std::string page(const std::vector<ComparedRun>& runs) {
    StudyFacts facts;
    facts.title = "A <rib>";
    facts.program_version = "9.8.7";
    facts.date = "2026-02-03";
    facts.command = "flangewright compare rib.toml";
    facts.common = "run.accuracy = quick";
    facts.run_pages = {"runs/a/sheet.html"};
    return compare_page(facts, runs);
}

std::size_t count(const std::string& text, const std::string& what) {
    std::size_t n = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) {
        ++n;
    }
    return n;
}

TEST(ComparePage, ShowsFiguresWithErrorsAdviceAndCautions) {
    const std::string text = page(
        {made_up_run("nose <3>", "holds", 0.71, 0.02), made_up_run("nose 4", "close", 0.9, 0.02)}
    );
    EXPECT_THAT(text, HasSubstr("A &lt;rib&gt;"));
    EXPECT_THAT(text, HasSubstr("<a href=\"runs/a/sheet.html\">nose &lt;3&gt;</a>"));
    EXPECT_THAT(text, HasSubstr("71.0<small>&plusmn; 2.0</small>"));
    EXPECT_THAT(text, HasSubstr("Take 1 (nose &lt;3&gt;)"));
    EXPECT_THAT(text, HasSubstr("run.accuracy = quick"));
    EXPECT_THAT(text, HasSubstr("Cautions"));
    EXPECT_THAT(text, HasSubstr("Not approved data"));
    EXPECT_EQ(count(text, "<svg class=\"plot\""), 2u);
    EXPECT_THAT(text, Not(HasSubstr("http"))) << "nothing comes from elsewhere";
}

TEST(ComparePage, MarksOnlyDifferencesSmallerThanTheErrors) {
    ComparedRun best = made_up_run("a", "holds", 0.70, 0.02);
    ComparedRun near = made_up_run("b", "holds", 0.71, 0.02);
    best.record.flange_angle_deg = {88.3, 0.1};
    near.record.flange_angle_deg = {86.3, 0.1};
    const std::string mark = "class=\"same\"";
    // Of b: share, edge stretch, thinning, springback; the angle differs, lift and depth have no
    // bar.
    EXPECT_EQ(count(page({best, near}), mark), 4u);
    near.record.share.value = 0.9;
    near.record.edge_stretch_percent.value = 11;
    EXPECT_EQ(count(page({best, near}), mark), 2u);
}

TEST(ComparePage, TellsTheDepthLeftAndTheLipsWhereThereAreAny) {
    ComparedRun plain = made_up_run("a", "holds", 0.70);
    plain.record.depth_left_mm.value = 2.345;
    const std::string without = page({plain});
    EXPECT_THAT(without, HasSubstr("Depth left"));
    EXPECT_THAT(without, HasSubstr("<td class=\"figure\">2.3</td></tr>"));
    EXPECT_THAT(without, Not(HasSubstr("Lip angle")));
    ComparedRun lip = plain;
    lip.record.lip_angle_deg.value = 86.24;
    lip.record.lip_springback_deg.value = 3.1;
    lip.record.lip_edge_share.value = 0.305;
    const std::string with = page({lip, plain, failed_run("c", "stuck")});
    EXPECT_THAT(
        with,
        HasSubstr("<td class=\"figure\">86.2</td><td class=\"figure\">3.1</td>"
                  "<td class=\"figure\">30.5</td></tr>")
    );
    EXPECT_EQ(count(with, ">86.2<"), 1u);
}

TEST(ComparePage, AFailedVariantStandsThereWithItsReason) {
    const std::string text =
        page({made_up_run("a", "holds", 0.7), failed_run("b", "no equilibrium in bend-down")});
    EXPECT_THAT(text, HasSubstr("no equilibrium in bend-down"));
    EXPECT_THAT(text, HasSubstr("only 1 (a) came to its end"));
}

TEST(ComparePage, WithoutAnyFinishedRunIsStillAPage) {
    const std::string text = page({failed_run("a", "x"), failed_run("b", "y")});
    EXPECT_THAT(text, HasSubstr("no variant came to its end"));
    EXPECT_THAT(text, Not(HasSubstr("class=\"best\"")));
}

} // namespace
} // namespace flangewright::compare
