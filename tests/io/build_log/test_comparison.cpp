#include "io/build_log/comparison.hpp"
#include "io/build_log/figure_words.hpp"
#include "io/units/angle.hpp"

#include <gmock/gmock.h>

namespace flangewright::build_log {
namespace {

using units::radians;

job::Job arc_job() {
    job::Job job;
    job.blank.line = outline::BendLine::arc(200, 0.5, outline::Curve::concave);
    job.blank.flange_width = 20;
    job.steps = {job::StepKind::bend_down, job::StepKind::release};
    return job;
}

// The edge's stretch rises straight along the line, 0.1 % a mm.
Prediction made_up() {
    Prediction prediction;
    for (const char* name : {"bend-down", "release"}) {
        StepPrediction step;
        step.name = name;
        step.angle = radians(step.name == "release" ? 87 : 90);
        step.web_lift = 0.4;
        step.least_thickness = 0.72;
        for (int station = 0; station <= 100; station += 10) {
            step.stations.push_back({1.0 * station, step.angle, 0.001 * station, 0.75, 0.2});
        }
        prediction.steps.push_back(step);
    }
    return prediction;
}

Reading reading(std::size_t step, std::optional<double> station) {
    Reading row;
    row.step = step;
    row.station = station;
    return row;
}

TEST(Comparison, SpringbackNeedsTheAngleOnTheBlockAtTheSamePlace) {
    Reading held = reading(0, 40);
    held.angle = radians(90.5);
    Reading released = reading(1, 40.2);
    released.angle = radians(86);
    Readings readings{{held, released}, {}};
    const std::vector<Compared> all = compared(made_up(), readings, arc_job());
    ASSERT_EQ(all.size(), 3U);
    EXPECT_EQ(all[2].figure, Figure::springback);
    EXPECT_NEAR(all[2].predicted, radians(3), 1e-12);
    EXPECT_NEAR(all[2].measured, radians(4.5), 1e-12);
    EXPECT_NEAR(all[2].difference(), radians(-1.5), 1e-12);
    readings.rows[1].station = 45;
    EXPECT_EQ(compared(made_up(), readings, arc_job()).size(), 2U);
}

// 18 mm on the edge of radius 180 are 20 mm of the line; the stretch between is its mean.
TEST(Comparison, MarksOnTheEdgeAreBroughtToTheLine) {
    Reading marks = reading(1, 10);
    marks.before = 18;
    marks.after = 18.5;
    std::vector<Compared> all = compared(made_up(), {{marks}, {}}, arc_job());
    ASSERT_EQ(all.size(), 1U);
    EXPECT_NEAR(all[0].predicted, 0.01, 1e-9);
    marks.before = 18.5; // now the first mark would lie beyond the cut end
    EXPECT_TRUE(compared(made_up(), {{marks}, {}}, arc_job()).empty());
}

TEST(Comparison, TheWholePartHasItsOwnFigures) {
    Reading whole = reading(1, std::nullopt);
    whole.angle = radians(87);
    whole.thickness = 0.70;
    whole.web_lift = 0.5;
    const auto all = compared(made_up(), {{whole}, {}}, arc_job());
    ASSERT_EQ(all.size(), 3U);
    EXPECT_EQ(all[1].figure, Figure::web_lift);
    EXPECT_DOUBLE_EQ(all[1].predicted, 0.4);
    EXPECT_DOUBLE_EQ(all[2].predicted, 0.72);
    const auto rows = rows_of(all, made_up(), units::LengthUnit::millimetre);
    EXPECT_EQ(rows[0].step, "2 release");
    EXPECT_EQ(rows[0].what, "flange angle, mean");
    EXPECT_EQ(rows[0].difference, "0.0 deg");
    EXPECT_EQ(rows[1].difference, "-0.10 mm");
    EXPECT_EQ(rows[2].difference, "+0.02 mm");
}

TEST(Comparison, MeansOfAnglesLeaveOutWhatTheBlockHolds) {
    Reading held = reading(0, std::nullopt);
    held.angle = radians(80);
    Reading released = reading(1, std::nullopt);
    released.angle = radians(86);
    const auto all = compared(made_up(), {{held, released}, {}}, arc_job());
    const auto mean = mean_difference(all, Figure::angle, arc_job());
    ASSERT_TRUE(mean);
    EXPECT_EQ(mean->n, 1);
    EXPECT_NEAR(mean->mean, radians(1), 1e-12);
    EXPECT_FALSE(mean_difference(all, Figure::thickness, arc_job()));
}

} // namespace
} // namespace flangewright::build_log
