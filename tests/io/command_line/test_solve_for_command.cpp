// Everything round the search: the solver is replaced by parts whose figures are formulas.
#include "io/command_line/command_line.hpp"
#include "io/command_line/solve_for_command.hpp"
#include "io/units/written_number.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/command_line/temporary_folder.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <csignal>
#include <numbers>
#include <sstream>

namespace flangewright::command_line {
namespace {

using process::JobResult;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::MatchesRegex;
using ::testing::Not;

const std::string leaf_case = case_file::with_line(
    23, "kind = \"leaf\"", case_file::with_line(24, "", case_file::with_line(26, ""))
);

class SolveForCommand : public WithFolder {
protected:
    SolveForCommand() {
        workshop_.whole.run_job =
            [this](const job::Job& job, const process::RunOptions&, const Monitor&) {
                jobs_.push_back(job);
                return Result<JobResult>(part_of(job));
            };
        workshop_.whole.write_outputs =
            [this](const run_folder::OutputRequest& request, const JobResult&) {
                request_ = request;
                return Result<run_folder::WrittenOutputs>(run_folder::WrittenOutputs{});
            };
        workshop_.quick = [this](const job::Job& job, const findings::Verdict&) {
            return Numbers({0.98 * angle_of(job, 0), 0.95 * share_of(job), 1, 0});
        };
        arguments_.out = folder_ / "out";
        arguments_.n_threads = 2;
    }

    static double angle_of(const job::Job& job, double station) {
        return job.block.wall_angle_at(station) - 0.05;
    }
    // Deeper: more; a larger nose or line: less.
    static double share_of(const job::Job& job) {
        return job.blank.flange_depth / 36 * (2.4 / job.block.nose_radius)
            * (200 / job.blank.line.radius());
    }

    JobResult part_of(const job::Job& job) const {
        JobResult result;
        const double length = job.blank.line.length();
        result.mesh.station_lines = {{0}, {1}};
        process::StepResult released;
        released.kind = job::StepKind::release;
        double mean = 0;
        for (const double share : {0.0, 0.25, 0.5, 0.75, 1.0}) {
            const double station = share * length;
            const double angle = angle_of(job, station) - uneven_ * share;
            findings::StationFindings at;
            at.station = station;
            at.flange_angle = angle;
            released.findings.stations.push_back(at);
            mean += angle / 5;
        }
        released.findings.flange_angle_middle = {mean, mean, mean};
        result.steps.push_back(released);
        findings::LimitUse use;
        use.place = "free edge";
        use.grade = material::DataGrade::coupon;
        use.share = share_of(job);
        result.verdict.limits = {use};
        result.verdict.share_used = use.share;
        result.verdict.word = findings::VerdictWord::holds;
        result.verdict.because = "The free edge bears it.";
        return result;
    }

    int run(SolveFor what, const std::string& text) {
        arguments_.what = what;
        arguments_.case_file = write("rib.toml", text);
        Terminal terminal{out_, err_, false};
        return solve_for(arguments_, terminal, workshop_);
    }

    [[nodiscard]] nlohmann::json json() const {
        return nlohmann::json::parse(text_of(folder_ / "out" / "solve_for.json"));
    }

    void expect_refused(const std::string& words) {
        EXPECT_THAT(err_.str(), HasSubstr(words));
        EXPECT_TRUE(jobs_.empty());
        EXPECT_FALSE(std::filesystem::exists(folder_ / "out"));
    }

    SolveForArguments arguments_;
    SolveForWorkshop workshop_;
    std::vector<job::Job> jobs_;
    run_folder::OutputRequest request_;
    std::ostringstream out_;
    std::ostringstream err_;
    double uneven_ = 0; // rad, from start to end
};

TEST_F(SolveForCommand, WritesTheUndercutIntoACopyOfTheCase) {
    ASSERT_EQ(run(SolveFor::undercut, leaf_case), done) << err_.str();
    const double wall = json().at("one_value").at("value_deg");
    EXPECT_NEAR(wall, 90 + 0.05 * 180 / std::numbers::pi, 0.3); // the tolerance
    EXPECT_EQ(
        text_of(folder_ / "out" / "case.toml"),
        case_file::with_line(19, fmt::format("wall_angle = {:.4g}", wall), leaf_case)
    );
    EXPECT_THAT(
        out_.str(),
        AllOf(
            HasSubstr(fmt::format("block.wall_angle = {:.2f} deg", wall)),
            HasSubstr("whole run"),
            HasSubstr("trial"),
            HasSubstr("not approved data")
        )
    );
    EXPECT_EQ(json().at("one_value").at("end"), "found");
    EXPECT_NEAR(json().at("check").at("flange_angle_deg"), 90, 0.3);
    EXPECT_EQ(request_.directory, folder_ / "out" / "check-run");
    EXPECT_NEAR(request_.job.block.wall_angle, jobs_.back().block.wall_angle, 1e-12);
}

TEST_F(SolveForCommand, GivesATableWhereTheAngleDiffersAlongTheLine) {
    uneven_ = 0.03;
    ASSERT_EQ(run(SolveFor::undercut, leaf_case), done) << err_.str() << out_.str();
    EXPECT_THAT(out_.str(), AllOf(HasSubstr("over the station"), HasSubstr("furthest off")));
    EXPECT_THAT(text_of(folder_ / "out" / "case.toml"), HasSubstr("wall_angle = [[0, 92."));
    const auto along = json().at("along");
    EXPECT_EQ(along.at("end"), "found");
    for (const double angle : along.at("flange_angle_deg")) {
        EXPECT_NEAR(angle, 90, 0.3);
    }
}

TEST_F(SolveForCommand, GivesOneValueWhereItIsAskedFor) {
    uneven_ = 0.03;
    arguments_.one_value = true;
    ASSERT_EQ(run(SolveFor::undercut, leaf_case), done);
    EXPECT_TRUE(json().at("along").is_null());
    EXPECT_THAT(out_.str(), HasSubstr("Along the line the angle goes from"));
}

TEST_F(SolveForCommand, MeetsTheAnglesOfATableInTheCase) {
    const std::string bevel =
        case_file::with_line(19, "wall_angle = [[0, 80], [69.8, 88]]", leaf_case);
    ASSERT_EQ(run(SolveFor::undercut, bevel), done) << err_.str() << out_.str();
    const auto along = json().at("along");
    EXPECT_NEAR(along.at("wanted_deg").front(), 80, 1e-9);
    EXPECT_NEAR(along.at("flange_angle_deg").front(), 80, 0.3);
    EXPECT_NEAR(along.at("flange_angle_deg").back(), 88, 0.3);
    EXPECT_TRUE(json().at("one_value").is_null());
}

TEST_F(SolveForCommand, FindsTheDeepestFlange) {
    arguments_.limit = "75 %";
    ASSERT_EQ(run(SolveFor::flange_depth, case_file::good_case), done) << err_.str();
    const double depth = json().at("one_value").at("value_mm");
    EXPECT_LE(depth, 27);
    EXPECT_GE(depth, 26.5);
    EXPECT_EQ(
        text_of(folder_ / "out" / "case.toml").find("flange_depth = 26."),
        case_file::good_case.find("flange_depth = 18")
    );
    EXPECT_LE(json().at("check").at("share_used"), 0.75);
}

// A taper is raised or lowered as a whole: its edge moves in parallel.
TEST_F(SolveForCommand, AddsTheSameDepthAllAlongATable) {
    const std::string taper =
        case_file::with_line(13, "flange_depth = [[0, 18], [20, 18], [\"60 mm\", 14]]");
    arguments_.limit = "75 %";
    ASSERT_EQ(run(SolveFor::flange_depth, taper), done) << err_.str();
    const double deepest = json().at("one_value").at("value_mm");
    EXPECT_LE(deepest, 27);
    EXPECT_GE(deepest, 26.5);
    EXPECT_NEAR(json().at("added_all_along_mm"), deepest - 18, 1e-6);
    const std::string table = fmt::format(
        "flange_depth = [[0, {0}], [20, {0}], [60, {1}]]",
        units::plain_number(deepest, 2),
        units::plain_number(deepest - 4, 2)
    );
    EXPECT_THAT(text_of(folder_ / "out" / "case.toml"), HasSubstr(table));
    EXPECT_THAT(out_.str(), HasSubstr("mm where deepest, all of its table raised by 8."));
    EXPECT_THAT(out_.str(), HasSubstr("blank.flange_depth from "));
    for (const job::Job& job : jobs_) {
        EXPECT_NEAR(job.blank.flange_widths.most() - job.blank.flange_widths.least(), 4, 0.5);
    }
}

TEST_F(SolveForCommand, FindsTheSmallestRadii) {
    ASSERT_EQ(run(SolveFor::plan_radius, case_file::good_case), done) << err_.str();
    EXPECT_NEAR(json().at("one_value").at("value_mm"), 125, 4.1); // 18 / 36 * 200 / 0.8
    ASSERT_EQ(run(SolveFor::nose_radius, case_file::good_case), done) << err_.str();
    EXPECT_NEAR(json().at("one_value").at("value_mm"), 1.5, 0.11);
    EXPECT_EQ(json().at("key"), "block.nose_radius");
}

TEST_F(SolveForCommand, SpeaksTheUsersUnit) {
    const std::string inch = R"(title = "Inch"
unit = "in"
[sheet]
material = "2024-O"
thickness = 0.032
[bend_line]
curve = "concave"
radius = 8
sweep = 20
[blank]
web_width = 1.5
flange_depth = "3/4"  # drawing
[block]
nose_radius = "3/32"
[drive]
kind = "leaf"
)";
    arguments_.to = "1 1/2";
    ASSERT_EQ(run(SolveFor::flange_depth, inch), done) << err_.str();
    EXPECT_THAT(out_.str(), HasSubstr("to 1.500 in (38.10 mm)"));
    EXPECT_THAT(text_of(folder_ / "out" / "case.toml"), HasSubstr("flange_depth = 1.1"));
    EXPECT_THAT(text_of(folder_ / "out" / "case.toml"), HasSubstr("  # drawing"));
    arguments_.to = "";
    ASSERT_EQ(run(SolveFor::undercut, inch), done) << err_.str();
    EXPECT_THAT(
        text_of(folder_ / "out" / "case.toml"),
        MatchesRegex(
            "(.|\n)*\\[block\\]\nwall_angle = 9[23][.0-9]*\nnose_radius = \"3/32\"\n(.|\n)*"
        )
    );
}

TEST_F(SolveForCommand, SaysThatNothingWithinTheBoundsDoes) {
    arguments_.from = "90";
    arguments_.to = "91";
    EXPECT_EQ(run(SolveFor::undercut, leaf_case), no_answer);
    EXPECT_THAT(
        out_.str(),
        AllOf(
            HasSubstr("No answer"),
            HasSubstr("at 90.00 deg (from): 87.1"),
            HasSubstr("at 91.00 deg (to): 88.1")
        )
    );
    EXPECT_EQ(json().at("one_value").at("end"), "none within the bounds");
}

TEST_F(SolveForCommand, WritesNothingWithoutAFolder) {
    arguments_.out.reset();
    EXPECT_EQ(run(SolveFor::undercut, leaf_case), done);
    EXPECT_THAT(out_.str(), AllOf(HasSubstr("Answer"), Not(HasSubstr("Written"))));
    EXPECT_TRUE(request_.directory.empty());
}

TEST_F(SolveForCommand, RefusesAWiperForAnUndercut) {
    EXPECT_EQ(run(SolveFor::undercut, case_file::good_case), bad_input);
    expect_refused("drive.kind: found a wiper, allowed a leaf");
}

TEST_F(SolveForCommand, RefusesADriveThatEndsBeforeTheWall) {
    EXPECT_EQ(
        run(SolveFor::undercut, case_file::with_line(26, "angle = 85", leaf_case)), bad_input
    );
    expect_refused("drive.angle");
}

TEST_F(SolveForCommand, RefusesCrossingBounds) {
    arguments_.from = "20";
    arguments_.to = "12";
    EXPECT_EQ(run(SolveFor::flange_depth, case_file::good_case), bad_input);
    expect_refused("--from: found 20.00 mm to 12.00 mm, allowed bounds that rise");
}

TEST_F(SolveForCommand, RefusesBoundsTheKeyDoesNotAllow) {
    arguments_.from = "400";
    arguments_.to = "0.5";
    EXPECT_EQ(run(SolveFor::flange_depth, case_file::good_case), bad_input);
    expect_refused("--from: found 400.00 mm for blank.flange_depth, allowed 1 mm to 300 mm");
    EXPECT_THAT(err_.str(), HasSubstr("--to: found 0.50 mm"));
}

TEST_F(SolveForCommand, RefusesValuesThatAreNone) {
    arguments_.from = "x";
    arguments_.limit = "80";
    EXPECT_EQ(run(SolveFor::flange_depth, case_file::good_case), bad_input);
    expect_refused("--limit: found \"80\"");
    arguments_.limit = "";
    EXPECT_EQ(run(SolveFor::flange_depth, case_file::good_case), bad_input);
    expect_refused("--from: found \"x\"");
}

TEST_F(SolveForCommand, RefusesOptionsOfAnotherQuestion) {
    arguments_.limit = "0.8";
    EXPECT_EQ(run(SolveFor::undercut, leaf_case), bad_input);
    expect_refused("--limit");
    arguments_.limit = "";
    arguments_.angle = "88";
    EXPECT_EQ(run(SolveFor::nose_radius, leaf_case), bad_input);
    expect_refused("--angle only with undercut");
}

TEST_F(SolveForCommand, RefusesALineWithoutOneRadius) {
    const std::string straight = case_file::with_line(
        8,
        "curve = \"straight\"\nlength = 60",
        case_file::with_line(9, "", case_file::with_line(10, ""))
    );
    EXPECT_EQ(run(SolveFor::plan_radius, straight), bad_input);
    expect_refused("bend_line.radius");
}

TEST_F(SolveForCommand, RefusesAFolderWithOtherFiles) {
    std::filesystem::create_directory(folder_ / "out");
    write("out/mine.txt", "mine");
    EXPECT_EQ(run(SolveFor::undercut, leaf_case), outside_trouble);
    EXPECT_EQ(text_of(folder_ / "out" / "mine.txt"), "mine");
    EXPECT_TRUE(jobs_.empty());
}

TEST_F(SolveForCommand, TellsWhatWasFoundWhenInterrupted) {
    const auto whole = workshop_.whole.run_job;
    workshop_.whole.run_job = [&](const auto& job, const auto& options, const Monitor& monitor) {
        if (!jobs_.empty()) {
            std::raise(SIGINT);
            while (!monitor.stop.stop_requested()) {
            }
        }
        return whole(job, options, monitor);
    };
    EXPECT_EQ(run(SolveFor::undercut, leaf_case), interrupted);
    EXPECT_THAT(
        out_.str(), AllOf(HasSubstr("Stopped as asked"), HasSubstr("The nearest run: 87.1"))
    );
    EXPECT_EQ(json().at("one_value").at("end"), "stopped as asked");
    EXPECT_FALSE(std::filesystem::exists(folder_ / "out" / "case.toml")); // no answer to go by
}

} // namespace
} // namespace flangewright::command_line
