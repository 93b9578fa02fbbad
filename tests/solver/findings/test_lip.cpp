#include "solver/findings/lip.hpp"
#include "tests/support/flange_job.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::findings {
namespace {

using job::LipSide;
using support::degree;

constexpr double t = 1;
constexpr double rounding = 1e-12;

Eigen::Vector2d turned(double angle) {
    return {std::cos(angle), -std::sin(angle)};
}

/// A section drawn with a ruler: web's outer face at height t, flange's and lip's outsides meeting
/// it and each other in sharp corners.
struct Drawn {
    double flange_angle = 0;
    double lip_angle = 0;
    double flange_depth = 0;
    double lip_depth = 0;
    LipSide side = LipSide::under_web;

    [[nodiscard]] double sign() const { return side == LipSide::under_web ? 1 : -1; }
    [[nodiscard]] Eigen::Vector2d along_flange() const { return turned(flange_angle); }
    [[nodiscard]] Eigen::Vector2d along_lip() const {
        return turned(flange_angle + sign() * lip_angle);
    }
    /// A line half a thickness inside of its outside face.
    [[nodiscard]] FlangeLine
    line(const Eigen::Vector2d& outside_point, const Eigen::Vector2d& direction) const {
        const Eigen::Vector2d outer(-direction.y(), direction.x());
        return {outside_point - sign() * 0.5 * t * outer, direction, t, 5, false};
    }
    [[nodiscard]] LipReading read() const {
        const Eigen::Vector2d top(3, t);
        const Eigen::Vector2d corner = top + flange_depth * along_flange();
        const Eigen::Vector2d edge = corner + lip_depth * along_lip();
        return read_lip(
            line(top + 4 * along_flange(), along_flange()),
            line(corner + 2 * along_lip(), along_lip()),
            edge,
            t,
            side
        );
    }
};

TEST(Lip, ReadsAnglesAndDepthsOfADrawnSection) {
    for (const LipSide side : {LipSide::under_web, LipSide::away_from_web}) {
        for (const double flange : {75 * degree, 90 * degree, 97 * degree}) {
            for (const double angle : {40 * degree, 88 * degree, 95 * degree}) {
                const LipReading reading = Drawn{flange, angle, 20, 8, side}.read();
                EXPECT_NEAR(reading.angle, angle, rounding);
                EXPECT_NEAR(reading.depth, 8, 1e-9);
                EXPECT_NEAR(reading.flange_depth, 20, 1e-9);
            }
        }
    }
}

TEST(Lip, OfALipThatIsNotBentHasItsLengthPastTheFittedPoint) {
    const LipReading reading = Drawn{90 * degree, 0, 20, 8}.read();
    EXPECT_NEAR(reading.angle, 0, rounding);
    EXPECT_TRUE(std::isfinite(reading.depth));
    EXPECT_TRUE(std::isfinite(reading.flange_depth));
}

TEST(Lip, IsFittedPastItsBend) {
    job::Job job = support::straight_job();
    job.return_bend = job::ReturnBend{.lip_depth = 8, .nose_radius = 3};
    job.blank.flange_width = 33;
    job.blank.trim_allowance = 3;
    job.blank.lip_width = 12;
    const double bend_end = 18 + 0.5 * std::numbers::pi * 3.5;
    EXPECT_NEAR(lip_window(job).begin, bend_end + 0.4 * (30 - bend_end), 1e-9);
    EXPECT_NEAR(lip_window(job).end, bend_end + 0.9 * (30 - bend_end), 1e-9);
    // And the flange before it, from when on it is known that a lip will be bent.
    const double flange_begin = 0.5 * std::numbers::pi * 3.5;
    EXPECT_NEAR(fit_window(job).end, flange_begin + 0.9 * (18 - flange_begin), 1e-9);
}

} // namespace
} // namespace flangewright::findings
