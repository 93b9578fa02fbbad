#include "io/command_line/check_command.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/command_line/temporary_folder.hpp"

#include <gmock/gmock.h>

#include <sstream>

namespace flangewright::command_line {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

class CheckCommand : public WithFolder {
protected:
    int check_text(const std::string& text) {
        Terminal terminal{out_, err_, false};
        return check_case({.case_file = write("rib.toml", text), .sheets = {}}, terminal);
    }
    std::ostringstream out_;
    std::ostringstream err_;
};

// By hand: bend allowance pi/2 (2.4 + 0.4) = 4.40 mm, setback 2.4 + 0.8 = 3.2 mm.
TEST_F(CheckCommand, WorksTheJobOutByHand) {
    EXPECT_EQ(check_text(case_file::good_case), 0);
    EXPECT_EQ(err_.str(), "");
    const std::string text = out_.str();
    EXPECT_THAT(text, HasSubstr("rib.toml: no problem found"));
    EXPECT_THAT(text, HasSubstr("bend allowance                        4.40 mm"));
    EXPECT_THAT(text, HasSubstr("bend tangent to mould point           3.20 mm"));
    EXPECT_THAT(text, HasSubstr("springback of an ideal strip"));
    EXPECT_THAT(text, HasSubstr("typical"));
    EXPECT_THAT(text, HasSubstr("not approved data"));
    EXPECT_THAT(text, Not(HasSubstr("nan")));
    EXPECT_THAT(text, Not(HasSubstr("inf ")));
}

TEST_F(CheckCommand, NamesTheRValueThatARolledSheetsEdgeThinsBy) {
    EXPECT_EQ(check_text(case_file::good_case), 0) << err_.str();
    EXPECT_THAT(out_.str(), Not(HasSubstr("by its yield law")));
    const std::string sheet =
        "[sheet.material]\nname = \"made-up\"\nyoungs_modulus = 70000\npoisson_ratio = 0.33\n"
        "[sheet.material.hardening]\nlaw = \"voce\"\nyield_stress = 76\nsaturation_stress = 229\n"
        "rate = 16.6\n[sheet.material.yield]\nlaw = \"hill48\"\nr0 = 0.5\nr45 = 0.5\nr90 = 0.5\n";
    EXPECT_EQ(check_text(case_file::with_line(4, "") + sheet), 0) << err_.str();
    EXPECT_THAT(out_.str(), HasSubstr("(r 0.50 along the edge, by its yield law)"));
}

TEST_F(CheckCommand, ListsKinksThatWereRounded) {
    const std::string points =
        "points = [[0, 0], [20, 0], [40, 0], [60, 10], [80, 20]]\nround_kinks = 60";
    const std::string text = case_file::with_line(
        8, "curve = \"points\"", case_file::with_line(9, points, case_file::with_line(10, ""))
    );
    EXPECT_EQ(check_text(text), 0) << err_.str();
    EXPECT_THAT(out_.str(), HasSubstr("Kinks of the bend line rounded:\n"));
    EXPECT_THAT(
        out_.str(), HasSubstr("kink of 26.6 deg, concave, at point 3, (40, 0) mm  radius 60")
    );
}

TEST_F(CheckCommand, SaysNothingOfKinksWhereThereAreNone) {
    EXPECT_EQ(check_text(case_file::good_case), 0);
    EXPECT_THAT(out_.str(), Not(HasSubstr("Kinks")));
}

TEST_F(CheckCommand, ListsEveryProblem) {
    EXPECT_EQ(
        check_text(
            case_file::with_line(5, "thickness = 0", case_file::with_line(23, "kind = \"x\""))
        ),
        2
    );
    EXPECT_EQ(out_.str(), "");
    EXPECT_THAT(err_.str(), HasSubstr("rib.toml:5: sheet.thickness"));
    EXPECT_THAT(err_.str(), HasSubstr("rib.toml:23: drive.kind"));
    EXPECT_THAT(err_.str(), HasSubstr("2 problems; nothing was computed."));
}

} // namespace
} // namespace flangewright::command_line
