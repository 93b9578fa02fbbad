// The start of an increment: carried on freely without tools, no further than they push with them.
#include "solver/equilibrium/predictor.hpp"
#include "tests/support/elastic_sheet.hpp"

#include <Eigen/Geometry>
#include <gtest/gtest.h>

#include <cmath>
#include <memory>

namespace flangewright::equilibrium {
namespace {

struct TurningStrip {
    support::SheetTrial trial{
        support::elastic_section(70000, 0.3, 1), support::rectangle(10, 2, 5, 1)};
    Shape shape = shape_of(trial.state, trial.problem.node_axes);
};

/// A rigid turn about y.
Increment turned(const shell::SheetState& state, double angle, double share) {
    const Eigen::Matrix3d turn =
        Eigen::AngleAxisd(angle, Eigen::Vector3d::UnitY()).toRotationMatrix();
    Increment increment;
    increment.moves = turn * state.positions - state.positions;
    increment.turns = angle * Eigen::Vector3d::UnitY().replicate(1, state.positions.cols());
    increment.share = share;
    return increment;
}

TEST(Predictor, CarriesARigidTurnOnWithoutStretch) {
    TurningStrip strip;
    constexpr double angle = 0.08;
    const Increment last = turned(strip.trial.state, angle, 0.1);
    strip.trial.state.positions += last.moves;
    strip.trial.state.directors.colwise() = Eigen::Vector3d(std::sin(angle), 0, std::cos(angle));
    strip.shape = shape_of(strip.trial.state, strip.trial.problem.node_axes);
    carry_on(strip.trial.system, strip.trial.problem, strip.shape, last, 0.2);
    const Increment next = turned(strip.trial.state, 2 * angle, 0.2);
    const Eigen::Matrix3Xd wanted = strip.trial.state.positions + next.moves;
    // Two chords of the last turn are longer than the one chord of a turn twice as large.
    const double chord_error = 10 * (4 * std::sin(angle / 2) - 2 * std::sin(angle));
    constexpr double rounding = 1e-12;
    EXPECT_LT((strip.shape.positions - wanted).cwiseAbs().maxCoeff(), chord_error + rounding);
    EXPECT_NEAR(strip.shape.directors(0, 0), std::sin(3 * angle), 1e-12);
}

TEST(Predictor, IncrementBetweenShapesHoldsMovesAndTurns) {
    TurningStrip strip;
    const Increment given = turned(strip.trial.state, 0.3, 0.1);
    Shape after = strip.shape;
    after.positions += given.moves;
    after.directors.colwise() = Eigen::Vector3d(std::sin(0.3), 0, std::cos(0.3));
    const Increment found = increment_between(strip.trial.state, after, 0.1);
    EXPECT_LT((found.moves - given.moves).norm(), 1e-12);
    EXPECT_LT((found.turns - given.turns).norm(), 1e-12);
    EXPECT_EQ(found.share, 0.1);
}

// A flat tool that reaches up to some height over the block's face.
class Table final : public tooling::RigidSurface {
public:
    explicit Table(double height) : height_(height) {}
    [[nodiscard]] tooling::SurfaceReading at(const tooling::SectionPoint& point) const override {
        return tooling::flat_reading(point, {0, height_}, {0, 1});
    }

private:
    double height_;
};

// Lifted in the last increment, drawn back by soft springs. Carried beyond a table beneath, the
// strip would fall back on it.
struct LiftedStrip : TurningStrip {
    static constexpr double lift = 0.1;

    double carried_to() {
        const int n_nodes = trial.model.n_nodes();
        Increment last;
        last.moves = lift * Eigen::Vector3d::UnitZ().replicate(1, n_nodes);
        last.turns = Eigen::Matrix3Xd::Zero(3, n_nodes);
        last.share = 1;
        trial.problem.anchors = trial.state.positions;
        trial.problem.anchor_stiffness = 1;
        carry_on(trial.system, trial.problem, shape, last, 1);
        return shape.positions.row(2).mean();
    }
    /// The strip's middle is at `height` when it lies on the table.
    void add_table(double height) {
        tooling::SweptContact contact;
        contact.surface = std::make_shared<Table>(height - 0.5);
        contact.law = {70000, 0.001};
        contact.nodes = trial.patch.line(3);
        trial.problem.contacts.push_back(contact);
    }
};

TEST(Predictor, GoesTheWholeWayWhereNoToolIs) {
    EXPECT_NEAR(LiftedStrip().carried_to(), LiftedStrip::lift, 1e-12);
}

TEST(Predictor, GoesTheWholeWayWhereTheToolStillPushes) {
    LiftedStrip strip;
    strip.add_table(1.5 * LiftedStrip::lift);
    EXPECT_NEAR(strip.carried_to(), LiftedStrip::lift, 1e-12);
}

TEST(Predictor, StopsWhereTheToolStopsPushing) {
    constexpr double bracketed = 0.05 * LiftedStrip::lift; // by five places
    for (const double height : {0.098, 0.09, 0.08}) {
        LiftedStrip strip;
        strip.add_table(height);
        EXPECT_NEAR(strip.carried_to(), height, bracketed) << height;
    }
}

// Carried all the way the strip would have no length left, which nothing can balance.
TEST(Predictor, LooksNearerWhereTheWholeWayCannotBeBalanced) {
    LiftedStrip strip;
    strip.add_table(-1); // out of reach, but there
    Increment last;
    last.moves = -strip.trial.state.positions;
    last.turns = Eigen::Matrix3Xd::Zero(3, last.moves.cols());
    last.share = 1;
    carry_on(strip.trial.system, strip.trial.problem, strip.shape, last, 1);
    EXPECT_GT(strip.shape.positions.row(0).maxCoeff(), 0.1);
    EXPECT_LT(strip.shape.positions.row(0).maxCoeff(), 9.9);
}

} // namespace
} // namespace flangewright::equilibrium
