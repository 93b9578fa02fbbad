#include "solver/findings/flange_development.hpp"
#include "solver/findings/part_findings.hpp"
#include "tests/support/flange_job.hpp"
#include "tests/support/flat_blank.hpp"

#include <Eigen/Geometry>
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace flangewright::findings {
namespace {

using support::degree;

constexpr double rounding = 1e-9;

/// A strip of 240 mm folded by `angle(station)`, with fields made to be found again.
struct Part {
    job::Job job = support::straight_job();
    grid::SheetMesh mesh;
    shell::SheetState state;
    shell::SheetFields fields;

    template <typename Angle>
    explicit Part(Angle angle) {
        job.blank.line = outline::BendLine::straight(240);
        mesh = support::flat_blank(
            {.line = job.blank.line, .bend_width = 3.5 * 90 * degree, .n_along = 24}
        );
        support::Folded folded{
            Eigen::Matrix3Xd(3, mesh.n_nodes()), Eigen::Matrix3Xd(3, mesh.n_nodes())};
        for (int node = 0; node < mesh.n_nodes(); ++node) {
            support::fold_node(mesh, job.blank.line, node, 3.5, angle(mesh.station(node)), folded);
        }
        state.positions = folded.positions;
        state.directors = folded.directors;
        fields.thickness = Eigen::VectorXd::Ones(mesh.n_nodes());
        fields.across_outer_face = Eigen::VectorXd::Zero(mesh.n_nodes());
    }

    [[nodiscard]] PartFindings
    look(std::optional<std::span<const double>> held = std::nullopt) const {
        return find_in_part(mesh, shape_of(state, fields), fields, job, held);
    }
};

TEST(PartFindings, SpringbackOfTheLipIsHeldLessReleased) {
    PartFindings held;
    PartFindings released;
    released.lip = LipFindings{};
    released.lip->angle_middle.mean = 1.5;
    add_lip_springback(released, held); // on the block no lip was bent yet
    EXPECT_FALSE(released.lip->springback_middle);
    held.lip = LipFindings{};
    held.lip->angle_middle.mean = 1.56;
    add_lip_springback(released, held);
    EXPECT_NEAR(released.lip->springback_middle.value_or(0), 0.06, rounding);
}

TEST(PartFindings, ReadsAnIdealFoldOnTheBlock) {
    Part part([](double) { return 90 * degree; });
    part.fields.thickness(part.mesh.bend_end[7]) = 0.93;
    part.fields.across_outer_face(part.mesh.bend_end[3]) = 0.14;
    part.fields.across_outer_face(part.mesh.free_edge[3]) = 0.5; // not the bend
    const PartFindings found = part.look();
    EXPECT_EQ(found.stations.size(), 25U);
    EXPECT_NEAR(found.flange_angle.least, 90 * degree, rounding);
    EXPECT_NEAR(found.flange_angle.most, 90 * degree, rounding);
    EXPECT_FALSE(found.springback.has_value());
    EXPECT_NEAR(found.edge_strain_most, 0, rounding);
    EXPECT_NEAR(found.thinning_most, 0.07, rounding);
    EXPECT_NEAR(found.thinning_station, 70, rounding);
    EXPECT_NEAR(found.thinning_distance, 3.5 * 90 * degree, rounding);
    EXPECT_EQ(found.stations[7].least_thickness, 0.93);
    EXPECT_EQ(found.stations[7].edge_thickness, 1);
    EXPECT_EQ(found.bend_strain_most, 0.14);
    EXPECT_NEAR(found.web_lift, 0, rounding);
    EXPECT_NEAR(found.flange_depth_mean, formed_flange_depth(part.job, 20), rounding);
    EXPECT_TRUE(std::isinf(found.plan_radius));
    EXPECT_TRUE(found.notes.empty());
}

TEST(PartFindings, TakesSpringbackAsHeldMinusReleased) {
    const Part held([](double) { return 90 * degree; });
    // The middle opens by 3 deg, the 20 mm next to each end by 1 deg.
    Part released([](double s) { return (s < 21 || s > 219 ? 89 : 87) * degree; });
    // Lying tilted on the bench must change nothing.
    const Eigen::Matrix3d turn =
        Eigen::AngleAxisd(0.03, Eigen::Vector3d(1, 0.5, 0).normalized()).toRotationMatrix();
    released.state.positions = (turn * released.state.positions).eval();
    released.state.directors = (turn * released.state.directors).eval();
    const std::vector<double> angles = flange_angles(held.look());
    const PartFindings found = released.look(angles);
    ASSERT_TRUE(found.springback && found.springback_middle);
    // The section stays that of the flat line's frame: a turn of 0.03 shows to second order only.
    constexpr double second_order = 0.05 * degree;
    EXPECT_NEAR(found.springback->least, 1 * degree, second_order);
    EXPECT_NEAR(found.springback->most, 3 * degree, second_order);
    // 25 mm at each end (half of the piece that turns over counts) of 240 mm.
    EXPECT_NEAR(found.springback->mean, (1 * 50 + 3 * 190) / 240.0 * degree, second_order);
    EXPECT_NEAR(found.springback_middle->least, 3 * degree, second_order);
    EXPECT_NEAR(found.springback_middle->mean, 3 * degree, second_order);
    EXPECT_NEAR(found.stations[12].springback.value(), 3 * degree, second_order);
}

TEST(PartFindings, LeavesOutTwoDepthsAtFreeEndsOnly) {
    Part part([](double s) { return (s < 36 ? 80 : 90) * degree; }); // 2 depths = 37 mm
    EXPECT_NEAR(part.look().flange_angle_middle.least, 90 * degree, rounding);
    EXPECT_NEAR(part.look().flange_angle.least, 80 * degree, rounding);
    part.job.blank.start = job::EndKind::continues;
    EXPECT_NEAR(part.look().flange_angle_middle.least, 80 * degree, rounding);
    Part near_middle([](double s) { return (s < 41 ? 80 : 90) * degree; });
    EXPECT_NEAR(near_middle.look().flange_angle_middle.least, 80 * degree, rounding);
}

TEST(PartFindings, KeepsTheMiddleOfAShortPart) {
    Part part([](double s) { return (s < 65 && s > 55 ? 90 : 80) * degree; });
    // A line of 120 mm would lose 37 mm at each end by depth, but no more than a quarter.
    part.job.blank.flange_width = 60;
    const PartFindings found = part.look(); // quarter: 60 mm
    EXPECT_NEAR(found.flange_angle_middle.most, 90 * degree, 0.1);
    EXPECT_GT(found.flange_angle_middle.mean, found.flange_angle_middle.least);
}

TEST(PartFindings, TellsStretchFromShrinkage) {
    Part part([](double) { return 90 * degree; });
    part.state.positions.row(0) *= 0.95;
    const PartFindings shrunk = part.look();
    EXPECT_NEAR(shrunk.edge_strain_most, std::log(0.95), rounding);
    EXPECT_NEAR(shrunk.edge_tension_most, std::log(0.95), rounding);
    part.state.positions.row(0) *= 1.1 / 0.95;
    EXPECT_NEAR(part.look().edge_tension_most, std::log(1.1), rounding);
}

TEST(PartFindings, GivesTheGapOfEachStation) {
    Part part([](double) { return 90 * degree; });
    for (int node = 0; node < part.mesh.n_nodes(); ++node) {
        const double from_middle = part.mesh.station(node) - 120;
        part.state.positions(2, node) -= 1e-4 * from_middle * from_middle;
    }
    const std::vector<double> held(25, 90 * degree);
    const PartFindings found = part.look(held);
    EXPECT_NEAR(found.web_lift, 1.44, rounding);
    EXPECT_NEAR(found.stations[12].web_gap, 1.44, rounding);
    EXPECT_NEAR(found.stations[0].web_gap, 0, rounding);
    EXPECT_NEAR(found.stations[6].web_gap, 1.44 - 0.36, rounding);
}

TEST(PartFindings, SaysWhenAnglesRestOnFewNodes) {
    Part part([](double) { return 90 * degree; });
    part.job.block.nose_radius = 11; // leaves 2 mm of straight flange
    const PartFindings found = part.look();
    ASSERT_EQ(found.notes.size(), 1U);
    EXPECT_NE(found.notes[0].find("25 of 25 stations"), std::string::npos);
}

} // namespace
} // namespace flangewright::findings
