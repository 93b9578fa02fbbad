#include "io/compare/run_record.hpp"
#include "solver/findings/depth_left.hpp"
#include "tests/io/command_line/temporary_folder.hpp"

#include <gmock/gmock.h>

#include <cmath>

namespace flangewright::compare {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

/// A run with a trim, so that the edge counts before it. Figures are made up.
std::string summary_text(const std::string& reason = "done") {
    return R"({"case": {"run_mark": "abc"}, "solve": {"reason": ")" + reason + R"("},
"steps": [
 {"name": "bend-down", "angle_reached_deg": 63.2, "edge_strain_log": {"max": 0.1},
  "thinning_percent": {"max": 5}},
 {"name": "release", "angle_reached_deg": 90, "edge_strain_log": {"max": 0.099},
  "springback_deg_middle": {"mean": 1.5}, "thinning_percent": {"max": 5}},
 {"name": "trim", "angle_reached_deg": 90, "edge_strain_log": {"max": 0.07},
  "flange_angle_deg_middle": {"mean": 88.4}, "web_lift_mm": {"max": 0.4},
  "flange_depth_mm": {"mean": 16.1}, "thinning_percent": {"max": 3}}],
"mesh_error": {"edge_strain_log": 0.003, "springback_deg": 0.1, "flange_angle_deg": null,
 "web_lift_mm": 0.12},
"scatter": {"total": {"edge_strain_log": 0.004, "web_lift_mm": 0.05}},
"what_would_help": [{"what": "less_depth", "from_mm": 20, "to_mm": 17.5, "share": 0.79}],
"verdict": {"word": "close", "share_used": 0.95, "because": "The free edge.",
 "data_grade": "typical",
 "limits": [{"place": "bend", "share": 0.5}, {"place": "free edge", "share": 0.95}]}})";
}

constexpr const char* stations =
    "step,station_mm,flange_angle_deg,springback_deg,edge_strain_log,edge_stretch_percent\n"
    "bend-down,0,90,,0.1,10.5\nbend-down,5,90,,0.09,9.4\n"
    "release,0,88,1,0.099,10.4\nrelease,5,88.1,1,0.09,9.4\n"
    "trim,0,88.2,1,0.07,7.3\ntrim,5,,1,0.06,6.2\n";

class Record : public command_line::WithFolder {
protected:
    RunRecord read(const std::string& summary) {
        write("summary.json", summary);
        write("stations.csv", stations);
        return read_run(folder_, "abc");
    }
};

TEST_F(Record, HoldsTheFiguresWithTheirErrors) {
    const RunRecord record = read(summary_text());
    ASSERT_EQ(record.end, RunEnd::done);
    EXPECT_EQ(record.verdict, "close");
    EXPECT_EQ(record.error_meaning, "mesh and scatter");
    EXPECT_EQ(record.flange_angle_deg.value, 88.4);
    EXPECT_EQ(record.springback_deg.value, 1.5);
    EXPECT_EQ(record.springback_deg.error, 0.1);
    EXPECT_NEAR(*record.web_lift_mm.error, 0.13, 1e-12);
    EXPECT_EQ(record.thinning_percent.value, 5) << "of the step that strains the edge most";
    EXPECT_NEAR(*record.edge_stretch_percent.value, 100 * std::expm1(0.1), 1e-9);
    EXPECT_NEAR(*record.edge_stretch_percent.error, 100 * std::exp(0.1) * 0.005, 1e-9);
    EXPECT_NEAR(*record.share.error, 0.95 * 0.005 / 0.1, 1e-12);
    EXPECT_FALSE(record.flange_angle_deg.error);
}

TEST_F(Record, HasTheCurvesOfTheRightSteps) {
    const RunRecord record = read(summary_text());
    EXPECT_THAT(record.edge_stretch.station, ElementsAre(0, 5));
    EXPECT_THAT(record.edge_stretch.value, ElementsAre(10.5, 9.4));
    EXPECT_THAT(record.flange_angle.value, ElementsAre(88.2)) << "the empty cell is left out";
}

TEST_F(Record, SaysWhatHelpsAndHowMuchTooDeepItIs) {
    const RunRecord record = read(summary_text());
    EXPECT_EQ(record.helps, "flange 2.5 mm less deep: 79 %");
    EXPECT_EQ(record.too_deep_mm, 2.5);
}

TEST_F(Record, HasTheLipsFiguresAndItsEdgesShareSinceSoft) {
    std::string text = summary_text();
    const std::string trim = R"("flange_depth_mm": {"mean": 16.1})";
    text.replace(
        text.find(trim),
        trim.size(),
        trim + R"(, "edge_strain_used_log": {"max": 0.04}, "lip": {"angle_deg_middle":
 {"mean": 86.2}, "springback_deg_middle": {"mean": 3.1}})"
    );
    const std::string edge = R"("place": "free edge",)";
    text.replace(text.find(edge), edge.size(), edge + R"( "allowed": 0.1,)");
    const RunRecord record = read(text);
    EXPECT_EQ(record.lip_angle_deg.value, 86.2);
    EXPECT_EQ(record.lip_springback_deg.value, 3.1);
    EXPECT_NEAR(*record.lip_edge_share.value, std::expm1(0.04) / 0.1, 1e-12);
    EXPECT_FALSE(read(summary_text()).lip_angle_deg.value);
}

TEST_F(Record, TellsTheDepthLeftFromItsLimits) {
    RunRecord record = read(summary_text());
    ASSERT_EQ(record.limits.size(), 2U);
    record.limits[1].grade = material::DataGrade::coupon;
    job::Job job;
    job.sheet.thickness = 0.8;
    job.blank.line = outline::BendLine::arc(100, 0.5, outline::Curve::concave);
    job.blank.flange_depth = 15;
    job.block.nose_radius = 2.4;
    tell_depth_left(job, record);
    ASSERT_TRUE(record.depth_left_mm.value); // 95 % of the limit: too deep
    EXPECT_LT(*record.depth_left_mm.value, 0);
    EXPECT_EQ(record.depth_left_mm.value, findings::depth_left(job, record.limits));
}

TEST_F(Record, AShareOfAnotherPlaceThanTheEdgeHasNoErrorBar) {
    std::string text = summary_text();
    text.replace(text.find("\"place\": \"free edge\""), 20, "\"place\": \"the bend  \"");
    EXPECT_FALSE(read(text).share.error);
}

TEST_F(Record, AnUnfinishedRunSaysHowFarItCame) {
    const RunRecord stuck = read(summary_text("no equilibrium"));
    EXPECT_EQ(stuck.end, RunEnd::no_equilibrium);
    EXPECT_EQ(stuck.reason, "no equilibrium in trim, at 90.0 deg");
    EXPECT_EQ(read(summary_text("stopped by the user")).end, RunEnd::missing);
}

TEST_F(Record, ARunOfAnotherJobIsNotTaken) {
    read(summary_text());
    const RunRecord other = read_run(folder_, "abd");
    EXPECT_EQ(other.end, RunEnd::missing);
    EXPECT_THAT(other.reason, HasSubstr("another case"));
}

TEST_F(Record, AMissingOrBrokenRunHasAReason) {
    EXPECT_EQ(read_run(folder_ / "nowhere", "abc").reason, "not run yet");
    write("summary.json", "{ broken");
    EXPECT_EQ(read_run(folder_, "abc").end, RunEnd::missing);
    write("run.log", "flangewright 1\n     0.12 s  trouble writing a file (x): the disk is full\n");
    const RunRecord failed = read_run(folder_, "abc");
    EXPECT_EQ(failed.end, RunEnd::failed);
    EXPECT_EQ(failed.reason, "trouble writing a file (x): the disk is full");
    write("run.log.part", "flangewright 1\n");
    EXPECT_THAT(read_run(folder_, "abc").reason, HasSubstr("killed"));
}

TEST_F(Record, ASummaryWithoutTheKeysIsNoCrash) {
    EXPECT_EQ(read("[]").end, RunEnd::missing);
    EXPECT_EQ(read("{}").end, RunEnd::missing);
    const RunRecord bare =
        read(R"({"case":{"run_mark":"abc"},"solve":{"reason":"done"},"steps":[{}]})");
    EXPECT_EQ(bare.end, RunEnd::done);
    EXPECT_FALSE(bare.share.value);
}

} // namespace
} // namespace flangewright::compare
