// Figures as JSON has them, for the parts of the summary.
#pragma once

#include "io/units/angle.hpp"
#include "solver/findings/findings.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <optional>

namespace flangewright::tables {

using Json = nlohmann::ordered_json;

/// JSON knows no infinity; an unknown figure is null, never a made-up number. Units: as given.
/// Source: none needed. Fails: never.
[[nodiscard]] inline Json number(double value) {
    return std::isfinite(value) ? Json(value) : Json(nullptr);
}

[[nodiscard]] inline Json number(const std::optional<double>& value) {
    return value ? number(*value) : Json(nullptr);
}

/// Units: rad, to degrees. Source: none needed. Fails: never.
[[nodiscard]] inline Json spread_deg(const findings::Spread& spread) {
    return {
        {"min", number(units::degrees(spread.least))},
        {"mean", number(units::degrees(spread.mean))},
        {"max", number(units::degrees(spread.most))}};
}

} // namespace flangewright::tables
