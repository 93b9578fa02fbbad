// What is cut out of a flat blank, and what stands out from its edge.
#pragma once

#include <algorithm>
#include <vector>

namespace flangewright::outline {

/// A round hole, where it is drilled in the flat. Lengths in mm.
struct Hole {
    double station = 0; ///< of its centre
    double distance = 0; ///< of its centre past the bend tangent; in the web negative
    double diameter = 0;
    bool is_pin = false; ///< a tooling pin stands in it while the web is clamped
};

/// A slot cut square into the flange's edge, with a half-round bottom. Lengths in mm.
struct Notch {
    double station = 0; ///< of its middle
    double width = 0;
    double depth = 0; ///< from the flat edge to the bottom of the round
};

/// A stretch of the flange that is deeper than its neighbours, with square corners. Lengths in mm.
struct Tab {
    double begin = 0; ///< station
    double end = 0; ///< station
    double height = 0; ///< beyond the flat edge beside it
};

/// All of a blank's.
struct Openings {
    std::vector<Hole> holes;
    std::vector<Notch> notches;
    std::vector<Tab> tabs;

    [[nodiscard]] bool are_none() const { return holes.empty() && notches.empty() && tabs.empty(); }
    /// 0 without a tab. Units: mm. Source: none needed. Fails: never.
    [[nodiscard]] double highest_tab() const {
        double highest = 0;
        for (const Tab& tab : tabs) {
            highest = std::max(highest, tab.height);
        }
        return highest;
    }
    [[nodiscard]] bool has_pins() const { return std::ranges::any_of(holes, &Hole::is_pin); }
};

} // namespace flangewright::outline
