#include "solver/material/log_strain.hpp"

#include <cmath>

namespace flangewright::material {

namespace {

// g(y) = atanh(sqrt y) / sqrt y and two derivatives; smooth through y = 0.
struct Atanh {
    double g, g1, g2;
};

// Below these the power series is exact to rounding with the terms kept; above, the closed form is.
constexpr double series_limit = 0.06;
constexpr double short_series_limit = 1e-3; // most of a sheet most of the time

// Horner for g, g' and g''; unrolled, its coefficients are constants.
template <int n_terms>
Atanh series(double y) {
    Atanh sum{0, 0, 0};
#pragma GCC unroll 16
    for (int k = n_terms; k >= 0; --k) {
        sum.g2 = sum.g2 * y + 2 * sum.g1;
        sum.g1 = sum.g1 * y + sum.g;
        sum.g = sum.g * y + 1.0 / (2 * k + 1);
    }
    return sum;
}

Atanh atanh_over_root(double y) {
    if (y < short_series_limit) {
        return series<6>(y);
    }
    if (y < series_limit) {
        return series<12>(y);
    }
    const double x = std::sqrt(y);
    const double g = 0.5 * std::log((1 + x) / (1 - x)) / x;
    const double pole = 1 / (1 - y);
    const double g1 = (pole - g) / (2 * y);
    const double g2 = (pole * pole - 3 * g1) / (2 * y);
    return {g, g1, g2};
}

} // namespace

LogStrain::LogStrain(const SplitStrain& C) : m_(C[0]), d_(C[1]), o_(C[2]) {
    const double w = d_ * d_ + o_ * o_;
    det_ = m_ * m_ - w;
    is_valid_ = m_ > 0 && det_ > 0;
    if (!is_valid_) {
        return;
    }
    // e = 1/4 ln(det C) I + b dev C with b = g(y)/(2 m), y = w / m^2; note g + 2 y g' = 1/(1 - y).
    const double y = w / (m_ * m_);
    const Atanh a = atanh_over_root(y);
    const double inverse = 1 / m_;
    const double pole = 1 / (1 - y);
    b_ = 0.5 * a.g * inverse;
    b_m_ = -0.5 * pole * inverse * inverse;
    b_w_ = 0.5 * a.g1 * inverse * inverse * inverse;
    b_mm_ = (pole + y * pole * pole) * inverse * inverse * inverse;
    b_mw_ = -0.5 * pole * pole * inverse * inverse * inverse * inverse;
    b_ww_ = 0.5 * a.g2 * inverse * inverse * inverse * inverse * inverse;
}

SplitStrain LogStrain::value() const {
    return {0.25 * std::log(det_), b_ * d_, b_ * o_};
}

Eigen::Vector3d LogStrain::stress(const SplitStress& T) const {
    const double a_m = 0.5 * m_ / det_;
    const double a_w = -0.25 / det_;
    const double q = T[1] * d_ + T[2] * o_;
    const double along_w = 2 * (T[0] * a_w + q * b_w_);
    return {T[0] * a_m + q * b_m_, along_w * d_ + b_ * T[1], along_w * o_ + b_ * T[2]};
}

Eigen::Matrix3d LogStrain::tangent(const SplitStress& T, const Eigen::Matrix3d& D) const {
    const double inverse = 1 / det_;
    const double a_m = 0.5 * m_ * inverse;
    const double a_w = -0.25 * inverse;
    const double a_mm = 0.5 * inverse - m_ * m_ * inverse * inverse;
    const double a_mw = 0.5 * m_ * inverse * inverse;
    const double a_ww = -0.25 * inverse * inverse;
    const double q = T[1] * d_ + T[2] * o_;

    // First derivatives of the log strain over (m, d, o).
    Eigen::Matrix3d A;
    A << a_m, 2 * a_w * d_, 2 * a_w * o_, //
        b_m_ * d_, b_ + 2 * b_w_ * d_ * d_, 2 * b_w_ * d_ * o_, //
        b_m_ * o_, 2 * b_w_ * d_ * o_, b_ + 2 * b_w_ * o_ * o_;

    // Second derivatives contracted with T.
    const double mw = 2 * (T[0] * a_mw + q * b_mw_);
    const double ww = 4 * (T[0] * a_ww + q * b_ww_);
    const double w1 = 2 * (T[0] * a_w + q * b_w_);
    Eigen::Matrix3d H;
    H(0, 0) = T[0] * a_mm + q * b_mm_;
    H(0, 1) = H(1, 0) = mw * d_ + b_m_ * T[1];
    H(0, 2) = H(2, 0) = mw * o_ + b_m_ * T[2];
    H(1, 1) = ww * d_ * d_ + w1 + 4 * b_w_ * T[1] * d_;
    H(2, 2) = ww * o_ * o_ + w1 + 4 * b_w_ * T[2] * o_;
    H(1, 2) = H(2, 1) = ww * d_ * o_ + 2 * b_w_ * (d_ * T[2] + o_ * T[1]);
    H.noalias() += A.transpose() * D * A;
    return H;
}

} // namespace flangewright::material
