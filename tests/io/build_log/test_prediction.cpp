#include "io/build_log/prediction.hpp"
#include "io/tables/station_table.hpp"
#include "io/tables/summary.hpp"
#include "io/units/angle.hpp"
#include "tests/support/formed_flange.hpp"

#include <gmock/gmock.h>

namespace flangewright::build_log {
namespace {

using ::testing::HasSubstr;

constexpr double seven_digits = 1e-6; // as the table is printed

TEST(Prediction, IsWhatTheTablesOfARunSay) {
    const job::Job job = support::made_up_job();
    const process::JobResult result = support::made_up_result();
    tables::RunFacts facts;
    facts.date = "2026-02-03";
    const auto read = prediction_from(
        tables::summary_json(facts, job, result), tables::stations_csv(job, result), "out"
    );
    ASSERT_TRUE(read) << key_file::line_for(read.error());
    EXPECT_EQ(read->title, job.title);
    EXPECT_EQ(read->date, "2026-02-03");
    EXPECT_EQ(read->edge_finish, "not stated");
    EXPECT_TRUE(read->is_finished);
    ASSERT_EQ(read->steps.size(), 2U);
    const findings::PartFindings& found = result.steps[1].findings;
    const StepPrediction& step = read->steps[1];
    EXPECT_EQ(step.name, "release");
    EXPECT_NEAR(step.angle, found.flange_angle_middle.mean, seven_digits);
    EXPECT_NEAR(step.web_lift, found.web_lift, seven_digits);
    ASSERT_EQ(step.stations.size(), found.stations.size());
    const findings::StationFindings& at = found.stations[7];
    EXPECT_NEAR(*step.at(at.station, &StationPrediction::angle), at.flange_angle, 2 * seven_digits);
    EXPECT_NEAR(*step.at(at.station, &StationPrediction::web_gap), at.web_gap, seven_digits);
}

TEST(Prediction, LiesStraightBetweenStationsAndNowhereBeyond) {
    StepPrediction step;
    step.stations = {{0, 1, 0.1, 0.8, 0}, {10, 2, 0.2, 0.7, 0.5}, {20, 2, 0.2, 0.7, 0.5}};
    EXPECT_DOUBLE_EQ(*step.at(5, &StationPrediction::angle), 1.5);
    EXPECT_DOUBLE_EQ(*step.at(20.01, &StationPrediction::angle), 2);
    EXPECT_FALSE(step.at(21, &StationPrediction::angle));
    // Rising from 0.1 to 0.2 over the first half, level over the second.
    EXPECT_NEAR(*step.mean_edge_stretch(0, 20), 0.175, 1e-12);
    EXPECT_FALSE(step.mean_edge_stretch(15, 25));
    EXPECT_FALSE(StepPrediction().at(0, &StationPrediction::angle));
}

TEST(Prediction, RefusesWhatNoRunWrites) {
    const job::Job job = support::made_up_job();
    const process::JobResult result = support::made_up_result();
    const std::string summary = tables::summary_json({}, job, result);
    const std::string stations = tables::stations_csv(job, result);
    const auto problem = [&](const std::string& one, const std::string& other) {
        const auto read = prediction_from(one, other, "out");
        return read ? "" : key_file::line_for(read.error());
    };
    EXPECT_EQ(problem(summary, stations), "");
    EXPECT_THAT(problem(summary.substr(0, 200), stations), HasSubstr("out: summary.json"));
    EXPECT_THAT(problem("{\"schema\":1}", stations), HasSubstr("out: summary.json"));
    EXPECT_THAT(problem("[1]", stations), HasSubstr("out: summary.json"));
    EXPECT_THAT(
        problem(summary, stations.substr(0, stations.size() - 40)), HasSubstr("out: stations.csv")
    );
    EXPECT_THAT(problem(summary, "step\ntrim\n"), HasSubstr("out: stations.csv"));
}

} // namespace
} // namespace flangewright::build_log
