// Supports of a released part: none too few, none too many.
#include "solver/process/rigid_supports.hpp"
#include "tests/support/small_flange.hpp"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;
using outline::Curve;
using shell::dof_per_node;

// Rows: how each held displacement moves in the six rigid motions.
Eigen::MatrixXd held_motions(const Workpiece& piece, const std::vector<bool>& is_fixed) {
    Eigen::MatrixXd rows(0, 6);
    for (int node = 0; node < piece.model.n_nodes(); ++node) {
        for (int k = 0; k < 3; ++k) {
            if (!is_fixed[static_cast<std::size_t>(node * dof_per_node + k)]) {
                continue;
            }
            const Eigen::Vector3d axis = piece.node_axes[static_cast<std::size_t>(node)].col(k);
            rows.conservativeResize(rows.rows() + 1, 6);
            rows.bottomRows<1>() << axis.transpose(),
                piece.state.positions.col(node).cross(axis).transpose() / 10;
        }
    }
    return rows;
}

int rank(const Eigen::MatrixXd& rows) {
    if (rows.rows() == 0) {
        return 0;
    }
    Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(rows);
    qr.setThreshold(1e-6);
    return static_cast<int>(qr.rank());
}

// The flange folded square down: what symmetry holds of a flat sheet is not what it holds of a
// part.
Workpiece folded(Workpiece piece) {
    for (int node = 0; node < piece.mesh.n_nodes(); ++node) {
        const double past = piece.mesh.distance[node];
        if (past > 0) {
            const Eigen::Vector3d outward = piece.node_axes[static_cast<std::size_t>(node)].col(1);
            piece.state.positions.col(node) -= past * (outward + Eigen::Vector3d::UnitZ());
        }
    }
    return piece;
}

struct Held {
    const char* name;
    BendLine line;
    EndKind start;
    EndKind end;
    int n_free_motions; // that symmetry leaves
};

void PrintTo(const Held& held, std::ostream* stream) {
    *stream << held.name;
}

class RigidSupports : public testing::TestWithParam<Held> {};

TEST_P(RigidSupports, LeaveNoRigidMotionAndAddNoMoreThanNeeded) {
    const Held& held = GetParam();
    const Workpiece piece =
        folded(support::small_workpiece(support::small_flange(held.line, held.start, held.end), 4));
    const std::vector<bool> symmetry = symmetry_supports(piece);
    const int n_held = rank(held_motions(piece, symmetry));
    EXPECT_EQ(6 - n_held, held.n_free_motions);
    std::vector<bool> is_fixed = symmetry;
    add_rigid_supports(piece, is_fixed);
    EXPECT_EQ(rank(held_motions(piece, is_fixed)), 6);
    const auto count = [](const std::vector<bool>& flags) {
        return static_cast<int>(std::count(flags.begin(), flags.end(), true));
    };
    EXPECT_EQ(count(is_fixed) - count(symmetry), held.n_free_motions); // nothing is pinched
    for (std::size_t dof = 0; dof < is_fixed.size(); ++dof) {
        EXPECT_TRUE(is_fixed[dof] || !symmetry[dof]);
        EXPECT_TRUE(
            dof % dof_per_node < 3 || is_fixed[dof] == symmetry[dof]
        ); // no director is held
    }
}

// A plane of symmetry holds one shift and two turns; two parallel planes no more than one; two
// planes that meet hold two shifts and all turns.
INSTANTIATE_TEST_SUITE_P(
    Of,
    RigidSupports,
    testing::Values(
        Held{"straight_free", BendLine::straight(12), EndKind::free, EndKind::free, 6},
        Held{"straight_one", BendLine::straight(12), EndKind::continues, EndKind::free, 3},
        Held{"straight_both", BendLine::straight(12), EndKind::continues, EndKind::continues, 3},
        Held{
            "concave_free",
            BendLine::arc(25, 0.5, Curve::concave),
            EndKind::free,
            EndKind::free,
            6},
        Held{
            "concave_far",
            BendLine::arc(25, 0.5, Curve::concave),
            EndKind::free,
            EndKind::continues,
            3},
        Held{
            "concave_both",
            BendLine::arc(25, 0.5, Curve::concave),
            EndKind::continues,
            EndKind::continues,
            1},
        Held{"convex_free", BendLine::arc(25, 0.5, Curve::convex), EndKind::free, EndKind::free, 6},
        Held{
            "convex_both",
            BendLine::arc(25, 0.5, Curve::convex),
            EndKind::continues,
            EndKind::continues,
            1}
    ),
    [](const auto& trial) { return std::string(trial.param.name); }
);

} // namespace
} // namespace flangewright::process
