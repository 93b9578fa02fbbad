#include "io/command_line/fit_text.hpp"

#include "io/command_line/material_page.hpp"
#include "io/command_line/words.hpp"
#include "io/units/percent.hpp"

#include <fmt/format.h>

namespace flangewright::command_line {

namespace {

using material::ElasticPart;
using material::ModulusOrigin;
using material::RangedNumber;
using material::TensileFit;
using Row = std::vector<std::string>;
using Rows = std::vector<Row>;

std::string modulus_origin(const ElasticPart& elastic) {
    if (elastic.origin == ModulusOrigin::fitted) {
        return fmt::format(
            "slope through {} points from 10 to 50 % of the proof stress, give or take {:.2g} %",
            elastic.n_points,
            100 * elastic.slope_error / elastic.slope
        );
    }
    const std::string why =
        elastic.origin == ModulusOrigin::given ? "as given" : "ASSUMED, as of aluminium";
    if (elastic.n_points == 0) {
        return why + "; the test does not resolve its straight part";
    }
    return fmt::format(
        "{}; the record starts with {}, which is taken off its strain",
        why,
        modulus_text(elastic.slope)
    );
}

std::string range_text(const material::StrainRange& range) {
    return fmt::format(
        "{} to {}", units::percent_text(range.least, 1), units::percent_text(range.most, 1)
    );
}

Row ranged_row(
    const std::string& name,
    const std::optional<RangedNumber>& number,
    const std::string& how,
    const std::string& why_not
) {
    return number ? Row{name, fmt::format("{:.3f}", number->value), how + range_text(number->range)}
                  : Row{name, "unknown", why_not};
}

Rows elongation_rows(const TensileFit& fit) {
    const std::string total = units::percent_text(fit.total_elongation, 1);
    if (!fit.uniform_elongation) {
        return {
            {"uniform elongation", "unknown", "no maximum load: the load rises to the end"},
            {"elongation", "unknown", "the test ends at " + total + ", before a break"}};
    }
    return {
        {"uniform elongation",
         units::percent_text(*fit.uniform_elongation, 1),
         "strain at maximum load"},
        {"elongation", total, "to the end of the record, elastic part taken off"}};
}

std::string curves_text(const TensileFit& fit) {
    if (fit.curves.empty()) {
        return "No hardening law fits.\n";
    }
    Rows rows;
    for (const material::CurveFit& one : fit.curves) {
        rows.push_back(
            {one.curve.law_name,
             parameters_text(one.curve.law_name, one.curve.law_values),
             fmt::format("misses {:.2g} MPa rms, {:.2g} MPa at most", one.rms, one.largest)}
        );
    }
    return fmt::format(
               "Hardening: true stress over true plastic strain, least squares over {} points, {}, "
               "the better law first\n",
               fit.points.stress.size(),
               fitted_text(fit.curves.front().curve.fitted_to)
           )
        + as_columns(rows);
}

} // namespace

std::string fit_text(const TensileFit& fit) {
    Rows rows{
        {"Young's modulus", modulus_text(fit.elastic.modulus), modulus_origin(fit.elastic)},
        {"proof stress, 0.2 %", both_stresses(fit.elastic.proof_stress), "offset from that slope"},
        {"tensile strength", both_stresses(fit.tensile_strength), "largest load"}};
    for (const Row& row : elongation_rows(fit)) {
        rows.push_back(row);
    }
    rows.push_back(ranged_row(
        "n", fit.n, "ln true stress over ln true plastic strain, ", "too few points in its range"
    ));
    rows.push_back(ranged_row(
        "r", fit.r, "plastic strain of width over that of thickness, ", "the width was not recorded"
    ));
    return as_columns(rows) + curves_text(fit);
}

} // namespace flangewright::command_line
