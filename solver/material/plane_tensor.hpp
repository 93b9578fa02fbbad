// In-plane tensors split into mean, difference and shear, in which plane-stress plasticity is
// diagonal.
#pragma once

#include <Eigen/Core>

namespace flangewright::material {

/// An in-plane symmetric strain-like tensor e: ((e11 + e22)/2, (e11 - e22)/2, e12).
/// For the right Cauchy-Green tensor C the same split gives (1 + E11 + E22, E11 - E22, 2 E12)
/// of the Green-Lagrange strain E.
using SplitStrain = Eigen::Vector3d;

/// The work conjugate of SplitStrain: (T11 + T22, T11 - T22, 2 T12), so that the plain dot
/// product of both is T : e.
using SplitStress = Eigen::Vector3d;

} // namespace flangewright::material
