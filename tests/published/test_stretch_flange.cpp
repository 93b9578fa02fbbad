// A full ring stretched to the radius of its bend line: edge strain, thickness and height in closed
// form. Source: in the head lines of data/stretch_flange.csv (reference benchmarks 06:
// rigid-plastic, wall in uniaxial hoop tension). Driven by displacements: the radii of all nodes
// are prescribed, their heights are not. Rings folded by a wiper stand in
// test_solid_section_slow.cpp.
#include "solver/shell/recover.hpp"
#include "tests/support/elastic_sheet.hpp"
#include "tests/support/reference_table.hpp"
#include "tests/support/verification_record.hpp"

#include <Eigen/Geometry>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright {
namespace {

constexpr double tolerance = 0.01; // asked, reference benchmarks, obligatory checks 7
constexpr int n_wide = 10;
constexpr int n_increments = 60;

struct Ring {
    double radius = 0; // of the bend line
    double width = 0;
};

void PrintTo(const Ring& ring, std::ostream* stream) {
    *stream << "radius " << ring.radius << ", width " << ring.width;
}

struct Stretched {
    double edge_strain = 0;
    double edge_thickness = 0;
    double height = 0;
};

// A slice of 4 deg, bend line first: i across the flange, j along the line.
class RingSlice {
public:
    explicit RingSlice(const Ring& ring)
        : ring_(ring),
          trial_(
              {{70000, 0.33}, support::swift(330, 0.0032, 0.22), 0.2, shell::gauss_layers(4)},
              support::map_patch(
                  n_wide,
                  2,
                  [&ring](double in, double along) {
                      const double r = ring.radius - ring.width * in;
                      const double angle = 4 * std::numbers::pi / 180 * along;
                      return Eigen::Vector3d(-r * std::cos(angle), r * std::sin(angle), 0);
                  }
              )
          ) {
        for (int node = 0; node < trial_.model.n_nodes(); ++node) {
            const Eigen::Vector3d outward = trial_.patch.positions.col(node).normalized();
            const Eigen::Vector3d hoop = Eigen::Vector3d::UnitZ().cross(outward);
            trial_.problem.node_axes[static_cast<std::size_t>(node)] << hoop, outward,
                Eigen::Vector3d::UnitZ();
            for (const int k : {0, 1, 3}) { // hoop, radius, lean along the hoop
                trial_.fix(node, k);
            }
        }
        for (const int node : trial_.patch.line(0)) {
            trial_.fix(node, 2);
        }
    }

    // Turns the flange down from 0 to 90 deg.
    void form() {
        equilibrium::NewtonLimits limits;
        limits.tolerance = 1e-8;
        for (int step = 1; step <= n_increments; ++step) {
            turn(0.5 * std::numbers::pi / n_increments, step);
            ASSERT_EQ(trial_.settle(limits).end, equilibrium::NewtonEnd::converged) << step;
        }
    }

    [[nodiscard]] Stretched read() const {
        const shell::SheetFields fields = shell::recover_fields(trial_.model, trial_.state);
        const int a = trial_.patch.node(n_wide, 0);
        const int b = trial_.patch.node(n_wide, 1);
        const auto chord = [&](const Eigen::Matrix3Xd& x) { return (x.col(a) - x.col(b)).norm(); };
        return {
            std::log(chord(trial_.state.positions) / chord(trial_.patch.positions)),
            fields.thickness[a] / 0.2,
            -trial_.state.positions(2, a),
        };
    }

private:
    // Radius R - (R - p) cos(angle); heights and directors turn on as a rigid flange would.
    void turn(double by, int step) {
        const double angle = by * step;
        for (int node = 0; node < trial_.model.n_nodes(); ++node) {
            const Eigen::Vector3d flat = trial_.patch.positions.col(node);
            const double past = ring_.radius - flat.norm();
            const Eigen::Vector3d outward = flat.normalized();
            const double before = trial_.state.positions(2, node);
            const double sine = std::sin(angle - by);
            trial_.state.positions.col(node) = (ring_.radius - past * std::cos(angle)) * outward;
            trial_.state.positions(2, node) =
                sine > 0 ? before * std::sin(angle) / sine : -past * std::sin(angle);
            const Eigen::Vector3d hoop = Eigen::Vector3d::UnitZ().cross(outward);
            trial_.state.directors.col(node) =
                Eigen::AngleAxisd(by, hoop) * Eigen::Vector3d(trial_.state.directors.col(node));
        }
    }

    Ring ring_;
    support::SheetTrial trial_;
};

class StretchedRing : public testing::TestWithParam<Ring> {};

TEST_P(StretchedRing, HasTheEdgeStrainThicknessAndHeightOfTheClosedForm) {
    const support::ReferenceTable closed_form("stretch_flange");
    RingSlice slice(GetParam());
    slice.form();
    const Stretched found = slice.read();
    int n_rows = 0;
    for (std::size_t row = 0; row < closed_form.n_rows(); ++row) {
        if (closed_form.number(row, "radius") != GetParam().radius
            || closed_form.number(row, "width") != GetParam().width) {
            continue;
        }
        ++n_rows;
        const double strain = closed_form.number(row, "edge_strain");
        const double thickness = closed_form.number(row, "edge_thickness");
        const double height = closed_form.number(row, "height");
        const support::Figure figure{
            .table = "ring",
            .check = "ring R " + std::to_string(std::lround(GetParam().radius)) + ", flange "
                + std::to_string(std::lround(GetParam().width)),
            .source = "stretch-flange-closed-forms, computed",
            .mesh = std::to_string(n_wide) + " across"};
        support::compare(figure.of("edge strain", found.edge_strain, strain), {.width = tolerance});
        support::compare(
            figure.of("edge thickness over that of the blank", found.edge_thickness, thickness),
            {.width = tolerance}
        );
        support::compare(figure.of("height, mm", found.height, height), {.width = tolerance});
    }
    EXPECT_EQ(n_rows, 1);
}

INSTANTIATE_TEST_SUITE_P(
    Of, StretchedRing, testing::Values(Ring{50, 10}, Ring{100, 10}, Ring{100, 25})
);

} // namespace
} // namespace flangewright
