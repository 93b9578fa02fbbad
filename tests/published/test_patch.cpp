// Patch of five distorted elements, 0.24 x 0.12. Source: R. H. MacNeal and R. L. Harder, A proposed
// standard set of problems to test finite element accuracy, Finite Elem. Anal. Des. 1 (1985) 3-20:
// boundary values and membrane answer read second-hand, E, nu, h and the inner nodes from memory;
// the bending answer follows from D = E h^3/(12 (1 - nu^2)).
#include "tests/support/elastic_sheet.hpp"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <functional>

namespace flangewright {
namespace {

using shell::dof_per_node;

constexpr double E = 1e6;
constexpr double nu = 0.25;
constexpr double h = 0.001;
constexpr double area = 0.24 * 0.12;
constexpr int n_nodes = 8;
constexpr int first_inner = 4;
constexpr double rounding = 1e-9; // relative, of a linear solution

support::MappedPatch five_elements() {
    support::MappedPatch patch;
    patch.positions.resize(3, n_nodes);
    patch.positions << 0, 0.24, 0.24, 0, 0.04, 0.18, 0.16, 0.08, //
        0, 0, 0.12, 0.12, 0.02, 0.03, 0.08, 0.08, //
        0, 0, 0, 0, 0, 0, 0, 0;
    patch.quads = {{0, 1, 5, 4}, {1, 2, 6, 5}, {2, 3, 7, 6}, {3, 0, 4, 7}, {4, 5, 6, 7}};
    return patch;
}

// Displacement and director change of a linear field at a place of the plane.
struct Motion {
    Eigen::Vector3d move = Eigen::Vector3d::Zero();
    Eigen::Vector2d lean = Eigen::Vector2d::Zero(); // of the director toward x and y
};
using Field = std::function<Motion(double x, double y)>;

Field stretch(double exx, double eyy, double gxy) {
    return [=](double x, double y) {
        return Motion{{exx * x + 0.5 * gxy * y, eyy * y + 0.5 * gxy * x, 0}, {0, 0}};
    };
}

// w = (kxx x^2 + kxy x y + kyy y^2)/2; the director stays square to the surface.
Field bend(double kxx, double kyy, double kxy) {
    return [=](double x, double y) {
        return Motion{
            {0, 0, 0.5 * (kxx * x * x + kxy * x * y + kyy * y * y)},
            {-(kxx * x + 0.5 * kxy * y), -(kyy * y + 0.5 * kxy * x)},
        };
    };
}

Field transverse_shear(double gx, double gy) {
    return [=](double x, double y) { return Motion{{0, 0, gx * x + gy * y}, {0, 0}}; };
}

class Patch {
public:
    Patch() : trial_(support::elastic_section(E, nu, h), five_elements()) {
        equilibrium::SheetSystem& system = trial_.system;
        const equilibrium::Shape shape =
            equilibrium::shape_of(trial_.state, trial_.problem.node_axes);
        EXPECT_TRUE(system.balance(trial_.problem, shape, true).is_good);
        const equilibrium::SparsePattern& pattern = system.pattern();
        stiffness.setZero(pattern.n_dof, pattern.n_dof);
        for (int column = 0; column < pattern.n_dof; ++column) {
            const auto at = static_cast<std::size_t>(column);
            for (int k = pattern.column_start[at]; k < pattern.column_start[at + 1]; ++k) {
                const int row = pattern.row[static_cast<std::size_t>(k)];
                stiffness(row, column) = stiffness(column, row) = system.stiffness()[k];
            }
        }
    }

    [[nodiscard]] Eigen::VectorXd vector_of(const Field& field) const {
        Eigen::VectorXd u(n_nodes * dof_per_node);
        for (int node = 0; node < n_nodes; ++node) {
            const Motion motion =
                field(trial_.patch.positions(0, node), trial_.patch.positions(1, node));
            u.segment<3>(node * dof_per_node) = motion.move;
            u.segment<2>(node * dof_per_node + 3) = motion.lean; // bases along x and y
        }
        return u;
    }

    // The boundary moves as told, the inner nodes find their place.
    [[nodiscard]] Eigen::VectorXd solved(const Field& field) const {
        Eigen::VectorXd u = vector_of(field);
        const int n_held = first_inner * dof_per_node;
        const int n_free = static_cast<int>(u.size()) - n_held;
        u.tail(n_free) = stiffness.bottomRightCorner(n_free, n_free)
                             .fullPivLu()
                             .solve(-stiffness.bottomLeftCorner(n_free, n_held) * u.head(n_held));
        return u;
    }

    // Resultant conjugate to the unit field `virtual_field`, per area.
    [[nodiscard]] double resultant(const Eigen::VectorXd& u, const Field& virtual_field) const {
        return vector_of(virtual_field).dot(stiffness * u) / area;
    }

    Eigen::MatrixXd stiffness;

private:
    support::SheetTrial trial_;
};

TEST(Patch, CarriesConstantMembraneStress) {
    const Patch patch;
    const Field field = stretch(1e-3, 1e-3, 1e-3); // u = 1e-3 (x + y/2), v = 1e-3 (y + x/2)
    const Eigen::VectorXd u = patch.solved(field);
    EXPECT_LT((u - patch.vector_of(field)).norm(), rounding * u.norm());
    EXPECT_NEAR(patch.resultant(u, stretch(1, 0, 0)) / h, 4000.0 / 3, rounding * 1333);
    EXPECT_NEAR(patch.resultant(u, stretch(0, 1, 0)) / h, 4000.0 / 3, rounding * 1333);
    EXPECT_NEAR(patch.resultant(u, stretch(0, 0, 1)) / h, 400, rounding * 400);
}

TEST(Patch, CarriesConstantBendingMoments) {
    const Patch patch;
    const Field field = bend(1e-3, 1e-3, 1e-3); // w = 1e-3 (x^2 + x y + y^2)/2
    const Eigen::VectorXd u = patch.solved(field);
    constexpr double conditioning = 1e-6; // thin: shear stiffness is 1e6 times that of bending
    EXPECT_LT((u - patch.vector_of(field)).norm(), conditioning * u.norm());
    EXPECT_NEAR(patch.resultant(u, bend(1, 0, 0)), 1.1111e-7, 1e-4 * 1.1111e-7); // digits printed
    EXPECT_NEAR(patch.resultant(u, bend(0, 1, 0)), 1.1111e-7, 1e-4 * 1.1111e-7);
    EXPECT_NEAR(patch.resultant(u, bend(0, 0, 1)), 3.3333e-8, 1e-4 * 3.3333e-8);
}

// With all directors held upright a plane tilt is a constant transverse shear: 5/6 G h gamma.
TEST(Patch, CarriesConstantTransverseShear) {
    const Patch patch;
    const Eigen::VectorXd u = patch.vector_of(transverse_shear(2e-4, -1e-4));
    const Eigen::VectorXd force = patch.stiffness * u;
    const double shear_stiffness = 5.0 / 6 * h * E / (2 * (1 + nu));
    for (int node = first_inner; node < n_nodes; ++node) {
        const double lifted = force[node * dof_per_node + 2];
        EXPECT_NEAR(lifted, 0, rounding * force.norm());
    }
    EXPECT_NEAR(
        patch.resultant(u, transverse_shear(1, 0)),
        shear_stiffness * 2e-4,
        rounding * shear_stiffness
    );
    EXPECT_NEAR(
        patch.resultant(u, transverse_shear(0, 1)),
        -shear_stiffness * 1e-4,
        rounding * shear_stiffness
    );
}

} // namespace
} // namespace flangewright
