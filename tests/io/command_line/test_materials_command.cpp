#include "io/command_line/materials_command.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

namespace flangewright::command_line {
namespace {

using ::testing::HasSubstr;

class MaterialsCommand : public ::testing::Test {
protected:
    int show(const std::optional<std::string>& name) {
        Terminal terminal{out_, err_, false};
        MaterialsArguments arguments;
        arguments.name = name;
        return show_materials(arguments, terminal);
    }
    std::ostringstream out_;
    std::ostringstream err_;
};

TEST_F(MaterialsCommand, ListsAllSheets) {
    EXPECT_EQ(show(std::nullopt), 0);
    EXPECT_THAT(out_.str(), HasSubstr("2024-O clad"));
    EXPECT_THAT(out_.str(), HasSubstr("6061-T6"));
    EXPECT_THAT(out_.str(), HasSubstr("Typical values are not minimums."));
}

TEST_F(MaterialsCommand, ShowsGradeAndSourceOfOneSheet) {
    EXPECT_EQ(show("2024-o"), 0);
    EXPECT_THAT(out_.str(), HasSubstr("75.8 MPa (11 ksi)"));
    EXPECT_THAT(out_.str(), HasSubstr("0.8 x A50"));
    EXPECT_THAT(out_.str(), HasSubstr("0.5 t"));
    EXPECT_THAT(out_.str(), HasSubstr("Aluminum Design Manual"));
}

TEST_F(MaterialsCommand, ShowsBackStressesWithGradeAndSource) {
    EXPECT_EQ(show("2024-T3 with back stress"), 0);
    EXPECT_THAT(out_.str(), HasSubstr("stiffness 3900 MPa, recall rate 100, grows to 39 MPa"));
    EXPECT_THAT(out_.str(), ::testing::ContainsRegex("back stress .* assumed .*MIL-HDBK-5H"));
}

TEST_F(MaterialsCommand, SaysThatASheetHasNoBackStress) {
    EXPECT_EQ(show("2024-T3"), 0);
    EXPECT_THAT(
        out_.str(), ::testing::ContainsRegex("back stress +none \\(isotropic hardening\\)")
    );
}

TEST_F(MaterialsCommand, DrawsNoPictureWithoutASheet) {
    Terminal terminal{out_, err_, false};
    MaterialsArguments arguments;
    arguments.picture = "a.png";
    EXPECT_EQ(show_materials(arguments, terminal), 2);
    EXPECT_THAT(err_.str(), HasSubstr("command line: --picture: found no sheet to draw"));
}

TEST_F(MaterialsCommand, SaysByWhichLawASheetFlows) {
    EXPECT_EQ(show("2024-T3"), 0);
    EXPECT_THAT(
        out_.str(), ::testing::ContainsRegex("yield +von_mises \\(the same in all directions\\)")
    );
}

TEST_F(MaterialsCommand, SuggestsForAWrongName) {
    EXPECT_EQ(show("2024-X"), 2);
    EXPECT_EQ(out_.str(), "");
    EXPECT_THAT(err_.str(), HasSubstr("command line: NAME: found \"2024-X\", allowed 2024-O"));
}

} // namespace
} // namespace flangewright::command_line
