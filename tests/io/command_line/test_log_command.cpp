// A run is made up by hand: what counts is what `log` makes of its folder.
#include "io/build_log/bias_file.hpp"
#include "io/case_file/case_file.hpp"
#include "io/command_line/command_line.hpp"
#include "io/command_line/log_command.hpp"
#include "io/command_line/own_sheets.hpp"
#include "io/run_folder/run_folder.hpp"
#include "io/saved_state/case_text.hpp"
#include "io/saved_state/state_file.hpp"
#include "io/sheet_library/user_folder.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/command_line/temporary_folder.hpp"
#include "tests/support/formed_flange.hpp"

#include <gmock/gmock.h>

namespace flangewright::command_line {
namespace {

namespace fs = std::filesystem;
using ::testing::HasSubstr;
using ::testing::Not;

const std::string filed_case = case_file::with_line(16, "end = \"continues\"\nedge = \"filed\"");
const std::string names =
    "step,station_mm,angle_deg,thickness_mm,before_mm,after_mm,web_lift_mm,cracked\n";

class LogCommand : public WithFolder {
protected:
    LogCommand() { make_run(filed_case); }
    ~LogCommand() override { sheet_library::use_library({sheet_library::built_in_sheets(), {}}); }

    void make_run(const std::string& text) {
        arguments_.case_file = write("rib.toml", text);
        arguments_.measured_file = folder_ / "measured.csv";
        arguments_.out = folder_ / "out";
        arguments_.sheets = folder_ / "sheets";
        const auto file = case_file::read_case_file(arguments_.case_file);
        run_folder::OutputRequest request;
        request.directory = *arguments_.out;
        request.job = file->job;
        request.with_pictures = false;
        request.date = "2026-11-20";
        support::FlangeShape shape;
        shape.line = file->job.blank.line;
        ASSERT_TRUE(run_folder::write_outputs(request, support::made_up_result(shape)));
        process::RunState state;
        state.finished.resize(2);
        ASSERT_TRUE(saved_state::write_state(
            *arguments_.out, saved_state::case_text(file->job, program_version()), state
        ));
    }

    int log(const std::string& readings) {
        write("measured.csv", readings);
        out_.str("");
        err_.str("");
        Terminal terminal{out_, err_, false};
        return log_part(arguments_, {"2026-11-26", folder_ / "notes" / "bias.csv"}, terminal);
    }
    [[nodiscard]] std::string page() const { return text_of(*arguments_.out / "log.html"); }

    LogArguments arguments_;
    std::ostringstream out_;
    std::ostringstream err_;
};

const std::string some = names + "1,35,90,,,,,\n2,35,86,0.75,,,,\n2,,,,,,0.9,\n";

TEST_F(LogCommand, WritesThePageWithWhatWasMeasuredAndKeepsTheDifference) {
    arguments_.lot = "A <1>";
    ASSERT_EQ(log(some), done) << err_.str();
    EXPECT_THAT(out_.str(), HasSubstr("Not measured: edge marks."));
    EXPECT_THAT(out_.str(), HasSubstr("springback at station 35.00 mm"));
    EXPECT_THAT(page(), HasSubstr("<td>86.0 deg</td>"));
    EXPECT_THAT(page(), HasSubstr("<td>0.90 mm</td>"));
    EXPECT_THAT(page(), HasSubstr("lot A &lt;1&gt;"));
    EXPECT_THAT(page(), HasSubstr("Predicted by the run of 2026-11-20."));
    EXPECT_THAT(page(), HasSubstr("On your last part of 2024-O (2026-11-26) springback came out"));
    EXPECT_THAT(page(), HasSubstr("id=\"part-view-data\"")) << "the rest of the page is kept";
    EXPECT_TRUE(fs::exists(*arguments_.out / "log.pdf"));
    const auto bias = build_log::read_bias(folder_ / "notes" / "bias.csv");
    ASSERT_TRUE(bias);
    ASSERT_EQ(bias->size(), 4U) << "angle, springback, web lift, thickness";
    EXPECT_EQ(bias->front().lot, "A <1>");
    ASSERT_EQ(log(some), done);
    EXPECT_EQ(build_log::read_bias(folder_ / "notes" / "bias.csv")->size(), 4U);
}

TEST_F(LogCommand, TheTemplateIsATableItReads) {
    arguments_.template_file = folder_ / "blank.csv";
    ASSERT_EQ(log(""), done) << err_.str();
    std::string table = text_of(folder_ / "blank.csv");
    EXPECT_THAT(table, HasSubstr(names));
    EXPECT_EQ(log(""), bad_input) << "never written over";
    EXPECT_THAT(err_.str(), HasSubstr("which is there already"));
    arguments_.template_file.reset();
    EXPECT_EQ(log(table), bad_input);
    EXPECT_THAT(err_.str(), HasSubstr("at least one figure"));
    table.replace(table.find("2 release,35,,"), 14, "2 release,35,86,");
    EXPECT_EQ(log(table), done) << err_.str();
}

TEST_F(LogCommand, RefusesAFolderWithoutAFinishedRunOfThisCase) {
    const auto refusal = [this] {
        EXPECT_EQ(log(some), bad_input);
        EXPECT_FALSE(fs::exists(*arguments_.out / "log.html"));
        EXPECT_FALSE(fs::exists(folder_ / "notes"));
        return err_.str();
    };
    write("rib.toml", case_file::with_line(5, "thickness = 0.9", filed_case));
    EXPECT_THAT(refusal(), HasSubstr("thickness"));
    write("rib.toml", case_file::with_line(1, "title = \"Other\"", filed_case));
    EXPECT_THAT(refusal(), HasSubstr("its title was \"Bracket\""));
    write("rib.toml", case_file::with_line(17, "edge = \"sawn\"", filed_case));
    EXPECT_THAT(refusal(), HasSubstr("its edge was finished as filed"));
    write("rib.toml", filed_case);
    fs::remove(*arguments_.out / "run.state");
    EXPECT_THAT(refusal(), HasSubstr("no run.state in it"));
    fs::remove(*arguments_.out / "summary.json");
    EXPECT_THAT(refusal(), HasSubstr("no summary.json in it"));
    arguments_.out = folder_ / "nowhere";
    EXPECT_THAT(refusal(), HasSubstr("no such folder"));
}

TEST_F(LogCommand, LeavesEverythingWhereItIsWhenTheReadingsOrNotesAreWrong) {
    EXPECT_EQ(log("step,angle\n2,88\n"), bad_input);
    fs::create_directory(folder_ / "notes");
    write("notes/bias.csv", "names\nwrong\n");
    EXPECT_EQ(log(some), bad_input);
    EXPECT_THAT(err_.str(), HasSubstr("bias.csv:2"));
    EXPECT_FALSE(fs::exists(*arguments_.out / "log.html"));
}

TEST_F(LogCommand, StoresTheEdgesLimitOnlyWhenAskedAndOnlyWhenTheEdgeIsAWitness) {
    arguments_.lot = "A 1";
    const auto marks = [](const std::string& after) {
        return names + "1,20,,,10,10.5,,no\n1,35,,,10,10.8,,no\n1,50,,,10," + after + ",,no\n";
    };
    const fs::path sheet = folder_ / "sheets" / "2024_o.toml";
    ASSERT_EQ(log(marks("12.5")), done) << err_.str();
    EXPECT_FALSE(fs::exists(sheet)) << "not asked";
    arguments_.stores_limit = true;
    ASSERT_EQ(log(marks("11")), done) << err_.str();
    EXPECT_FALSE(fs::exists(sheet)) << "within the limit";
    EXPECT_THAT(out_.str(), HasSubstr("The edge limit stays as it is."));
    arguments_.lot.clear();
    EXPECT_EQ(log(marks("12.5")), bad_input);
    EXPECT_THAT(err_.str(), HasSubstr("--lot"));
    arguments_.lot = "A 1";
    ASSERT_EQ(log(marks("12.5")), done) << err_.str();
    EXPECT_THAT(
        text_of(sheet),
        HasSubstr("filed = { value = \"25 %\", grade = \"coupon\", source = \"part, lot A 1, "
                  "2026-11-26; no crack yet, over 10 mm\" }")
    );
}

} // namespace
} // namespace flangewright::command_line
