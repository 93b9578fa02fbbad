// Pressure between sheet and tool over the gap: a stiff penalty with a soft start.
#pragma once

namespace flangewright::tooling {

/// Pressure and its slope over the gap.
struct ContactPressure {
    double pressure = 0; ///< MPa, >= 0
    double slope = 0; ///< MPa/mm, over the gap, <= 0
};

/// Pressure rises with the square of the penetration over `ramp`, then along `stiffness`.
/// The ramp takes the kink out of Newton's way.
struct ContactLaw {
    double stiffness = 0; ///< MPa/mm
    double ramp = 0; ///< mm

    /// Units: gap in mm, negative when tool and sheet overlap. Source: derived here
    /// (docs/theory.md, "Contact"). Fails: never.
    [[nodiscard]] ContactPressure at(double gap) const {
        const double depth = -gap;
        if (depth <= 0) {
            return {};
        }
        if (depth < ramp) {
            return {0.5 * stiffness * depth * depth / ramp, -stiffness * depth / ramp};
        }
        return {stiffness * (depth - 0.5 * ramp), -stiffness};
    }
};

} // namespace flangewright::tooling
