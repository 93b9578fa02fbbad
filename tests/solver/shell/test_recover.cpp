// What is read off a state: faces told apart, strains and stresses of a known shape.
#include "solver/shell/recover.hpp"
#include "tests/support/elastic_sheet.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::shell {
namespace {

// Bent to a cylinder of radius R: fibres at the faces are stretched by 1 +- t/(2 R), across the
// bend only; the outer face is the one the directors point to.
TEST(Recover, TellsTheOuterFaceFromTheBlockFace) {
    constexpr double R = 25;
    constexpr double mesh_error = 2e-4; // elements turn by 1/25: their chords are 7e-5 short
    support::SheetTrial trial(
        support::elastic_section(70000, 0.33, 1, 4), support::rectangle(4, 8, 3, 8)
    );
    for (int node = 0; node < trial.model.n_nodes(); ++node) {
        const double angle = trial.patch.positions(1, node) / R;
        trial.state.positions(1, node) = R * std::sin(angle);
        trial.state.positions(2, node) = R * std::cos(angle) - R;
        trial.state.directors.col(node) << 0, std::sin(angle), std::cos(angle);
    }
    const SheetFields fields = recover_fields(trial.model, trial.state);
    for (int node = 0; node < trial.model.n_nodes(); ++node) {
        EXPECT_NEAR(fields.across_outer_face[node], std::log(1 + 0.5 / R), mesh_error);
        EXPECT_NEAR(fields.across_block_face[node], std::log(1 - 0.5 / R), mesh_error);
        EXPECT_NEAR(fields.major_outer_face[node], std::log(1 + 0.5 / R), mesh_error);
        EXPECT_NEAR(fields.minor_block_face[node], std::log(1 - 0.5 / R), mesh_error);
        EXPECT_GT(fields.stress_outer_face(1, node), 0);
        EXPECT_LT(fields.stress_block_face(1, node), 0);
    }
}

} // namespace
} // namespace flangewright::shell
