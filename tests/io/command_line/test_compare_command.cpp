// Everything round the runs of a study: the solver is replaced by a quick stand-in, the processes
// are real.
#include "io/case_file/case_file.hpp"
#include "io/command_line/compare_command.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/command_line/temporary_folder.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <algorithm>
#include <csignal>
#include <fstream>
#include <sstream>

namespace flangewright::command_line {
namespace {

namespace fs = std::filesystem;
using process::JobResult;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

/// A summary as a run leaves it; the larger the nose, the smaller the share.
std::string summary_of(const run_folder::OutputRequest& request, const std::string& reason) {
    return fmt::format(
        R"({{"case": {{"run_mark": "{}"}}, "solve": {{"reason": "{}"}},
"steps": [{{"name": "release", "edge_strain_log": {{"max": 0.08}}}}],
"mesh_error": {{"edge_strain_log": 0.001}},
"verdict": {{"word": "holds", "share_used": {:.4f}, "data_grade": "typical",
"limits": [{{"place": "free edge", "share": {:.4f}}}]}}}})",
        request.run_mark,
        reason,
        1.5 / request.job.block.nose_radius,
        1.5 / request.job.block.nose_radius
    );
}

class CompareCommand : public WithFolder {
protected:
    CompareCommand() {
        workshop_.run_job = [this](const job::Job& job, const auto& options, const Monitor&) {
            note("run " + std::to_string(job.block.nose_radius).substr(0, 3));
            EXPECT_EQ(options.n_threads, 1);
            if (job.block.nose_radius == crashes_at_) {
                std::raise(SIGKILL);
            }
            JobResult result;
            result.steps.resize(1);
            result.steps[0].kind = job::StepKind::release;
            result.steps[0].report.reason = job.block.nose_radius == stuck_at_
                ? process::StopReason::no_equilibrium
                : process::StopReason::done;
            result.reason = result.steps[0].report.reason;
            return Result<JobResult>(result);
        };
        workshop_.write_outputs = [this](
                                      const run_folder::OutputRequest& request,
                                      const JobResult& result
                                  ) -> Result<run_folder::WrittenOutputs> {
            if (request.job.block.nose_radius == disk_full_at_) {
                return tl::unexpected(OutsideProblem{
                    "writing a file", "summary.json", "the disk is full"});
            }
            const bool is_done = result.reason == process::StopReason::done;
            std::ofstream(request.directory / "summary.json")
                << summary_of(request, is_done ? "done" : "no equilibrium");
            return run_folder::WrittenOutputs{};
        };
    }

    /// The runs are other processes: they leave a line each.
    void note(const std::string& line) const {
        std::ofstream(folder_ / "noted", std::ios::app) << line << "\n";
    }
    [[nodiscard]] int n_runs() const {
        std::istringstream lines(text_of(folder_ / "noted"));
        int n = 0;
        for (std::string line; std::getline(lines, line);) {
            ++n;
        }
        return n;
    }

    int compare(const std::string& vary = "block.nose_radius=3mm,4mm,5mm") {
        out_.str("");
        err_.str("");
        CompareArguments arguments = arguments_;
        arguments.cases = {write("rib.toml", case_file::good_case)};
        arguments.variations = *compare::read_variations({vary});
        arguments.out = study_;
        Terminal terminal{out_, err_, false};
        return compare_variants(arguments, terminal, workshop_);
    }

    CompareArguments arguments_;
    Workshop workshop_;
    double crashes_at_ = 0;
    double stuck_at_ = 0;
    double disk_full_at_ = 0;
    fs::path study_ = folder_ / "study";
    std::ostringstream out_;
    std::ostringstream err_;
};

TEST_F(CompareCommand, RunsEachVariantAndWritesTheSheet) {
    EXPECT_EQ(compare(), 0) << err_.str();
    EXPECT_EQ(n_runs(), 3);
    for (const char* name : {"compare.html", "compare.csv", "compare.json", "study.txt"}) {
        EXPECT_TRUE(fs::exists(study_ / name)) << name;
    }
    EXPECT_TRUE(fs::exists(study_ / "runs" / "block.nose_radius-4mm" / "run.log"));
    EXPECT_THAT(
        out_.str(),
        AllOf(
            HasSubstr("3 variants, "),
            HasSubstr("Take 3 (block.nose_radius = 5mm)"),
            HasSubstr("not approved data")
        )
    );
}

TEST_F(CompareCommand, FinishedRunsAreNotRunAgain) {
    EXPECT_EQ(compare(), 0);
    EXPECT_EQ(compare("block.nose_radius=4mm,3mm,6mm"), 0);
    EXPECT_EQ(n_runs(), 4);
    EXPECT_THAT(out_.str(), HasSubstr("2 kept from an earlier run"));
    arguments_.with_remedies = false;
    EXPECT_EQ(compare(), 0);
    EXPECT_EQ(n_runs(), 7) << "other options are another run";
}

TEST_F(CompareCommand, AFailedVariantDoesNotStopTheOthers) {
    crashes_at_ = 3;
    stuck_at_ = 4;
    EXPECT_EQ(compare(), 4);
    EXPECT_EQ(n_runs(), 3);
    EXPECT_THAT(
        out_.str(),
        AllOf(
            HasSubstr("1: the run ended by itself"),
            HasSubstr("2: no equilibrium in release"),
            HasSubstr("only 3 (block.nose_radius = 5mm) came to its end")
        )
    );
    crashes_at_ = 0;
    EXPECT_EQ(compare(), 3);
    EXPECT_EQ(n_runs(), 5) << "the finished one is kept";
}

TEST_F(CompareCommand, AFullDiskIsToldAndFinishedRunsAreKept) {
    disk_full_at_ = 4;
    EXPECT_EQ(compare(), 4);
    EXPECT_THAT(
        out_.str(), HasSubstr("2: trouble writing a file (summary.json): the disk is full")
    );
    disk_full_at_ = 0;
    EXPECT_EQ(compare(), 0);
    EXPECT_EQ(n_runs(), 4);
}

TEST_F(CompareCommand, ListsJobsWithoutRunningThem) {
    arguments_.lists_jobs = true;
    EXPECT_EQ(compare(), 0);
    EXPECT_EQ(n_runs(), 0);
    EXPECT_THAT(out_.str(), HasSubstr(" run " + (study_ / "cases").string()));
    EXPECT_EQ(std::ranges::count(out_.str(), '\n'), 3);
    EXPECT_EQ(out_.str(), text_of(study_ / "jobs.txt"));
    EXPECT_THAT(err_.str(), HasSubstr("--collect"));
    EXPECT_TRUE(fs::exists(study_ / "cases" / "block.nose_radius-3mm.toml"));
}

TEST_F(CompareCommand, CollectsRunsMadeFromTheLinesAndRunsNothing) {
    arguments_.lists_jobs = true;
    EXPECT_EQ(compare(), 0);
    Terminal terminal{out_, err_, false};
    for (const char* name : {"block.nose_radius-3mm", "block.nose_radius-5mm"}) {
        RunArguments run;
        run.case_file = study_ / "cases" / (std::string(name) + ".toml");
        run.out = study_ / "runs" / name;
        run.n_threads = 1;
        run.resumes = true;
        ASSERT_EQ(run_case(run, terminal, workshop_), 0) << err_.str();
    }
    arguments_.lists_jobs = false;
    arguments_.collects = true;
    EXPECT_EQ(compare(), 4) << "one is missing";
    EXPECT_EQ(n_runs(), 2);
    EXPECT_THAT(out_.str(), AllOf(HasSubstr("2: not run yet"), HasSubstr("Take 3")));
    arguments_.collects = false;
    arguments_.lists_jobs = true;
    EXPECT_EQ(compare(), 0);
    EXPECT_EQ(std::ranges::count(out_.str(), '\n'), 1) << "what is finished is not listed again";
}

TEST_F(CompareCommand, BadInputRunsAndWritesNothing) {
    for (const char* vary : {"block.nose_radios=3mm,4mm", "block.nose_radius=3mm,300mm", "x=3"}) {
        EXPECT_EQ(compare(vary), 2);
        EXPECT_THAT(err_.str(), HasSubstr("nothing was computed"));
    }
    EXPECT_EQ(n_runs(), 0);
    EXPECT_FALSE(fs::exists(study_));
}

TEST_F(CompareCommand, LeavesAFolderOfOtherThingsAlone) {
    fs::create_directory(study_);
    write("study/mine.txt", "mine");
    EXPECT_EQ(compare(), 4);
    EXPECT_THAT(err_.str(), HasSubstr("no study of this program"));
    EXPECT_EQ(n_runs(), 0);
}

TEST_F(CompareCommand, ADrawingLiesBesideTheCasesThatNameIt) {
    arguments_.lists_jobs = true;
    CompareArguments arguments = arguments_;
    arguments.cases = {FLANGEWRIGHT_SOURCE_DIR "/cases/drawn/case.toml"};
    arguments.variations = *compare::read_variations({"block.nose_radius=3mm,4mm"});
    arguments.out = study_;
    Terminal terminal{out_, err_, false};
    ASSERT_EQ(compare_variants(arguments, terminal, workshop_), 0) << err_.str();
    EXPECT_EQ(
        text_of(study_ / "cases" / "block.nose_radius-3mm-part.dxf"),
        text_of(FLANGEWRIGHT_SOURCE_DIR "/cases/drawn/part.dxf")
    );
    EXPECT_TRUE(case_file::read_case_file(study_ / "cases" / "block.nose_radius-3mm.toml"));
}

TEST(StudyFolder, IsNamedAfterTheCase) {
    EXPECT_EQ(default_study_folder("/shop/rib.toml"), "/shop/rib-compare");
    EXPECT_EQ(default_study_folder("/shop/rib/case.toml"), "/shop/rib/rib-compare");
}

} // namespace
} // namespace flangewright::command_line
