// The sheet as a whole: areas, thickness, memory, and what is read off it.
#include "solver/shell/recover.hpp"
#include "solver/shell/shell_model.hpp"
#include "tests/support/elastic_sheet.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::shell {
namespace {

// A quarter of an annulus, 10 to 14 mm: its own arcs are chords of the mesh.
support::MappedPatch sector() {
    return support::map_patch(8, 3, [](double along, double across) {
        const double radius = 10 + 4 * across;
        const double angle = -1.5 * along;
        return Eigen::Vector3d(radius * std::cos(angle), radius * std::sin(angle), 0);
    });
}

TEST(ShellModel, NodeAreasAddUpToTheSheet) {
    const support::SheetTrial trial(support::elastic_section(70000, 0.33, 1), sector());
    const double chord_angle = 1.5 / 8;
    const double polygon = 8 * 0.5 * std::sin(chord_angle) * (14 * 14 - 10 * 10);
    EXPECT_NEAR(trial.model.node_area.sum(), polygon, 1e-10 * polygon);
    EXPECT_GT(trial.model.node_area.minCoeff(), 0);
}

TEST(ShellModel, TheSheetAsBoughtHasNoStrainBehindIt) {
    support::SheetTrial trial(support::elastic_section(70000, 0.33, 1.2), sector());
    EXPECT_LT(trial.reactions().norm(), 1e-8 * 70000);
    const Eigen::VectorXd half = half_thickness(trial.model, trial.state);
    EXPECT_NEAR(half.minCoeff(), 0.6, 1e-12);
    EXPECT_NEAR(half.maxCoeff(), 0.6, 1e-12);
}

// Uniaxial stretch of a sheet that flows: thickness strain -e/2 (reference benchmarks 03) but for
// the elastic part, (1/2 - nu) stress/E.
TEST(ShellModel, RemembersTheThicknessAStretchLeaves) {
    const auto law = support::swift(330, 0.0032, 0.22);
    const double p = 0.12;
    const double stress = law->at(p).stress;
    const double along = stress / 70000 + p;
    const double across = -0.33 * stress / 70000 - p / 2;
    support::SheetTrial trial(
        {{70000, 0.33}, law, 1, gauss_layers(4)}, support::rectangle(10, 6, 4, 3)
    );
    trial.state.positions.row(0) *= std::exp(along);
    trial.state.positions.row(1) *= std::exp(across);
    ASSERT_TRUE(remember_shape(trial.model, trial.state, 1));
    const SheetFields fields = recover_fields(trial.model, trial.state);
    for (int node = 0; node < trial.model.n_nodes(); ++node) {
        EXPECT_NEAR(fields.thickness[node], std::exp(across), 1e-9);
        EXPECT_NEAR(fields.plastic_strain[node], p, 1e-9);
        EXPECT_NEAR(fields.major_mid[node], along, 1e-9);
        EXPECT_NEAR(fields.minor_mid[node], across, 1e-9);
        EXPECT_NEAR(fields.stress_outer_face(0, node), stress, 1e-6 * stress);
        EXPECT_NEAR(fields.stress_outer_face(1, node), 0, 1e-6 * stress);
        EXPECT_NEAR(fields.stress_block_face(2, node), 0, 1e-6 * stress);
    }
}

// One step of tension to the plastic strain p leaves the back stress C p/(1 + gamma p) in each
// layer, and the stress that is read off is that of the shifted surface.
TEST(ShellModel, RemembersTheBackStressAStretchLeaves) {
    const material::BackStress shift{9000, 150};
    const double p = 0.02;
    const double X = shift.stiffness * p / (1 + shift.recall * p);
    const double stress = 70 + X;
    Section section{
        {70000, 0.33}, std::make_shared<support::PerfectFlow>(70), 1, gauss_layers(4), {shift}};
    support::SheetTrial trial(section, support::rectangle(10, 6, 4, 3));
    ASSERT_EQ(trial.state.back_stresses.size(), trial.state.points.size());
    trial.state.positions.row(0) *= std::exp(stress / 70000 + p);
    trial.state.positions.row(1) *= std::exp(-0.33 * stress / 70000 - p / 2);
    ASSERT_TRUE(remember_shape(trial.model, trial.state, 1));
    for (const material::SplitStress& back : trial.state.back_stresses) {
        EXPECT_LT((back - material::SplitStress(X, X, 0)).norm(), 1e-6 * X);
    }
    const SheetFields fields = recover_fields(trial.model, trial.state);
    for (int node = 0; node < trial.model.n_nodes(); ++node) {
        EXPECT_NEAR(fields.stress_outer_face(0, node), stress, 1e-6 * stress);
        EXPECT_NEAR(fields.stress_block_face(1, node), 0, 1e-6 * stress);
    }
}

TEST(ShellModel, FindsWhatAnElementsPointsRemember) {
    Section section = support::elastic_section(70000, 0.33, 1, 4);
    section.back_stresses = {{9000, 150}, {1500, 12}};
    const support::SheetTrial trial(section, support::rectangle(10, 6, 4, 3));
    const SheetState& state = trial.state;
    const QuadPoints points = points_of(trial.model, state, 5);
    EXPECT_EQ(points.fibres.size(), 4U);
    EXPECT_EQ(points.fibres.data(), &state.fibres[20]);
    EXPECT_EQ(points.memory.size(), 16U);
    EXPECT_EQ(points.memory.data(), &state.points[80]);
    EXPECT_EQ(points.back_stresses.size(), 32U);
    EXPECT_EQ(points.back_stresses.data(), &state.back_stresses[160]);
    const QuadPoints last = points_of(trial.model, state, 11);
    EXPECT_EQ(
        last.back_stresses.data() + 32, state.back_stresses.data() + state.back_stresses.size()
    );
}

TEST(ShellModel, KeepsNoBackStressForAnIsotropicSheet) {
    const support::SheetTrial trial(support::elastic_section(70000, 0.33, 1), sector());
    EXPECT_TRUE(trial.state.back_stresses.empty());
}

} // namespace
} // namespace flangewright::shell
