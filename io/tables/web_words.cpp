#include "io/tables/web_words.hpp"

#include "io/tables/error_bars.hpp"
#include "io/tables/shown_length.hpp"
#include "solver/process/web_cure.hpp"

#include <fmt/format.h>

#include <cmath>

namespace flangewright::tables {

namespace {

const double feeler = process::CureChoice{}.smallest_lift; // mm

// What the shell's lift is off by however fine the mesh: of two rings it was 27 to 39 % larger
// than the solid model's (docs/verification.md, "Web lift").
constexpr double model_share = 0.35;

// Half-width by model, mesh and scatter together.
double bar_of(const process::JobResult& result, double lift) {
    return std::hypot(error_bars(result).web_lift.value_or(0), model_share * lift);
}

} // namespace

std::optional<WebSeat> web_seat_of(const process::JobResult& result) {
    if (!result.mesh_error || !result.mesh_error->web_lift || result.steps.empty()) {
        return std::nullopt;
    }
    const double lift = result.steps.back().findings.web_lift;
    const double bar = bar_of(result, lift);
    if (lift + bar < feeler) {
        return WebSeat::flat;
    }
    return lift - bar >= feeler ? WebSeat::lifts : WebSeat::unsure;
}

std::string word_for(WebSeat seat) {
    switch (seat) {
    case WebSeat::flat:
        return "flat";
    case WebSeat::lifts:
        return "lifts";
    case WebSeat::unsure:
        break;
    }
    return "can't tell";
}

std::string web_sentence(const process::JobResult& result, units::LengthUnit unit) {
    const std::optional<WebSeat> seat = web_seat_of(result);
    if (!seat) {
        return "";
    }
    const double found = result.steps.back().findings.web_lift;
    const std::string lift = fmt::format(
        "{}, give or take {} (by {}, and a third of the lift for the model)",
        shown_length(found, unit),
        shown_length(bar_of(result, found), unit),
        error_bars(result).meaning
    );
    const std::string limit = "a feeler of " + shown_length(feeler, unit);
    switch (*seat) {
    case WebSeat::flat:
        return fmt::format("The web sits flat: it lifts by {}: less than {}.", lift, limit);
    case WebSeat::lifts:
        return fmt::format("The web does not sit flat: it lifts by {}: more than {}.", lift, limit);
    case WebSeat::unsure:
        break;
    }
    return fmt::format(
        "Whether the web sits flat can't be told: it lifts by {}, and {} may go under it or not. "
        "{}The block shows it.",
        lift,
        limit,
        result.mesh_error->web_lift > model_share * found ? "A finer mesh (accuracy) narrows that. "
                                                          : ""
    );
}

std::string cure_doubt(const process::JobResult& result) {
    if (!result.web_cure || !error_bars(result).web_lift) {
        return "";
    }
    const double lift = result.web_cure->lift_before;
    if (lift - bar_of(result, lift) >= feeler) {
        return "";
    }
    return "The error bar of the lift reaches below what is worth this work: do nothing before the "
           "part on the block shows that it lifts, and where.";
}

} // namespace flangewright::tables
