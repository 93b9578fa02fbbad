// Everything around the solver, with a former made up; with the solver: tests/cases/round_trip.py.
#include "io/case_file/case_file.hpp"
#include "io/command_line/command_line.hpp"
#include "io/command_line/templates_command.hpp"
#include "io/drawing/dxf_file.hpp"
#include "solver/findings/flange_development.hpp"
#include "solver/findings/lip_development.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/command_line/temporary_folder.hpp"

#include <gmock/gmock.h>

#include <cmath>

namespace flangewright::command_line {
namespace {

using process::StopReason;
using ::testing::HasSubstr;
using ::testing::Not;

namespace fs = std::filesystem;

/// Formed depths by the hand calculation, a shallower flange toward the free end.
process::Former made_up_former(int /*n_threads*/, const Monitor& /*monitor*/) {
    return [](const job::Job& job) -> Result<process::FormedPart> {
        process::FormedPart part;
        const double length = job.blank.line.length();
        for (int i = 0; i <= 20; ++i) {
            const double station = length * i / 20;
            const double net = job.blank.flange_width_at(station) - job.blank.trim_allowance;
            const double less = 0.9 * std::exp(-station / 10);
            part.depths.push_back({station, findings::formed_flange_depth(job, net) - less});
        }
        return part;
    };
}

class TemplatesCommand : public WithFolder {
protected:
    TemplatesArguments arguments(const std::string& text = case_file::good_case) {
        TemplatesArguments given;
        given.case_file = write("case.toml", text);
        given.out = folder_ / "out";
        return given;
    }
    int go(const TemplatesArguments& given, const MakeFormer& former = made_up_former) {
        Terminal terminal{out_, err_, false};
        return write_templates(given, terminal, former);
    }
    [[nodiscard]] std::string written(const std::string& name) const {
        return text_of(folder_ / "out" / name);
    }
    [[nodiscard]] bool nothing_is_written() const {
        return !fs::exists(folder_ / "out") || fs::is_empty(folder_ / "out");
    }

    std::ostringstream out_;
    std::ostringstream err_;
};

TEST_F(TemplatesCommand, WritesTheOutlineThatMeetsTheDepth) {
    EXPECT_EQ(go(arguments()), done) << err_.str();
    EXPECT_THAT(out_.str(), HasSubstr("part 1 formed: depth misses by -0.90 to "));
    EXPECT_THAT(out_.str(), HasSubstr("part 2 formed"));
    EXPECT_THAT(out_.str(), HasSubstr("Formed 2 times on the computer"));
    for (const char* name :
         {"template.pdf", "template.svg", "template.dxf", "outline.csv", "blank.toml"}) {
        EXPECT_TRUE(fs::exists(folder_ / "out" / name)) << name;
    }
    EXPECT_THAT(written("template.svg"), HasSubstr("depth misses the drawing by at most"));
    EXPECT_THAT(written("template.svg"), HasSubstr("Grain 30 deg"));
}

// The drawing as it will be cut is read back point by point: its edge lies where the table says.
TEST_F(TemplatesCommand, DrawsTheEdgeWhereItsTableSays) {
    ASSERT_EQ(go(arguments()), done);
    const auto drawn = drawing::read_drawing(written("template.dxf"), "CUT_OUTLINE");
    ASSERT_TRUE(drawn);
    // The case again, with the table in the place of the depth.
    std::string text = case_file::good_case;
    const std::string depth = "flange_depth = 18\n";
    text.replace(text.find(depth), depth.size(), written("blank.toml"));
    const auto cut = case_file::read_case_text(text, "cut.toml");
    ASSERT_TRUE(cut);
    const job::Blank& blank = cut->job.blank;
    int n_on_edge = 0;
    constexpr double fine = 0.005; // mm: chords of 1 mm, table to a ten-thousandth
    for (const drawing::Stroke& stroke : drawn->strokes) {
        const outline::LinePosition at = blank.line.locate({stroke.begin.x(), stroke.begin.y(), 0});
        if (at.distance > 1) {
            EXPECT_NEAR(at.distance, blank.flange_width_at(at.station), fine) << at.station;
            ++n_on_edge;
        }
    }
    EXPECT_GT(n_on_edge, 60); // a line of 70 mm
}

TEST_F(TemplatesCommand, TakesTheDepthFromTheCommandLine) {
    TemplatesArguments given = arguments(case_file::with_line(13, "flat_width = 20"));
    EXPECT_EQ(go(given), done);
    EXPECT_THAT(out_.str(), HasSubstr("as the case states it"));
    EXPECT_THAT(written("outline.csv"), HasSubstr("0.000,17.000,20.000\n")); // no part was formed
    given.out = folder_ / "deep";
    given.depth = "3/4 in";
    EXPECT_EQ(go(given), done) << err_.str();
    EXPECT_THAT(text_of(folder_ / "deep" / "outline.csv"), HasSubstr(",19.050,"));
}

/// A lip that comes out deeper the nearer it is to the start, and its flange 0.1 mm too shallow.
process::Former made_up_lip_former(int /*n_threads*/, const Monitor& /*monitor*/) {
    return [](const job::Job& job) -> Result<process::FormedPart> {
        process::FormedPart part;
        const double length = job.blank.line.length();
        const double by_hand = findings::develop_lip(job).width + job.blank.lip_begin();
        for (int i = 0; i <= 20; ++i) {
            const double station = length * i / 20;
            const double net = job.blank.flange_width_at(station) - job.blank.trim_allowance;
            const double more = 1.5 * std::exp(-station / 10);
            part.depths.push_back({station, job.return_bend->lip_depth + net - by_hand + more});
            part.flange_depths.push_back({station, job.blank.flange_depth - 0.1});
            part.lip_angles.push_back({station, 1.5});
        }
        return part;
    };
}

TEST_F(TemplatesCommand, FormsTheLipAndDrawsItsBlock) {
    const std::string steps =
        R"(steps = ["bend-down", "release", "trim", "return-bend", "release"])";
    const std::string text = case_file::with_line(28, steps)
        + "[return_bend]\nside = \"under the web\"\nlip_depth = 9\nnose_radius = 2\n";
    EXPECT_EQ(go(arguments(text), made_up_lip_former), done) << err_.str();
    EXPECT_THAT(out_.str(), HasSubstr("part 1 formed: lip depth misses by "));
    EXPECT_THAT(out_.str(), HasSubstr("times on the computer: lip depth misses the drawing by at"));
    EXPECT_THAT(
        out_.str(), HasSubstr("Flange depth to the lip's outside misses it by at most 0.10")
    );
    EXPECT_THAT(written("outline.csv"), HasSubstr("wanted_lip_depth_mm"));
    EXPECT_THAT(written("blank.toml"), HasSubstr("beside flange_depth"));
    EXPECT_TRUE(drawing::read_drawing(written("template.dxf"), "LIP_BLOCK").has_value());
    EXPECT_THAT(written("template.svg"), HasSubstr("the lip stands at 85.9 to 85.9 deg"));
    // The blank it was found for is a case.
    std::string cut = text;
    const std::string depth = "flange_depth = 18\n";
    cut.insert(cut.find(depth), written("blank.toml"));
    const auto read = case_file::read_case_text(cut, "cut.toml");
    ASSERT_TRUE(read) << line_for(read.error().front());
}

TEST_F(TemplatesCommand, TellsWhereHolesOfTheFlangeComeToLie) {
    const MakeFormer with_hole = [](int, const Monitor&) {
        return [](const job::Job& job) -> Result<process::FormedPart> {
            process::FormedPart part{{{0, 18}, {job.blank.line.length(), 18}}, StopReason::done};
            part.holes = {{1, 30.02, 9.31, 3.2, 3.35}};
            return part;
        };
    };
    EXPECT_EQ(go(arguments(), with_hole), done);
    EXPECT_THAT(out_.str(), HasSubstr("on the flat blank"));
    EXPECT_THAT(
        out_.str(), HasSubstr("hole 1: station 30.02 mm, depth 9.31 mm, 3.20 mm to 3.35 mm across")
    );
}

TEST_F(TemplatesCommand, FormsNothingByHand) {
    TemplatesArguments given = arguments();
    given.is_by_hand = true;
    EXPECT_EQ(
        go(given,
           [](int, const Monitor&) -> process::Former {
               ADD_FAILURE() << "a former was made";
               return {};
           }),
        done
    );
    EXPECT_THAT(written("template.svg"), HasSubstr("by hand (development)"));
}

TEST_F(TemplatesCommand, SaysWhereTheDrawingIsNotMetAndEndsWithAnotherCode) {
    const MakeFormer stubborn = [](int, const Monitor&) {
        return [](const job::Job& job) -> Result<process::FormedPart> {
            return process::FormedPart{{{0, 17}, {job.blank.line.length(), 18}}, StopReason::done};
        };
    };
    EXPECT_EQ(go(arguments(), stubborn), no_equilibrium);
    EXPECT_THAT(out_.str(), HasSubstr("THE DRAWING IS NOT MET: leave metal on at 1.00 mm"));
    EXPECT_THAT(written("template.svg"), HasSubstr("THE DRAWING IS NOT MET"));
}

TEST_F(TemplatesCommand, WritesNothingWhenItIsStoppedOrNoPartIsFormed) {
    for (const auto& [reason, code] :
         {std::pair(StopReason::stop_requested, interrupted),
          std::pair(StopReason::no_equilibrium, no_equilibrium)}) {
        const MakeFormer ends = [reason = reason](int, const Monitor&) {
            return [reason](const job::Job&) -> Result<process::FormedPart> {
                return process::FormedPart{{}, reason};
            };
        };
        EXPECT_EQ(go(arguments(), ends), code);
        EXPECT_TRUE(nothing_is_written());
    }
    EXPECT_THAT(err_.str(), HasSubstr("no template was written"));
}

TEST_F(TemplatesCommand, RefusesADepthThatCannotBe) {
    TemplatesArguments given = arguments();
    for (const auto& [depth, found] :
         {std::pair("0.5", "found \"0.5\", allowed 4.80 mm to 300.00 mm"),
          std::pair("deep", "found \"deep\""),
          std::pair("198 mm", "room inside the curve")}) {
        given.depth = depth;
        EXPECT_EQ(go(given), bad_input) << depth;
        EXPECT_THAT(err_.str(), HasSubstr(found));
    }
    given.depth = "";
    given.within = "9";
    EXPECT_EQ(go(given), bad_input);
    EXPECT_THAT(err_.str(), HasSubstr("--within: found \"9\", allowed 0.05 mm to 5 mm"));
    EXPECT_TRUE(nothing_is_written());
}

TEST_F(TemplatesCommand, LeavesEarlierTemplatesAlone) {
    fs::create_directory(folder_ / "out");
    write("out/template.svg", "mine");
    EXPECT_EQ(go(arguments()), bad_input);
    EXPECT_THAT(err_.str(), HasSubstr("which is there already"));
    EXPECT_EQ(written("template.svg"), "mine");
    EXPECT_FALSE(fs::exists(folder_ / "out" / "template.pdf"));
}

TEST_F(TemplatesCommand, TellsADiskThatRefuses) {
    TemplatesArguments given = arguments();
    given.out = "/proc/templates";
    EXPECT_EQ(go(given), outside_trouble);
    EXPECT_THAT(err_.str(), HasSubstr("/proc/templates"));
}

} // namespace
} // namespace flangewright::command_line
