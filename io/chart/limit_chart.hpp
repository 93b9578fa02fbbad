// The chart of a sheet's forming limit: what was measured beside what is computed.
#pragma once

#include "io/vtk/picture_text.hpp"

#include <string>
#include <vector>

namespace flangewright::chart {

/// One computed limit. True strains, lists of one length.
struct LimitCurve {
    std::string name; ///< in words, in the chart
    std::vector<double> minor;
    std::vector<double> major;
    bool is_used = true; ///< else thinner and dashed
};

/// What is drawn.
struct LimitChart {
    vtk::PictureText text;
    std::vector<LimitCurve> curves; ///< one or two, the one that is used first
    std::vector<double> measured_minor; ///< may be empty
    std::vector<double> measured_major;
    std::string measured_words; ///< beside them in the chart
};

/// Bytes of a PNG, 1600 by 1000; empty when there is nothing to draw or the picture library gave
/// none. Units: true strains. Source: none needed. Fails: aborts without an X display.
[[nodiscard]] std::string limit_chart(const LimitChart& chart);

/// Where the axes end: half the chart's round steps beyond all that is drawn.
struct LimitExtent {
    double least_minor = 0;
    double most_minor = 0;
    double most_major = 0;
};

/// Units: true strains. Source: none needed. Fails: never; at least 5 % each way.
[[nodiscard]] LimitExtent extent_of(const LimitChart& chart);

} // namespace flangewright::chart
