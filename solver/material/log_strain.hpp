// Logarithmic (Hencky) strain of an in-plane stretch: value, and how stress and stiffness found in
// log-strain space go over to the second Piola-Kirchhoff stress.
#pragma once

#include "solver/material/plane_tensor.hpp"

namespace flangewright::material {

/// Log strain e = 1/2 ln C of one point, kept with what its derivatives need.
class LogStrain {
public:
    /// `C` is the in-plane right Cauchy-Green tensor in split form.
    /// Units: -. Shape: 3, split. Source: miehe-apel-lambrecht-2002 (the map), closed form derived
    /// here (docs/theory.md, "Log strain"). Fails: is_valid() is false when C is not positive.
    explicit LogStrain(const SplitStrain& C);

    [[nodiscard]] bool is_valid() const { return is_valid_; }
    /// Units: -. Shape: 3, split. Source: as the constructor. Fails: never when valid.
    [[nodiscard]] SplitStrain value() const;
    /// Second Piola-Kirchhoff stress conjugate to split C/2 from the log stress `T`.
    /// Units: MPa. Shape: 3, (S11 + S22)/2, (S11 - S22)/2, S12. Source: as the constructor.
    [[nodiscard]] Eigen::Vector3d stress(const SplitStress& T) const;
    /// Derivative of stress() over split C, from the log stress `T` and its tangent `D`.
    /// Units: MPa. Shape: 3 x 3, symmetric. Source: as the constructor.
    [[nodiscard]] Eigen::Matrix3d tangent(const SplitStress& T, const Eigen::Matrix3d& D) const;

private:
    double m_, d_, o_; // split C
    double det_ = 0; // det C
    double b_ = 0; // e_difference = b d, e_shear = b o
    double b_m_ = 0, b_w_ = 0, b_mm_ = 0, b_mw_ = 0, b_ww_ = 0;
    bool is_valid_ = false;
};

} // namespace flangewright::material
