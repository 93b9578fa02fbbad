// What a finished run predicted, read back from the tables in its folder.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace flangewright::build_log {

/// At one station after one step. mm, rad, engineering strain.
struct StationPrediction {
    double station = 0;
    double angle = 0;
    double edge_stretch = 0;
    double edge_thickness = 0;
    double web_gap = 0;
};

/// Of the part after one step. mm, rad.
struct StepPrediction {
    std::string name; ///< "release"
    double angle = 0; ///< mean away from cut ends
    double least_thickness = 0;
    double web_lift = 0; ///< largest
    std::vector<StationPrediction> stations; ///< by growing station

    /// A figure between two stations, straight; empty beyond the ends. Units: the figure's. Source:
    /// none needed. Fails: never.
    [[nodiscard]] std::optional<double> at(double station, double StationPrediction::*figure) const;

    /// Mean of the edge's stretch over a stretch of the line. Units: mm in, - out. Source: derived
    /// here: marks read the mean between them. Fails: never; empty when it leaves the line.
    [[nodiscard]] std::optional<double> mean_edge_stretch(double from, double to) const;
};

/// Of the whole run.
struct Prediction {
    std::vector<StepPrediction> steps;
    std::string date; ///< of the run
    std::string title; ///< of the case then
    std::string edge_finish; ///< "filed" or "not stated", as it was then
    std::string trimmed_finish; ///< the same of the trimmed edge; empty: no trim
    std::string verdict; ///< "Holds: 61 % of the limit is used"
    std::string because; ///< a few plain sentences
    bool is_finished = false;
};

/// From the texts of summary.json and stations.csv. Units: returns mm, rad. Source:
/// docs/outputs.md. Fails: with one problem when they are not what a run of this program writes.
[[nodiscard]] Result<Prediction, key_file::InputProblem>
prediction_from(std::string_view summary, std::string_view stations, const std::string& folder);

} // namespace flangewright::build_log
