// Each measured figure beside what was predicted for its place and step.
#pragma once

#include "io/build_log/prediction.hpp"
#include "io/build_log/readings.hpp"
#include "solver/job/job.hpp"

#include <array>

namespace flangewright::build_log {

/// What is compared.
enum class Figure { angle, springback, web_lift, thickness, edge_stretch };
inline constexpr std::array figures{
    Figure::angle, Figure::springback, Figure::web_lift, Figure::thickness, Figure::edge_stretch};

/// One figure. mm, rad, engineering strain.
struct Compared {
    Figure figure = Figure::angle;
    std::size_t step = 0;
    std::optional<double> station; ///< empty: of the whole part
    double predicted = 0;
    double measured = 0;

    /// Predicted less measured. Units: the figure's. Source: design words. Fails: never.
    [[nodiscard]] double difference() const { return predicted - measured; }
};

/// All of them, by step and in the order of the table. Springback is compared where the angle was
/// read at the same place on the block and, in a later step, off it: held less released, both ways.
/// Marks are compared with the mean stretch between them, their distance brought from the edge to
/// the bend line by the line's curvature there (edge = line x (1 - curvature x flat width)). Units:
/// mm, rad, -. Source: design definitions; derived here. Fails: never; a place beyond the run's
/// stations is left out.
[[nodiscard]] std::vector<Compared>
compared(const Prediction& prediction, const Readings& readings, const job::Job& job);

/// Mean difference of one figure over a part; empty without one. Of angles only those off the block
/// count: what the block holds says nothing of the sheet. Units: the figure's. Source: none needed.
/// Fails: never.
struct MeanDifference {
    double mean = 0;
    int n = 0;
};
[[nodiscard]] std::optional<MeanDifference>
mean_difference(const std::vector<Compared>& all, Figure figure, const job::Job& job);

} // namespace flangewright::build_log
