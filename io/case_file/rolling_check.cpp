#include "io/case_file/rolling_check.hpp"

#include "solver/findings/grain_angle.hpp"
#include "solver/material/yield_figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace flangewright::case_file {

namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr double skew_most = 1 * degree; // nobody cuts a blank truer

// Of the r value and the yield stress; what more would show in no figure.
constexpr double change_most = 1e-3;

bool is_alike_all_round(const material::YieldLaw& law) {
    const material::DirectionalTension along = material::tension_at(law, 0);
    for (int angle = 15; angle <= 90; angle += 15) {
        const material::DirectionalTension there = material::tension_at(law, angle * degree);
        if (std::abs(there.r_value - along.r_value) > change_most
            || std::abs(there.stress - along.stress) > change_most) {
            return false;
        }
    }
    return true;
}

// How far the rolling direction lies from along or square to the line at a station.
double skew_at(const job::Job& job, double station) {
    return std::abs(std::remainder(findings::grain_angle(job, station), 90 * degree));
}

} // namespace

void check_rolling_direction(key_file::TableReader& sheet_table, const job::Job& job) {
    const std::array materials{&job.sheet.material, &job.annealed, &job.heat_treated};
    if (std::ranges::all_of(materials, [](const material::SheetMaterial* material) {
            return material->yield == nullptr || is_alike_all_round(*material->yield);
        })) {
        return;
    }
    double skew = 0;
    if (job.blank.start == job::EndKind::continues) {
        skew = std::max(skew, skew_at(job, 0));
    }
    if (job.blank.end == job::EndKind::continues) {
        skew = std::max(skew, skew_at(job, job.blank.line.length()));
    }
    if (skew > skew_most) {
        sheet_table.object_found(
            sheet_table.has("rolling_direction") ? "rolling_direction" : "material",
            fmt::format(
                "a rolled sheet, {:.0f} degrees askew where the part continues", skew / degree
            ),
            "rolled along or square to the bend line at an end that continues",
            "write 0 or 90 for rolling_direction, or give the whole part with free ends"
        );
    }
}

} // namespace flangewright::case_file
