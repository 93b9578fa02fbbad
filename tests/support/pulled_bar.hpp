// A material point that carries its memory, and a bar made of one.
#pragma once

#include "solver/material/shifted_update.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>
#include <vector>

namespace flangewright::support {

/// In-plane components 11, 22, 12 of a stress in split form.
inline Eigen::Vector3d components(const material::SplitStress& T) {
    return {0.5 * (T[0] + T[1]), 0.5 * (T[0] - T[1]), 0.5 * T[2]};
}

/// Split form of an in-plane strain.
inline material::SplitStrain split(double e11, double e22, double e12) {
    return {0.5 * (e11 + e22), 0.5 * (e11 - e22), e12};
}

/// A point with back stresses that goes from strain to strain. MPa.
class Point {
public:
    Point(
        const material::PlaneElasticity& elasticity,
        std::shared_ptr<const material::HardeningLaw> size,
        std::vector<material::BackStress> shifts
    )
        : elasticity_(elasticity), size_(std::move(size)), shifts_(std::move(shifts)),
          back_stresses_(shifts_.size(), material::SplitStress::Zero()) {}

    [[nodiscard]] material::ShiftedUpdate look(const material::SplitStrain& strain) const {
        return material::update_point(
            elasticity_, {*size_, shifts_}, strain, {flow_, back_stresses_}, true
        );
    }
    void keep(const material::ShiftedUpdate& update) {
        ASSERT_TRUE(update.point.has_converged);
        flow_ = update.point.memory;
        std::copy_n(update.back_stresses.begin(), shifts_.size(), back_stresses_.begin());
    }
    material::PointUpdate go(const material::SplitStrain& strain) {
        const material::ShiftedUpdate update = look(strain);
        keep(update);
        return update.point;
    }
    [[nodiscard]] const material::PointMemory& flow() const { return flow_; }
    [[nodiscard]] const std::vector<material::SplitStress>& back_stresses() const {
        return back_stresses_;
    }

private:
    material::PlaneElasticity elasticity_;
    std::shared_ptr<const material::HardeningLaw> size_;
    std::vector<material::BackStress> shifts_;
    material::PointMemory flow_;
    std::vector<material::SplitStress> back_stresses_;
};

/// A bar pulled along 1: the strain across it is found so that it carries no stress across. MPa.
class Bar {
public:
    explicit Bar(Point point) : point_(std::move(point)) {}

    /// Stress along the bar at this strain.
    double pull(double along) {
        for (int i = 0; i < 50; ++i) {
            const material::SplitStrain strain = split(along, across_, 0);
            const material::ShiftedUpdate update = point_.look(strain);
            const Eigen::Vector3d s = components(update.point.stress);
            if (std::abs(s[1]) < 1e-9) {
                point_.keep(update);
                return s[0];
            }
            // d(s22)/d(e22) from the split tangent.
            const Eigen::Vector3d turn(0.5, -0.5, 0);
            across_ -= s[1] / turn.dot(update.point.tangent * turn);
        }
        ADD_FAILURE() << "no strain across the bar found at " << along;
        return 0;
    }
    /// As pull(), in even steps from the last strain.
    double pull_slowly(double along, int n_steps) {
        const double from = along_;
        double stress = 0;
        for (int i = 1; i <= n_steps; ++i) {
            along_ = from + (along - from) * i / n_steps;
            stress = pull(along_);
        }
        return stress;
    }
    [[nodiscard]] const Point& point() const { return point_; }

private:
    Point point_;
    double along_ = 0;
    double across_ = 0;
};

} // namespace flangewright::support
