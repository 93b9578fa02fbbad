#include "solver/findings/neck_basis.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace flangewright::findings {

namespace {

constexpr double largest_sure_miss = 0.2; // of a measured major strain; own choice

material::DataGrade one_lower(material::DataGrade grade) {
    switch (grade) {
    case material::DataGrade::coupon:
        return material::DataGrade::published;
    case material::DataGrade::published:
        return material::DataGrade::typical;
    case material::DataGrade::typical:
    case material::DataGrade::assumed:
        return material::DataGrade::assumed;
    case material::DataGrade::unknown:
        break;
    }
    return material::DataGrade::unknown;
}

material::DataGrade curve_grade(const material::SheetMaterial& material) {
    return material.back_stresses.empty()
        ? material.curve_grade
        : std::max(material.curve_grade, material.back_stress_grade);
}

/// The other curve of the sheet that a fit has chosen; none: the one that is used.
const material::OtherCurve*
chosen_curve(const material::SheetMaterial& material, const limits::GrooveFit& groove) {
    if (!groove.is_other_curve) {
        return nullptr;
    }
    const auto same =
        std::ranges::find(material.other_curves, groove.flow, &material::OtherCurve::law);
    return same == material.other_curves.end() ? nullptr : &*same;
}

std::string curve_source(const material::SheetMaterial& material, const limits::GrooveFit& groove) {
    const material::OtherCurve* other = chosen_curve(material, groove);
    return other != nullptr ? other->source : material.curve_source;
}

material::DataGrade
grade_of_fit(const material::SheetMaterial& material, const limits::GrooveFit& groove) {
    const material::OtherCurve* other = chosen_curve(material, groove);
    const material::DataGrade both =
        std::max(groove.grade, other != nullptr ? other->grade : curve_grade(material));
    const bool is_far = std::max(groove.most_above(), groove.most_below()) > largest_sure_miss;
    return is_far ? one_lower(both) : both;
}

/// "the computed limit lies at most 12 % above and 5 % below these points".
std::string misses_in_words(const limits::GrooveFit& groove) {
    const double above = 100 * groove.most_above();
    const double below = 100 * groove.most_below();
    if (groove.points.size() == 1) {
        return fmt::format(
            "the computed limit lies {:.0f} % {} it",
            std::max(std::abs(above), 0.0),
            above >= 0 ? "above" : "below"
        );
    }
    if (below <= 0) {
        return fmt::format("the computed limit lies up to {:.0f} % above them", above);
    }
    if (above <= 0) {
        return fmt::format("the computed limit lies up to {:.0f} % below them", below);
    }
    return fmt::format(
        "the computed limit lies up to {:.0f} % above and {:.0f} % below them", above, below
    );
}

std::string measured_in_words(const limits::GrooveFit& groove) {
    const std::size_t n = groove.points.size();
    return fmt::format(
        "{} measured point{} of the forming limit ({}: {})",
        n,
        n == 1 ? "" : "s",
        material::word_for(groove.grade),
        groove.source.empty() ? "source not given" : groove.source
    );
}

} // namespace

std::string groove_in_words(const limits::GrooveFit& groove) {
    const double thinner = 100 * (1 - groove.choice.thickness_ratio);
    const std::string depth = fmt::format("groove {:.2g} % thinner", thinner);
    std::string as_usual = depth + ": common practice, no source";
    switch (groove.basis) {
    case limits::GrooveBasis::assumed:
        return as_usual;
    case limits::GrooveBasis::doubtful:
        return as_usual + ", since the sheet's forming limit is assumed, not measured";
    case limits::GrooveBasis::measured:
        return fmt::format(
            "{}, fitted {} {}; {}, and shares are scaled by that",
            depth,
            groove.is_by_plane_strain && groove.points.size() > 1 ? "near plane strain to" : "to",
            measured_in_words(groove),
            misses_in_words(groove)
        );
    case limits::GrooveBasis::above_even_sheet:
        return fmt::format(
            "{}; {} not used, as no groove on this curve necks so late: {}",
            as_usual,
            measured_in_words(groove),
            misses_in_words(groove)
        );
    case limits::GrooveBasis::below_deepest:
        break;
    }
    return fmt::format(
        "{}, the deepest looked for; {} lower still: {}, and shares are scaled by that",
        depth,
        measured_in_words(groove),
        misses_in_words(groove)
    );
}

void say_basis(
    NeckFindings& neck, const material::SheetMaterial& material, const limits::GrooveFit& groove
) {
    const bool is_measured = groove.is_from_points();
    neck.grade = is_measured ? grade_of_fit(material, groove) : one_lower(curve_grade(material));
    neck.limit_of = is_measured ? "its measured forming limit" : "its hardening curve";
    neck.source = fmt::format(
        "groove analysis on the {} curve of {} ({}; beyond the uniform elongation the curve is "
        "extrapolated); curve: {}",
        groove.law_name,
        material.name,
        groove_in_words(groove),
        curve_source(material, groove)
    );
}

} // namespace flangewright::findings
