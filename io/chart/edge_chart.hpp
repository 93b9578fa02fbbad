// The chart of the free edge's stretch over station, beside what is allowed and the hand figure.
#pragma once

#include "io/vtk/picture_text.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace flangewright::chart {

/// What is drawn. Stations in the unit of the axis title, stretch in per cent.
struct EdgeChart {
    vtk::PictureText text;
    std::string station_title;
    std::string start_words; ///< what the part's end at the first station is, e.g. "cut end"
    std::string end_words;
    std::vector<double> stations;
    std::vector<double> stretch_percent;
    std::optional<double> allowed_percent;
    double by_hand_percent = 0;
};

/// Words beside a level line. Places and widths along the axis as shares of it, 0 to 1.
struct LevelCaption {
    double level = 0; ///< per cent
    double width = 0;
    std::array<double, 2> taken{0, 0}; ///< from, to: where other words stand
};

/// Where the words begin so that they keep farthest from the curve and out of the taken place.
/// Units: as EdgeChart says; stations must grow. Source: none needed. Fails: never.
[[nodiscard]] double caption_place(const EdgeChart& chart, const LevelCaption& caption);

/// Bytes of a PNG, 1600 by 1000; empty when the picture library gave none.
/// Units: as EdgeChart says. Source: none needed. Fails: aborts without an X display.
[[nodiscard]] std::string edge_chart(const EdgeChart& chart);

} // namespace flangewright::chart
