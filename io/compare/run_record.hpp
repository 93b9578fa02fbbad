// What a variant's run folder says, as the comparison needs it.
#pragma once

#include "solver/findings/findings.hpp"
#include "solver/job/job.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace flangewright::compare {

/// How a variant ended.
enum class RunEnd {
    done,
    no_equilibrium,
    failed, ///< trouble outside, or a crash
    missing ///< not run, or stopped before its end
};

/// "done", "no equilibrium", "failed", "not run". Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string word_for(RunEnd end);

/// A figure and the half-width of its error bar.
struct Figure {
    std::optional<double> value;
    std::optional<double> error;
};

/// A figure along the bend line.
struct Curve {
    std::vector<double> station; ///< mm
    std::vector<double> value;
};

/// One run. Figures are those of its last step, those of the edge and the thinning of the step that
/// strained the edge most.
struct RunRecord {
    RunEnd end = RunEnd::missing;
    std::string reason; ///< why it is not done, for people
    std::string verdict; ///< holds, close, splits, unknown
    std::string because;
    std::string data_grade;
    std::string error_meaning; ///< "mesh", "mesh and scatter"; empty without error bars
    Figure share; ///< of the allowed strain, 1 is all of it
    Figure flange_angle_deg;
    Figure springback_deg;
    Figure web_lift_mm;
    Figure thinning_percent;
    Figure edge_stretch_percent; ///< engineering; negative: shrunk
    Figure flange_depth_mm;
    Figure depth_left_mm; ///< how much deeper it may be and still hold; not out of the folder, see
                          ///< tell_depth_left()
    Figure lip_angle_deg; ///< these three only with a bent lip
    Figure lip_springback_deg;
    Figure lip_edge_share; ///< of what the edge bears, since the sheet was last soft
    std::optional<double> too_deep_mm; ///< how much less deep the flange must be, where told
    std::string helps; ///< what would help most, where told
    std::vector<findings::LimitUse> limits; ///< of the verdict
    Curve edge_stretch; ///< per cent
    Curve flange_angle; ///< deg
    std::optional<std::filesystem::path> last_shape; ///< field file of the last step
};

/// Reads a folder. A run is taken only when it bears the mark. Units: as the names say. Source:
/// docs/outputs.md. Fails: never; what can't be read is a failed or missing run with its reason.
[[nodiscard]] RunRecord read_run(const std::filesystem::path& folder, const std::string& run_mark);

/// Works the depth left out from the limits of a finished run of this job. Units: mm. Source:
/// findings::depth_left(). Fails: never; the figure stays empty where nothing is told.
void tell_depth_left(const job::Job& job, RunRecord& record);

} // namespace flangewright::compare
