#include "tests/io/coupon/coupon_parts.hpp"

#include <gtest/gtest.h>

namespace flangewright::coupon {
namespace {

/// Length along the edge by adding up many short chords.
double edge_length(const outline::BendLine& line, double width, double from, double to) {
    constexpr int n = 2000;
    double length = 0;
    for (int i = 0; i < n; ++i) {
        const double a = from + (to - from) * i / n;
        const double b = from + (to - from) * (i + 1) / n;
        length += (line.point({b, width}) - line.point({a, width})).norm();
    }
    return length;
}

TEST(GaugeMarks, LieFiveMillimetresApartAlongTheFlatEdge) {
    const CouponParts parts = coupon_parts();
    const outline::BendLine& line = parts.read.job.blank.line;
    ASSERT_GT(parts.marks.size(), 20U);
    constexpr double chords = 1e-6; // short by (5 mm / 2000)^2 / (24 r^2)
    for (std::size_t i = 1; i < parts.marks.size(); ++i) {
        const double apart = edge_length(
            line, parts.flange.flat_width, parts.marks[i - 1].station, parts.marks[i].station
        );
        EXPECT_NEAR(apart, mark_distance, chords) << i;
        EXPECT_EQ(parts.marks[i].number, static_cast<int>(i));
    }
}

TEST(GaugeMarks, KnowTheStepTheyLieIn) {
    const CouponParts parts = coupon_parts();
    EXPECT_FALSE(parts.marks.front().step.has_value());
    EXPECT_FALSE(parts.marks.back().step.has_value());
    std::vector<int> counted(parts.flange.steps.size(), 0);
    for (const GaugeMark& mark : parts.marks) {
        if (mark.step) {
            ++counted.at(*mark.step);
            const double k = parts.read.job.blank.line.curvature(mark.station);
            EXPECT_NEAR(1 / k, parts.flange.steps[*mark.step].radius, 1e-4);
        }
    }
    for (const int n : counted) {
        EXPECT_GE(n, 3);
    }
}

TEST(GaugeMarks, ArePairedWithinTheirStep) {
    const CouponParts parts = coupon_parts();
    const auto pairs = mark_pairs(parts.marks);
    EXPECT_GE(pairs.size(), parts.flange.steps.size());
    for (const auto& [from, to] : pairs) {
        const auto at = [&parts](int number) {
            return parts.marks.at(static_cast<std::size_t>(number)).step;
        };
        EXPECT_TRUE(at(from).has_value());
        EXPECT_EQ(at(from), at(to));
        EXPECT_GE(to - from, 1);
        EXPECT_LE(to - from, 2);
    }
}

} // namespace
} // namespace flangewright::coupon
