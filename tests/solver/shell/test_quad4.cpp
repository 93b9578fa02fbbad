// The element by itself: rigid motion, frame, tangent.
#include "solver/shell/quad4.hpp"
#include "tests/support/flow_law.hpp"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>
#include <vector>

namespace flangewright::shell {
namespace {

constexpr double E = 70000;
constexpr double nu = 0.33;
constexpr int n_layers = 8;
constexpr unsigned seed = 41;

// A distorted and warped element with directors that lean.
QuadNodes warped() {
    QuadNodes nodes;
    nodes.positions << 0, 1.3, 1.1, -0.1, 0, 0.1, 1.2, 0.9, 0, 0.05, 0.12, 0.02;
    nodes.directors << 0.05, -0.08, -0.1, 0.06, -0.06, -0.05, 0.08, 0.02, 1, 1, 1, 1;
    nodes.directors.colwise().normalize();
    return nodes;
}

QuadNodes flat() {
    QuadNodes nodes = warped();
    nodes.positions.row(2).setZero();
    nodes.directors = Eigen::Vector3d::UnitZ().replicate<1, 4>();
    return nodes;
}

Eigen::Matrix<double, 3, 2> square_to(const Eigen::Vector3d& director) {
    Eigen::Matrix<double, 3, 2> basis;
    const Eigen::Vector3d first =
        (Eigen::Vector3d(1, 0.2, 0) - Eigen::Vector3d(1, 0.2, 0).dot(director) * director)
            .normalized();
    basis << first, director.cross(first);
    return basis;
}

QuadBases bases_of(const QuadNodes& nodes) {
    QuadBases bases;
    for (int n = 0; n < 4; ++n) {
        const auto at = static_cast<std::size_t>(n);
        bases.displacement[at].setIdentity();
        bases.rotation[at] = square_to(nodes.directors.col(n));
    }
    return bases;
}

Section soft_section() {
    return {{E, nu}, support::swift(330, 0.0032, 0.22), 1, gauss_layers(n_layers)};
}

struct Element {
    Section section = soft_section();
    QuadReference reference;
    std::vector<FibreStretch> fibres = std::vector<FibreStretch>(4);
    std::vector<material::PointMemory> memory = std::vector<material::PointMemory>(4 * n_layers);

    explicit Element(const QuadNodes& start) : reference(make_quad_reference(start, {1, 0, 0})) {}
    [[nodiscard]] QuadForce force(const QuadNodes& now, const QuadBases& bases) const {
        return quad_force(section, reference, now, bases, fibres, memory, true);
    }
};

QuadNodes turned(const QuadNodes& nodes, const Eigen::Matrix3d& R, const Eigen::Vector3d& shift) {
    QuadNodes moved;
    moved.positions = (R * nodes.positions).colwise() + shift;
    moved.directors = R * nodes.directors;
    return moved;
}

Eigen::Matrix3d about(double angle, const Eigen::Vector3d& axis) {
    return Eigen::AngleAxisd(angle, axis.normalized()).toRotationMatrix();
}

TEST(Quad4, RigidMotionIsStrainFree) {
    constexpr double rounding = 1e-8; // asked for; over the stiffness of the element
    const Element element(warped());
    for (const double angle : {0.1, 1.0, 2.5}) {
        const QuadNodes moved = turned(warped(), about(angle, {1, -2, 0.5}), {5, -3, 8});
        for (int point = 0; point < 4; ++point) {
            const SectionStrain strain = quad_strain(element.reference, moved, point);
            EXPECT_LT(strain.membrane.norm(), rounding);
            EXPECT_LT(strain.bending.norm(), rounding);
            EXPECT_LT(strain.quadratic.norm(), rounding);
        }
        EXPECT_LT(element.force(moved, bases_of(moved)).force.norm(), rounding * E);
    }
}

// The opposite claim: a motion that is not rigid is seen.
TEST(Quad4, EveryOtherMotionStrains) {
    const Element element(warped());
    QuadNodes sheared = warped();
    sheared.directors.colwise() += Eigen::Vector3d(0.01, 0, 0);
    sheared.directors.colwise().normalize();
    EXPECT_GT(element.force(sheared, bases_of(sheared)).force.norm(), 1e-4 * E);
    QuadNodes twisted = warped();
    twisted.positions(2, 0) += 0.01;
    twisted.positions(2, 1) -= 0.01;
    EXPECT_GT(element.force(twisted, bases_of(twisted)).force.norm(), 1e-4 * E);
}

// A stressed element turned by 90 deg pulls with the turned force (benchmarks 02, last line).
TEST(Quad4, ForceOfAStressedElementTurnsWithIt) {
    const Element element(warped());
    QuadNodes stressed = warped();
    stressed.positions.row(0) *= 1.03;
    stressed.positions.row(1) *= 0.99;
    stressed.directors.col(1) = about(0.05, {0, 1, 0}) * stressed.directors.col(1);
    const QuadBases bases = bases_of(stressed);
    const Eigen::Matrix3d R = about(0.5 * std::numbers::pi, {1, 1, 0.3});
    const QuadNodes moved = turned(stressed, R, {1, 2, 3});
    QuadBases turned_bases = bases;
    for (std::size_t n = 0; n < 4; ++n) {
        turned_bases.rotation[n] = R * bases.rotation[n];
    }
    const QuadForce before = element.force(stressed, bases);
    const QuadForce after = element.force(moved, turned_bases);
    ASSERT_GT(before.force.norm(), 1);
    for (int n = 0; n < 4; ++n) {
        const Eigen::Vector3d turned_force = R * before.force.segment<3>(5 * n);
        EXPECT_LT(
            (after.force.segment<3>(5 * n) - turned_force).norm(), 1e-8 * before.force.norm()
        );
        const Eigen::Vector2d moments =
            after.force.segment<2>(5 * n + 3) - before.force.segment<2>(5 * n + 3);
        EXPECT_LT(moments.norm(), 1e-8 * before.force.norm());
    }
}

// Moves one degree of freedom by `step`; a rotation takes its basis along on the unit sphere.
void move(QuadNodes& nodes, QuadBases& bases, int dof, double step) {
    const int n = dof / dof_per_node;
    const int k = dof % dof_per_node;
    if (k < 3) {
        nodes.positions(k, n) += step;
        return;
    }
    Eigen::Matrix<double, 3, 2>& basis = bases.rotation[static_cast<std::size_t>(n)];
    const Eigen::Vector3d director = nodes.directors.col(n);
    const Eigen::Vector3d toward = basis.col(k - 3);
    nodes.directors.col(n) = std::cos(step) * director + std::sin(step) * toward;
    basis.col(k - 3) = std::cos(step) * toward - std::sin(step) * director;
}

TEST(Quad4, TangentIsTheDerivativeOfForce) {
    std::mt19937 generator(seed);
    std::uniform_real_distribution<double> number(-1, 1);
    constexpr double h = 1e-7;
    double worst = 0;
    double worst_asymmetry = 0;
    for (int trial = 0; trial < 20; ++trial) {
        const Element element(trial % 2 == 0 ? flat() : warped());
        QuadNodes now = trial % 2 == 0 ? flat() : warped();
        for (int n = 0; n < 4; ++n) {
            for (int k = 0; k < 3; ++k) {
                now.positions(k, n) += 0.03 * number(generator);
                now.directors(k, n) += 0.15 * number(generator);
            }
        }
        now.directors.colwise().normalize();
        const QuadBases bases = bases_of(now);
        const QuadForce here = element.force(now, bases);
        ASSERT_TRUE(here.has_converged);
        worst_asymmetry = std::max(
            worst_asymmetry,
            (here.stiffness - here.stiffness.transpose()).norm() / here.stiffness.norm()
        );
        for (int dof = 0; dof < dof_per_quad; ++dof) {
            const auto force_at = [&](double step) {
                QuadNodes moved = now;
                QuadBases moved_bases = bases;
                move(moved, moved_bases, dof, step);
                return element.force(moved, moved_bases).force;
            };
            const Eigen::Matrix<double, dof_per_quad, 1> slope =
                (force_at(h) - force_at(-h)) / (2 * h);
            worst =
                std::max(worst, (slope - here.stiffness.col(dof)).norm() / here.stiffness.norm());
        }
    }
    RecordProperty("worst", std::to_string(worst));
    EXPECT_LT(worst, 1e-6) << "seed " << seed;
    EXPECT_LT(worst_asymmetry, 1e-12);
}

// With back stresses that the flow turns against, elements give the symmetric part of the tangent.
TEST(Quad4, StiffnessWithBackStressesIsTheSymmetricPartOfTheTangent) {
    std::mt19937 generator(seed);
    std::uniform_real_distribution<double> number(-1, 1);
    constexpr double h = 1e-7;
    Element element(warped());
    element.section.back_stresses = {{9000, 150}, {1500, 12}};
    std::vector<material::SplitStress> back(2 * element.memory.size());
    for (material::SplitStress& each : back) {
        each << 20 * number(generator), 20 * number(generator), 20 * number(generator);
    }
    QuadNodes now = warped();
    for (int n = 0; n < 4; ++n) {
        for (int k = 0; k < 3; ++k) {
            now.positions(k, n) += 0.03 * number(generator);
            now.directors(k, n) += 0.1 * number(generator);
        }
    }
    now.directors.colwise().normalize();
    const QuadBases bases = bases_of(now);
    const auto force = [&](const QuadNodes& nodes, const QuadBases& axes) {
        return quad_force(
            element.section,
            element.reference,
            nodes,
            axes,
            QuadPoints{element.fibres, element.memory, back},
            true
        );
    };
    const QuadForce here = force(now, bases);
    ASSERT_TRUE(here.has_converged);
    Eigen::Matrix<double, dof_per_quad, dof_per_quad> slope;
    for (int dof = 0; dof < dof_per_quad; ++dof) {
        const auto force_at = [&](double step) {
            QuadNodes moved = now;
            QuadBases moved_bases = bases;
            move(moved, moved_bases, dof, step);
            return force(moved, moved_bases).force;
        };
        slope.col(dof) = (force_at(h) - force_at(-h)) / (2 * h);
    }
    const double size = here.stiffness.norm();
    EXPECT_GT((slope - slope.transpose()).norm(), 1e-4 * size); // there is another part
    EXPECT_LT((0.5 * (slope + slope.transpose()) - here.stiffness).norm(), 1e-6 * size);
    EXPECT_LT((here.stiffness - here.stiffness.transpose()).norm(), 1e-14 * size);
}

TEST(Quad4, HeedsTheBackStressesOfEveryPoint) {
    Element element(flat());
    element.section.back_stresses = {{9000, 150}};
    QuadNodes stretched = flat();
    stretched.positions.row(0) *= 1.02;
    const auto force = [&](const std::vector<material::SplitStress>& back) {
        return quad_force(
                   element.section,
                   element.reference,
                   stretched,
                   bases_of(stretched),
                   QuadPoints{element.fibres, element.memory, back},
                   false
        )
            .force;
    };
    const std::vector<material::SplitStress> none(
        element.memory.size(), material::SplitStress::Zero()
    );
    for (std::size_t point = 0; point < 4; ++point) {
        std::vector<material::SplitStress> back = none;
        std::fill_n(back.begin() + point * n_layers, n_layers, material::SplitStress(30, 30, 0));
        EXPECT_GT((force(back) - force(none)).norm(), 1e-3 * force(none).norm()) << point;
    }
}

TEST(Quad4, SaysSoWhenItIsTurnedInsideOut) {
    const Element element(flat());
    QuadNodes crushed = flat();
    crushed.positions.col(2) = crushed.positions.col(0);
    crushed.positions.col(1) = crushed.positions.col(0);
    crushed.positions.col(3) = crushed.positions.col(0);
    EXPECT_FALSE(element.force(crushed, bases_of(crushed)).has_converged);
}

} // namespace
} // namespace flangewright::shell
