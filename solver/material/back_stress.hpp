// Kinematic hardening: back stresses that follow the flow and are recalled by it.
#pragma once

#include "solver/material/hardening_law.hpp"
#include "solver/material/plane_tensor.hpp"

#include <cstddef>
#include <memory>
#include <span>

namespace flangewright::material {

inline constexpr std::size_t n_back_stresses_most = 3;

/// One back stress X of a sheet: dX = 2/3 stiffness d(plastic strain) - recall X d(plastic length).
/// In steady tension it shifts the flow stress by stiffness/recall (1 - exp(-recall p)).
/// Source: armstrong-frederick-1966; several of them: chaboche-1986.
struct BackStress {
    double stiffness = 0; ///< slope at which it starts, MPa
    double recall = 0; ///< how fast it saturates, -; 0 is linear (Prager)
};

/// What back stresses add to the flow stress in tension without reversal.
/// Units: plastic strain in -, stress in MPa. Source: lemaitre-chaboche-1990, section 5.4.
/// Fails: never for a plastic strain >= 0.
[[nodiscard]] FlowStress
steady_back_stress(std::span<const BackStress> back_stresses, double plastic_strain);

/// The curve that a tensile test without reversal shows: `isotropic` and the back stresses
/// together; `isotropic` itself when there are none. Units, source, fails: as above.
[[nodiscard]] std::shared_ptr<const HardeningLaw> steady_flow(
    std::shared_ptr<const HardeningLaw> isotropic, std::span<const BackStress> back_stresses
);

} // namespace flangewright::material
