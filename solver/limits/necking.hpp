// Closed forms: how far a sheet stretches evenly before it necks. von Mises, path of one strain
// ratio.
#pragma once

#include "solver/material/hardening_law.hpp"

#include <optional>

namespace flangewright::limits {

/// Equivalent strain per major strain at the ratio minor / major, von Mises.
/// Units: -. Source: definition. Fails: never for a ratio above -2.
[[nodiscard]] double equivalent_per_major(double ratio);

/// Equivalent strain at a diffuse neck over the exponent of a power law. Units: -; ratio of minor
/// to major strain, above -1. Source: swift-1952. Fails: never in that range.
[[nodiscard]] double swift_factor(double ratio);

/// Equivalent strain at a local neck over the exponent of a power law. Units: -; ratio above -1 and
/// at most 0. Source: hill-1952. Fails: never in that range; above 0 no line keeps its length, and
/// what is returned means nothing.
[[nodiscard]] double hill_factor(double ratio);

/// Major log strain at a diffuse neck of K (e0 + p)^n. Units: -. Source: swift-1952; with e0
/// derived here (docs/theory-findings.md, "Necking"). Fails: never for a ratio above -1; below zero
/// when the prestrain is already past it.
[[nodiscard]] double swift_major_strain(double exponent, double prestrain, double ratio);

/// Major log strain at a local neck of the same curve, ratio in (-1, 0]. Units, fails: as above.
/// Source: hill-1952; with e0 derived here.
[[nodiscard]] double hill_major_strain(double exponent, double prestrain, double ratio);

/// Smallest plastic strain at which factor * slope <= stress: of any curve the strain of largest
/// load in tension (factor 1, considere-1885), of a diffuse neck (swift_factor) or a local one
/// (hill_factor). Units: -. Source: considere-1885, swift-1952, hill-1952; subtangent form derived
/// here (docs/theory-findings.md, "Necking"). Fails: empty when that is not below `most`.
[[nodiscard]] std::optional<double>
neck_strain(const material::HardeningLaw& law, double factor, double most = 5);

} // namespace flangewright::limits
