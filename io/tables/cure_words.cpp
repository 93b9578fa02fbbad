#include "io/tables/cure_words.hpp"

#include "io/tables/shown_length.hpp"
#include "io/tables/step_words.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <cmath>

namespace flangewright::tables {

namespace {

// "0.64 %", "1.3 %": to a hundredth of a per cent below one, to a tenth above.
std::string amount(double share) {
    const double percent = 100 * std::abs(share);
    return shown_number(percent, percent < 1 ? 2 : 1) + " %";
}

std::string step_for(const process::CureZone& zone, units::LengthUnit unit) {
    const bool is_stretch = zone.stretch > 0;
    const int n_decimals = unit == units::LengthUnit::inch ? 2 : 0;
    return fmt::format(
        "{} the flange edge about {} between stations {} and {} {}.",
        is_stretch ? "Stretch" : "Shrink",
        amount(zone.stretch),
        shown_number(in_unit(zone.from, unit), n_decimals),
        shown_number(in_unit(zone.to, unit), n_decimals),
        unit_word(unit)
    );
}

// Neighbours that would be told the same are told once.
bool is_same_work(const process::CureZone& zone, const process::CureZone& next) {
    return zone.to == next.from && zone.stretch * next.stretch > 0
        && amount(zone.stretch) == amount(next.stretch);
}

std::string lift_words(const process::WebCure& cure, units::LengthUnit unit) {
    return fmt::format(
        "Tried on the computed part, it brings the web lift from {} to {}",
        shown_length(cure.lift_before, unit),
        shown_length(cure.lift_after, unit)
    );
}

std::string side_effects(const process::WebCure& cure) {
    const double turn = units::degrees(cure.angle_change);
    std::string words;
    constexpr double no_turn = 0.05; // deg
    if (std::abs(turn) >= no_turn) {
        words += fmt::format(
            " The flange {} by {} deg.",
            turn < 0 ? "opens" : "closes",
            shown_number(std::abs(turn), 1)
        );
    }
    constexpr double no_stretch = 5e-4;
    if (cure.edge_strain_added >= no_stretch) {
        words += fmt::format(
            " The edge is stretched by up to {} more: weigh that against what is left of its "
            "limit.",
            amount(std::expm1(cure.edge_strain_added))
        );
    }
    return words;
}

} // namespace

std::string cure_occasion(const process::WebCure& cure, const process::JobResult& of) {
    if (cure.step + 1 >= of.steps.size()) {
        return "";
    }
    for (std::size_t i = cure.step + 1; i < of.steps.size(); ++i) {
        if (of.steps[i].kind == job::StepKind::return_bend) {
            return fmt::format(
                "Before the lip is bent, with the part {}:", words_after(of.steps[cure.step].kind)
            );
        }
    }
    return fmt::format("With the part {}:", words_after(of.steps[cure.step].kind));
}

std::vector<std::string> cure_steps(const process::WebCure& cure, units::LengthUnit unit) {
    std::vector<std::string> steps;
    std::vector<process::CureZone> told;
    for (const process::CureZone& zone : cure.zones) {
        if (!told.empty() && is_same_work(told.back(), zone)) {
            told.back().to = zone.to;
        } else {
            told.push_back(zone);
        }
    }
    steps.reserve(steps.size() + told.size());
    for (const process::CureZone& zone : told) {
        steps.push_back(step_for(zone, unit));
    }
    return steps;
}

std::string cure_outcome(const process::WebCure& cure, units::LengthUnit unit) {
    if (cure.zones.empty()) {
        return fmt::format(
            "The web lifts by {}, and no small stretch or shrink of the flange edge was found that "
            "brings it flat.",
            shown_length(cure.lift_before, unit)
        );
    }
    if (!cure.helps()) {
        return "This does not bring it flat. " + lift_words(cure, unit) + " only."
            + side_effects(cure);
    }
    return lift_words(cure, unit) + "." + side_effects(cure);
}

std::string cure_caution() {
    return "Most at the edge, fading toward the bend. This is advice from the computed part, not "
           "approved data: drawing and approved data come first. Go in small amounts, and check on "
           "the block after each go.";
}

} // namespace flangewright::tables
