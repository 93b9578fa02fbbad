// A run keeps its state in its folder and --resume takes it up; the solver is a quick stand-in.
#include "io/command_line/run_command.hpp"
#include "io/command_line/state_keeper.hpp"
#include "io/saved_state/state_file.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/command_line/temporary_folder.hpp"

#include <gmock/gmock.h>

#include <sstream>

namespace flangewright::command_line {
namespace {

using ::testing::HasSubstr;

process::RunState state_after_bending() {
    process::RunState state;
    state.finished.resize(1);
    process::StepUnderWay release;
    release.path.report.share_done = 0.4;
    release.path.step = 0.2;
    release.path.last.share = 0.2;
    state.under_way = release;
    return state;
}

class Resume : public WithFolder {
protected:
    Resume() {
        workshop_.run_job = [this](const job::Job&, const auto& options, const Monitor&) {
            n_finished_seen_ = options.begin_from == nullptr
                ? -1
                : static_cast<int>(options.begin_from->finished.size());
            options.keep_state(state_after_bending());
            process::JobResult result;
            result.steps.resize(1);
            result.reason = process::StopReason::stop_requested;
            return Result<process::JobResult>(result);
        };
        workshop_.write_outputs = [](const auto&, const auto&) {
            return Result<run_folder::WrittenOutputs>(run_folder::WrittenOutputs{});
        };
    }

    int run(bool resumes, const std::string& text = case_file::good_case) {
        out_.str("");
        err_.str("");
        RunArguments arguments;
        arguments.case_file = write("rib.toml", text);
        arguments.out = folder_ / "out";
        arguments.resumes = resumes;
        arguments.from = from_;
        Terminal terminal{out_, err_, false};
        return run_case(arguments, terminal, workshop_);
    }

    [[nodiscard]] std::filesystem::path state_file() const {
        return folder_ / "out" / saved_state::file_name;
    }

    Workshop workshop_;
    int n_finished_seen_ = -2;
    std::optional<std::string> from_;
    std::ostringstream out_;
    std::ostringstream err_;
};

TEST_F(Resume, TakesUpWhatTheLastRunLeft) {
    EXPECT_EQ(run(false), 130);
    EXPECT_THAT(out_.str(), HasSubstr("To go on from here: the same command with --resume"));
    EXPECT_EQ(n_finished_seen_, -1);
    EXPECT_EQ(run(true), 130);
    EXPECT_EQ(n_finished_seen_, 1);
    EXPECT_THAT(out_.str(), HasSubstr("going on: 1 of 2 steps done, 40.0 % of the next one"));
}

TEST_F(Resume, BeginsAnewWhenNotAsked) {
    EXPECT_EQ(run(false), 130);
    workshop_.run_job = [this](const auto&, const auto& options, const auto&) {
        EXPECT_EQ(options.begin_from, nullptr);
        EXPECT_FALSE(std::filesystem::exists(state_file()));
        return Result<process::JobResult>(process::JobResult{});
    };
    EXPECT_EQ(run(false), 0);
}

TEST_F(Resume, SaysSoWhenThereIsNothingToTakeUp) {
    EXPECT_EQ(run(true), 130);
    EXPECT_EQ(n_finished_seen_, -1);
    EXPECT_THAT(out_.str(), HasSubstr("no saved state in"));
    EXPECT_THAT(out_.str(), HasSubstr("starting from the beginning"));
}

TEST_F(Resume, RefusesTheStateOfAnotherCase) {
    EXPECT_EQ(run(false), 130);
    n_finished_seen_ = -2;
    EXPECT_EQ(run(true, case_file::with_line(5, "thickness = 0.9")), 2);
    EXPECT_EQ(n_finished_seen_, -2);
    EXPECT_THAT(err_.str(), HasSubstr("sheet.thickness = 0.8 there, sheet.thickness = 0.9 here"));
    EXPECT_THAT(err_.str(), HasSubstr("1 problem; nothing was computed."));
}

TEST_F(Resume, TakesUpAfterAChangeOfTitle) {
    EXPECT_EQ(run(false), 130);
    EXPECT_EQ(run(true, case_file::with_line(1, "title = \"Other\"")), 130);
    EXPECT_EQ(n_finished_seen_, 1);
}

TEST_F(Resume, KeepsTheStepsBeforeThoseThatChanged) {
    EXPECT_EQ(run(false), 130);
    EXPECT_EQ(
        run(true,
            case_file::with_line(
                28, R"(steps = ["bend-down", "release", "set-on-block", "release"])"
            )),
        130
    );
    EXPECT_EQ(n_finished_seen_, 1);
    EXPECT_THAT(out_.str(), HasSubstr("changed since: run.steps"));
    EXPECT_THAT(out_.str(), HasSubstr("going on: 1 of 4 steps done\n"));
}

TEST_F(Resume, BeginsAnewFromTheStepThatIsNamed) {
    EXPECT_EQ(run(false), 130);
    from_ = "release";
    EXPECT_EQ(run(true), 130);
    EXPECT_EQ(n_finished_seen_, 1);
    EXPECT_THAT(out_.str(), HasSubstr("going on: 1 of 2 steps done\n")); // not on its way
    from_ = "1";
    EXPECT_EQ(run(true), 130);
    EXPECT_EQ(n_finished_seen_, 0);
    from_ = "trim";
    EXPECT_EQ(run(true), 2);
    EXPECT_THAT(err_.str(), HasSubstr("1 bend-down, 2 release"));
    EXPECT_THAT(err_.str(), HasSubstr("1 problem; nothing was computed."));
}

TEST_F(Resume, RefusesADamagedState) {
    EXPECT_EQ(run(false), 130);
    std::filesystem::resize_file(state_file(), std::filesystem::file_size(state_file()) - 1);
    EXPECT_EQ(run(true), 2);
    EXPECT_THAT(err_.str(), HasSubstr("a damaged file"));
    EXPECT_THAT(err_.str(), HasSubstr("do: run again without --resume"));
    EXPECT_EQ(run(false), 130);
}

TEST_F(Resume, SweepsAwayWhatAKilledRunLeftHalfWritten) {
    EXPECT_EQ(run(false), 130);
    write("out/.run.state.999999999.part", "half");
    write("out/.mine.part", "no trial file of ours");
    EXPECT_EQ(run(true), 130);
    EXPECT_FALSE(std::filesystem::exists(folder_ / "out/.run.state.999999999.part"));
    EXPECT_TRUE(std::filesystem::exists(folder_ / "out/.mine.part"));
}

} // namespace
} // namespace flangewright::command_line
