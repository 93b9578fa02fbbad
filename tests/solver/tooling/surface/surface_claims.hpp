// What every rigid surface must fulfil, whatever its shape.
#pragma once

#include "solver/tooling/surface/rigid_surface.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace flangewright::tooling {

/// Checks, at random places round the nose, that the normal is the unit gradient of the distance,
/// that the curvature is its second derivative, and that a point moved by -distance lies on the
/// surface. Places within `margin` of a change from one piece of the profile to the next, where the
/// curvature jumps, are passed over as `is_on_seam` tells; so are places inside a round nose close
/// to its centre.
template <typename OnSeam>
void expect_a_distance_function(const RigidSurface& surface, OnSeam is_on_seam) {
    constexpr unsigned seed = 404;
    constexpr double h = 1e-5;
    constexpr double truncation = 1e-7; // h squared over the smallest radius cubed, and rounding
    std::mt19937 generator(seed);
    std::uniform_real_distribution<double> x(-8, 14);
    std::uniform_real_distribution<double> z(-14, 8);
    int n_seen = 0;
    for (int n = 0; n < 4000; ++n) {
        const SectionPoint point(x(generator), z(generator));
        if (is_on_seam(point)) {
            continue;
        }
        ++n_seen;
        const SurfaceReading here = surface.at(point);
        ASSERT_NEAR(here.normal.norm(), 1, 1e-12)
            << "seed " << seed << ", at " << point.transpose();
        Eigen::Vector2d gradient;
        Eigen::Matrix2d second;
        for (int i = 0; i < 2; ++i) {
            const SurfaceReading up = surface.at(point + h * SectionPoint::Unit(i));
            const SurfaceReading down = surface.at(point - h * SectionPoint::Unit(i));
            gradient[i] = (up.distance - down.distance) / (2 * h);
            second.col(i) = (up.normal - down.normal) / (2 * h);
        }
        ASSERT_LT((gradient - here.normal).norm(), truncation) << "at " << point.transpose();
        ASSERT_LT((second - here.curvature).norm(), truncation) << "at " << point.transpose();
        const SectionPoint foot = point - here.distance * here.normal;
        ASSERT_NEAR(surface.at(foot).distance, 0, 1e-9) << "at " << point.transpose();
    }
    EXPECT_GT(n_seen, 2000);
}

/// Checks, at a point seen from one station after the other, that what a reading says of its
/// changes along the line are its derivatives. Says the largest slope, so that a test can ask for
/// one.
inline double expect_changes_along_line(
    const RigidSurface& surface, const SectionPoint& point, double from, double to, double step
) {
    constexpr double h = 1e-4;
    constexpr double truncation = 1e-6; // h squared over the front's length cubed, and rounding
    double largest = 0;
    for (double station = from; station < to; station += step) {
        const ChangingReading here = surface.at_station(point, station);
        const ChangingReading past = surface.at_station(point, station + h);
        const ChangingReading before = surface.at_station(point, station - h);
        const auto slope = [](double up, double down) { return (up - down) / (2 * h); };
        EXPECT_NEAR(here.slope, slope(past.surface.distance, before.surface.distance), truncation);
        EXPECT_NEAR(here.bend, slope(past.slope, before.slope), truncation);
        for (int i = 0; i < 2; ++i) {
            EXPECT_NEAR(
                here.turn[i], slope(past.surface.normal[i], before.surface.normal[i]), truncation
            );
        }
        largest = std::max(largest, std::abs(here.slope));
    }
    return largest;
}

} // namespace flangewright::tooling
