// The chart of the free edge's stretch over station, beside what is allowed and the hand figure.
#pragma once

#include "io/vtk/picture_text.hpp"

#include <optional>
#include <string>
#include <vector>

namespace flangewright::chart {

/// What is drawn. Stations in the unit of the axis title, stretch in per cent.
struct EdgeChart {
    vtk::PictureText text;
    std::string station_title;
    std::vector<double> stations;
    std::vector<double> stretch_percent;
    std::optional<double> allowed_percent;
    double by_hand_percent = 0;
};

/// Bytes of a PNG, 1600 by 1000; empty when the picture library gave none.
/// Units: as EdgeChart says. Source: none needed. Fails: aborts without an X display.
[[nodiscard]] std::string edge_chart(const EdgeChart& chart);

} // namespace flangewright::chart
