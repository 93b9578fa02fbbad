#include "io/drawing/rounded_kink.hpp"

#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <cmath>

namespace flangewright::drawing {

std::string name_of(const RoundedKink& kink) {
    return fmt::format(
        "kink of {:.1f} deg, {}, at {}",
        units::degrees(std::abs(kink.turn)),
        kink.turn > 0 ? "concave" : "convex",
        kink.place
    );
}

DrawingProblem no_room_for(
    const RoundedKink& kink,
    const outline::NoRoom& room,
    const std::function<std::string(double)>& shown
) {
    constexpr double most_shown = 1e5; // mm; the line turns back, and no length is enough
    const double taken = outline::tangent_length(kink.turn, kink.radius);
    return {
        fmt::format(
            "a {} with no room for an arc of radius {} (free on its two sides: {} and {})",
            name_of(kink),
            shown(kink.radius),
            shown(room.free_before),
            shown(room.free_after)
        ),
        taken > most_shown
            ? "a line that does not turn back on itself"
            : fmt::format(
                "enough of the line on both sides for the arc: between straight parts it takes {} "
                "of each",
                shown(taken)
            ),
        "take a smaller round_kinks, or draw the corner as it is made"};
}

} // namespace flangewright::drawing
