// How deep the groove of a sheet is: as deep as makes the analysis meet its measured forming limit.
#pragma once

#include "solver/limits/groove.hpp"
#include "solver/material/sheet_material.hpp"

#include <memory>
#include <string>
#include <vector>

namespace flangewright::limits {

/// What the depth of the groove stands on.
enum class GrooveBasis {
    assumed, ///< nothing is measured: the groove of GrooveChoice
    doubtful, ///< the sheet's forming limit is assumed or of unknown grade: not used
    measured, ///< fitted to the measured forming limit
    above_even_sheet, ///< even a groove of `shallowest` necks before what was measured: as
                      ///< `assumed`
    below_deepest, ///< a groove of `deepest` necks after what was measured: that one is used
};

/// A measured point beside what is computed for its ratio of strains.
struct LimitBeside {
    material::FormingPoint measured;
    double computed_major = 0; ///< true strain on the straight path through the point
};

/// Curve and groove a sheet's necks are computed with.
struct GrooveFit {
    GrooveBasis basis = GrooveBasis::assumed;
    GrooveChoice choice;
    std::shared_ptr<const material::HardeningLaw> flow; ///< as a tensile test shows it; may be none
    std::string law_name;
    bool is_other_curve =
        false; ///< of SheetMaterial::other_curves, since none fits on the used one
    bool is_by_plane_strain = false; ///< fitted where the minor strain is small, else to all points
    std::vector<LimitBeside> points; ///< all that were measured; empty unless they are trusted
    material::DataGrade grade = material::DataGrade::unknown; ///< of what was measured
    std::string source;
    /// Whether the groove was chosen by what was measured.
    [[nodiscard]] bool is_from_points() const {
        return basis == GrooveBasis::measured || basis == GrooveBasis::below_deepest;
    }
    /// By what a share computed with this groove is multiplied so that straight paths meet all
    /// measured points: computed over measured major strain, its logarithm straight over the ratio
    /// of strains between points, level beyond them; 1 without points that are used. Units: -.
    /// Source: derived here (docs/theory-findings.md, "Groove and measured limit"). Fails: never.
    [[nodiscard]] double correction(double ratio) const;
    /// How far the computed curve lies above the points at most, part of the measured major
    /// strain; below zero: below all of them.
    [[nodiscard]] double most_above() const;
    /// How far below at most, as above.
    [[nodiscard]] double most_below() const;
};

/// Grooves from and to which one is looked for. Source: common practice, no source.
inline constexpr double shallowest = 0.9995;
inline constexpr double deepest = 0.8;

/// Fits the groove to what was measured near plane strain (minor strain within a tenth of the
/// major), where a neck comes first and the depth of the groove decides, else to all points: the
/// computed major strains on straight paths then meet the measured ones on average (of logarithms).
/// On the curve that is used, else on the first other curve of the sheet where a groove fits. Only
/// what was measured (graded coupon, published or typical) counts. Units: -. Source:
/// marciniak-kuczynski-1967 (groove); fit derived here (docs/theory-findings.md, "Groove and
/// measured limit"). Fails: without a hardening curve there is no flow and no fit.
[[nodiscard]] GrooveFit fit_groove(const material::SheetMaterial& material);

/// Major true strain at the neck of a straight path of this ratio minor over major, the major
/// strain at an angle to the rolling direction; no more than some 3 in equivalent strain. Units:
/// rad, -. Source: local_neck.hpp. Fails: never for a ratio above -1 that thins the sheet.
[[nodiscard]] double major_at_neck(
    const NeckingSheet& sheet, const GrooveChoice& choice, double ratio, double direction
);

/// The sheet's yield law, von Mises where it has none. Units: none. Source: none needed. Fails:
/// never.
[[nodiscard]] std::shared_ptr<const material::YieldLaw>
yield_of(const material::SheetMaterial& material);

} // namespace flangewright::limits
