// Everything round the solver: the solver itself is replaced by quick stand-ins.
#include "io/command_line/run_command.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/command_line/temporary_folder.hpp"
#include "tests/support/made_up_lip.hpp"
#include "tests/support/made_up_passes.hpp"

#include <gmock/gmock.h>

#include <chrono>
#include <csignal>
#include <sstream>
#include <thread>

namespace flangewright::command_line {
namespace {

using process::JobResult;
using ::testing::HasSubstr;
using ::testing::Not;

JobResult finished_result() {
    JobResult result;
    process::StepResult held;
    held.kind = job::StepKind::bend_down;
    held.report.reason = process::StopReason::done;
    held.findings.flange_angle = {1.5533, 1.5708, 1.5882};
    held.findings.edge_strain_most = 0.0953;
    held.findings.thinning_most = 0.05;
    process::StepResult released = held;
    released.kind = job::StepKind::release;
    released.findings.flange_angle = {1.52, 1.53, 1.54};
    released.findings.springback = findings::Spread{0.035, 0.0408, 0.05};
    released.findings.web_lift = 0.4;
    result.steps = {held, released};
    result.by_hand.edge_stretch = 0.11;
    result.by_hand.edge_thickness_ratio = 0.95;
    result.by_hand.springback = 0.02;
    result.verdict.word = findings::VerdictWord::holds;
    result.verdict.share_used = 0.625;
    result.verdict.because = "The free edge uses 63 % of what the sheet bears.";
    result.verdict.grade = material::DataGrade::typical;
    result.disagreements = {{"springback", 0.04, 0.02, "Springback: a lot."}};
    result.warnings = {"A plain warning."};
    return result;
}

class RunCommand : public WithFolder {
protected:
    RunCommand() {
        workshop_.run_job =
            [this](const job::Job& job, const auto& options, const Monitor& monitor) {
                seen_job_ = job;
                seen_options_ = options;
                monitor.report({.step = "bend-down", .share_done = 0.1});
                return Result<JobResult>(result_);
            };
        workshop_.write_outputs =
            [this](const run_folder::OutputRequest& request, const JobResult&) {
                request_ = request;
                ++n_writes_;
                return Result<run_folder::WrittenOutputs>(run_folder::WrittenOutputs{});
            };
    }

    int run(const std::string& text = case_file::good_case) {
        RunArguments arguments;
        arguments.case_file = write("rib.toml", text);
        arguments.out = folder_ / "out";
        arguments.n_threads = 2;
        arguments.with_pictures = false;
        Terminal terminal{out_, err_, false};
        return run_case(arguments, terminal, workshop_);
    }

    Workshop workshop_;
    JobResult result_ = finished_result();
    job::Job seen_job_;
    process::RunOptions seen_options_;
    run_folder::OutputRequest request_;
    int n_writes_ = 0;
    std::ostringstream out_;
    std::ostringstream err_;
};

TEST_F(RunCommand, HandsTheCaseToTheSolverAndTheResultToTheOutputs) {
    EXPECT_EQ(run(), 0);
    EXPECT_EQ(seen_job_.title, "Bracket");
    EXPECT_EQ(seen_options_.n_threads, 2);
    EXPECT_EQ(request_.directory, folder_ / "out");
    EXPECT_EQ(request_.job.title, "Bracket");
    EXPECT_FALSE(request_.with_pictures);
    EXPECT_EQ(request_.program_version, program_version());
    EXPECT_EQ(err_.str(), "");
}

TEST_F(RunCommand, HandsRoundedKinksToTheOutputs) {
    const std::string points =
        "points = [[0, 0], [20, 0], [40, 0], [60, 10], [80, 20]]\nround_kinks = 60";
    const std::string text = case_file::with_line(
        8, "curve = \"points\"", case_file::with_line(9, points, case_file::with_line(10, ""))
    );
    EXPECT_EQ(run(text), 0) << err_.str();
    ASSERT_EQ(request_.rounded_kinks.size(), 1U);
    EXPECT_THAT(
        request_.rounded_kinks[0],
        HasSubstr("kink of 26.6 deg, concave, at point 3, (40, 0) mm: radius 60")
    );
}

TEST_F(RunCommand, PrintsVerdictFiguresBesideTheHandCalculationAndTheCaution) {
    EXPECT_EQ(run(), 0);
    const std::string text = out_.str();
    EXPECT_THAT(
        text, HasSubstr("Will it split? holds, 62 % of the limit used (material data: typical)")
    );
    EXPECT_THAT(text, HasSubstr("The free edge uses 63 % of what the sheet bears."));
    EXPECT_THAT(
        text, HasSubstr("flange angle on the block  90.00 deg (89.00 to 91.00)  90.00 deg")
    );
    EXPECT_THAT(text, HasSubstr("edge stretch, largest      10.0 %                      11.0 %"));
    EXPECT_THAT(text, HasSubstr("springback                 2.34 deg (2.01 to 2.86)     1.15 deg"));
    EXPECT_THAT(text, HasSubstr("web lift                   0.40 mm"));
    EXPECT_THAT(text, HasSubstr("To know:\n  A plain warning.\n"));
    EXPECT_THAT(
        text, HasSubstr("Where computed and by hand are far apart:\n  Springback: a lot.\n")
    );
    EXPECT_THAT(text, HasSubstr("not approved data"));
    EXPECT_THAT(text, HasSubstr("sheet.html"));
}

TEST_F(RunCommand, SaysHowTheEdgeWasFinishedWhereItIsStated) {
    EXPECT_EQ(run(), 0);
    EXPECT_THAT(out_.str(), Not(HasSubstr("The free edge: ")));
    EXPECT_EQ(run(case_file::with_line(12, "web_width = 40\nedge = \"snipped\"")), 0);
    EXPECT_THAT(
        out_.str(),
        HasSubstr("  The free edge: snipped as cut. The stretch allowed is that of an edge")
    );
}

TEST_F(RunCommand, SaysWhatWouldHelpAndHowLikelyASplitIs) {
    EXPECT_EQ(run(), 0);
    EXPECT_TRUE(seen_options_.works_out_remedies);
    EXPECT_THAT(out_.str(), Not(HasSubstr("What would help")));
    EXPECT_THAT(out_.str(), Not(HasSubstr("How likely to split")));
    result_.remedies = process::Remedies{0.95, 0.9, {}, 0};
    result_.remedies->helpful = {
        {process::RemedyKind::larger_nose, 3, 4.5, {}, 0.72, findings::VerdictWord::holds}};
    result_.chance = findings::Chance{0.07, 0.08, "free edge", 0.85, 0.1, ""};
    EXPECT_EQ(run(), 0);
    EXPECT_THAT(
        out_.str(),
        HasSubstr("What would help:\n  - Nose radius 4.50 mm in place of 3.00 mm (bend tangent line"
        )
    );
    EXPECT_THAT(
        out_.str(), HasSubstr("How likely to split:\n  Of 100 such parts about 7 would split")
    );
    EXPECT_THAT(out_.str(), HasSubstr("no safety factor"));
}

TEST_F(RunCommand, SetsADriveInPassesBesideTheEvenOne) {
    EXPECT_EQ(run(), 0);
    EXPECT_TRUE(seen_options_.compares_with_even);
    EXPECT_THAT(out_.str(), Not(HasSubstr("as driven")));
    result_.passes = support::made_up_passes();
    EXPECT_EQ(run(case_file::with_line(24, "order = \"ends first\"\npasses = [40, 90]")), 0);
    EXPECT_THAT(
        out_.str(),
        HasSubstr("Driven from both ends to the middle, in 2 passes:\n"
                  "                                     as driven           driven evenly\n")
    );
    EXPECT_THAT(
        out_.str(),
        HasSubstr("on the way: most stretched         11.6 % at 40.00 mm  5.7 % at 40.00 mm\n")
    );
}

TEST_F(RunCommand, SaysWhetherTheLipCanFollowAndHowItStands) {
    result_ = support::made_up_lip_result();
    EXPECT_EQ(run(), 0);
    EXPECT_THAT(out_.str(), HasSubstr("Since the anneal it takes 4.0 %"));
    EXPECT_THAT(
        out_.str(), testing::ContainsRegex("lip angle on the block +89.00 deg .88.00 to 90.00.")
    );
    EXPECT_THAT(out_.str(), testing::ContainsRegex("lip springback +3.00 deg +2.50 deg"));
}

TEST_F(RunCommand, SaysHowToWorkTheEdgeWhereTheWebLifts) {
    EXPECT_EQ(run(), 0);
    EXPECT_TRUE(seen_options_.works_out_web_cure);
    EXPECT_THAT(out_.str(), Not(HasSubstr("Which way to work it")));
    result_.web_cure = process::WebCure{
        .step = 1, .zones = {{0, 40, -0.003, -0.004}}, .lift_before = 0.4, .lift_after = 0.1};
    out_.str("");
    workshop_.write_outputs = [](const auto&, const JobResult&) {
        return Result<run_folder::WrittenOutputs>(run_folder::WrittenOutputs{});
    };
    EXPECT_EQ(run(), 0);
    EXPECT_THAT(
        out_.str(),
        HasSubstr("Which way to work it:\n"
                  "  Shrink the flange edge about 0.30 % between stations 0 and 40 mm.\n"
                  "  Tried on the computed part, it brings the web lift from 0.40 mm to 0.10 mm.\n")
    );
    EXPECT_THAT(out_.str(), Not(HasSubstr("give or take")));
    result_.mesh_error.emplace().web_lift = 0.2;
    EXPECT_EQ(run(), 0);
    EXPECT_THAT(out_.str(), HasSubstr("give or take"));
    EXPECT_THAT(out_.str(), HasSubstr("The error bar of the lift reaches below"));
}

TEST_F(RunCommand, SaysOneFigureWhereAllStationsAgree) {
    result_.steps[1].findings.springback = findings::Spread{0.0408, 0.0408, 0.0408};
    EXPECT_EQ(run(), 0);
    EXPECT_THAT(
        out_.str(), HasSubstr("springback                 2.34 deg                    1.15")
    );
}

TEST_F(RunCommand, BreaksLongSentencesIntoLines) {
    result_.verdict.because = std::string(30, 'a') + " " + std::string(30, 'b') + " "
        + std::string(30, 'c') + " " + std::string(30, 'd');
    EXPECT_EQ(run(), 0);
    std::istringstream lines(out_.str());
    for (std::string line; std::getline(lines, line);) {
        EXPECT_LE(line.size(), 100U) << line;
    }
}

TEST_F(RunCommand, LeavesAWholeLog) {
    EXPECT_EQ(run(), 0);
    const std::string log = text_of(folder_ / "out" / "run.log");
    EXPECT_THAT(log, ::testing::StartsWith("flangewright " + program_version()));
    EXPECT_THAT(log, HasSubstr("begins: bend-down"));
    EXPECT_THAT(log, HasSubstr("release: done"));
    EXPECT_FALSE(std::filesystem::exists(folder_ / "out" / "run.log.part"));
}

TEST_F(RunCommand, MayReplaceItsOwnResult) {
    EXPECT_EQ(run(), 0);
    EXPECT_EQ(run(), 0);
    EXPECT_EQ(n_writes_, 2);
}

TEST_F(RunCommand, RefusesABadCaseBeforeTouchingTheDisk) {
    EXPECT_EQ(run(case_file::with_line(18, "nose_radius = 0")), 2);
    EXPECT_THAT(err_.str(), HasSubstr("rib.toml:18: block.nose_radius: found 0 mm"));
    EXPECT_THAT(err_.str(), HasSubstr("1 problem; nothing was computed."));
    EXPECT_EQ(n_writes_, 0);
    EXPECT_FALSE(std::filesystem::exists(folder_ / "out"));
}

TEST_F(RunCommand, RefusesAForeignFolderBeforeTheSolve) {
    std::filesystem::create_directory(folder_ / "out");
    write("out/precious.txt", "keep me");
    bool has_run = false;
    workshop_.run_job = [&has_run](const auto&, const auto&, const auto&) {
        has_run = true;
        return Result<JobResult>(JobResult{});
    };
    EXPECT_EQ(run(), 4);
    EXPECT_FALSE(has_run);
    EXPECT_THAT(err_.str(), HasSubstr("will not be overwritten"));
    EXPECT_EQ(text_of(folder_ / "out" / "precious.txt"), "keep me");
}

TEST_F(RunCommand, KeepsWhatWasReachedWhenNoEquilibriumIsFound) {
    result_.reason = process::StopReason::no_equilibrium;
    result_.steps.pop_back();
    result_.steps.front().report.angle_reached = 1.0472;
    EXPECT_EQ(run(), 3);
    EXPECT_EQ(n_writes_, 1);
    EXPECT_THAT(out_.str(), HasSubstr("no balance of forces was found beyond 60.00 deg"));
    EXPECT_THAT(out_.str(), Not(HasSubstr("springback")));
}

TEST_F(RunCommand, StopsOnASignalAndKeepsFinishedSteps) {
    workshop_.run_job = [this](const job::Job&, const auto&, const Monitor& monitor) {
        std::raise(SIGINT);
        const auto patience = std::chrono::steady_clock::now() + std::chrono::seconds(10);
        while (!monitor.stop.stop_requested() && std::chrono::steady_clock::now() < patience) {
            std::this_thread::sleep_for(std::chrono::milliseconds(1));
        }
        EXPECT_TRUE(monitor.stop.stop_requested());
        result_.reason = process::StopReason::stop_requested;
        result_.steps.pop_back();
        return Result<JobResult>(result_);
    };
    EXPECT_EQ(run(), 130);
    EXPECT_EQ(n_writes_, 1);
    EXPECT_THAT(out_.str(), HasSubstr("Stopped as asked"));
    EXPECT_THAT(text_of(folder_ / "out" / "run.log"), HasSubstr("bend-down: done"));
}

TEST_F(RunCommand, SaysSoWhenThereIsNothingToKeep) {
    result_ = {};
    result_.reason = process::StopReason::stop_requested;
    EXPECT_EQ(run(), 130);
    EXPECT_EQ(n_writes_, 0);
    EXPECT_THAT(err_.str(), HasSubstr("there is nothing to keep"));
}

TEST_F(RunCommand, TellsTroubleOfTheMesher) {
    workshop_.run_job = [](const auto&, const auto&, const auto&) {
        return Result<JobResult>(tl::unexpected(OutsideProblem{
            "meshing the blank", "mesh library", "simplify the outline"}));
    };
    EXPECT_EQ(run(), 4);
    EXPECT_EQ(err_.str(), "trouble meshing the blank (mesh library): simplify the outline\n");
}

TEST_F(RunCommand, TellsTroubleOfTheDisk) {
    workshop_.write_outputs = [](const auto&, const auto&) {
        return Result<run_folder::WrittenOutputs>(tl::unexpected(OutsideProblem{
            "writing", "summary.json", "free disk space"}));
    };
    EXPECT_EQ(run(), 4);
    EXPECT_EQ(err_.str(), "trouble writing (summary.json): free disk space\n");
    EXPECT_EQ(out_.str(), "");
}

// A death test: the second Ctrl-C must not wait for the solver.
TEST_F(RunCommand, EndsAtOnceWhenAskedTwice) {
    ::testing::FLAGS_gtest_death_test_style = "threadsafe";
    workshop_.run_job = [](const job::Job&, const auto&, const Monitor& monitor) {
        std::raise(SIGINT);
        while (!monitor.stop.stop_requested()) {
            std::this_thread::sleep_for(std::chrono::milliseconds(1));
        }
        std::raise(SIGTERM);
        std::this_thread::sleep_for(std::chrono::seconds(10));
        return Result<JobResult>(JobResult{});
    };
    EXPECT_EXIT(run(), ::testing::ExitedWithCode(130), "");
}

} // namespace
} // namespace flangewright::command_line
