// All that a run leaves: the mesh, every step's state, fields and findings, and what it cost.
#pragma once

#include "mesh/grid/sheet_mesh.hpp"
#include "solver/findings/chance.hpp"
#include "solver/findings/findings.hpp"
#include "solver/job/job.hpp"
#include "solver/process/remedy.hpp"
#include "solver/shell/sheet_state.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace flangewright::process {

/// Why a step ended.
enum class StopReason {
    done, ///< reached its end
    no_equilibrium, ///< cut back to the smallest increment
    stop_requested, ///< the user asked
};

/// How a step went.
struct StepReport {
    StopReason reason = StopReason::no_equilibrium;
    int n_increments = 0;
    int n_iterations = 0;
    int n_cutbacks = 0;
    int n_moved = 0; ///< increments brought to rest by damped dynamics only
    double share_done = 0; ///< of the step's path
    double angle_reached = 0; ///< rad
    double penetration = 0; ///< largest at the end, mm
    double residual = 0; ///< last relative residual
};

/// One shape on the way, for the animation.
struct Frame {
    int step = 0; ///< place among the job's steps
    double share_done = 0;
    double drive_angle = 0; ///< flange angle reached, rad
    Eigen::Matrix3Xd positions; ///< mm
    shell::SheetFields fields;
};

/// What one step left.
struct StepResult {
    job::StepKind kind = job::StepKind::bend_down;
    StepReport report;
    std::shared_ptr<const grid::SheetMesh> mesh; ///< of the sheet in this step; trimming cuts it
    shell::SheetState state;
    shell::SheetFields fields;
    findings::PartFindings findings;
    Eigen::VectorXd
        neck_shares; ///< per node, as findings::neck_shares() says; empty: not looked for
    /// Mean flange angle of the middle as it stood before the step, measured on the flange the step
    /// leaves: a trimmed flange is measured nearer to the bend. Empty for a bend-down.
    std::optional<double> angle_before;
};

/// The flange as one pass of the drive left it, held.
struct PassFigures {
    double angle_wanted = 0; ///< rad
    double flange_angle = 0; ///< mean, rad
    double edge_strain = 0; ///< log, the value largest in size
    double edge_station = 0; ///< where
};

/// What a bend-down did on its way. Vectors have one value per node of the free edge.
struct DriveRecord {
    std::vector<PassFigures> passes; ///< those finished
    Eigen::VectorXd stations; ///< of the edge's nodes
    Eigen::VectorXd stretched; ///< log strain, largest over all accepted increments; 0 at first
    Eigen::VectorXd shrunk; ///< smallest
};

/// A bend-down in passes or worked along the line, and the even drive beside it.
struct PassResult {
    DriveRecord as_driven;
    std::optional<DriveRecord> even; ///< empty: the drive is even, or no comparison was made
    double seconds_even = 0; ///< that the comparison took, on the wall clock
};

/// Error bars of a run's figures for the choice of mesh, each >= 0.
struct MeshError {
    double springback = 0; ///< rad; of the mean; 0 without a release
    double flange_angle = 0; ///< rad; of the mean, after the last step
    double edge_strain = 0; ///< log; of the largest
    double thinning = 0; ///< of the largest
    std::optional<double> web_lift = {}; ///< mm; after the last step, empty where that holds it
};

/// How much each figure moves when one thing differs by its band, or all together.
struct ScatterFigures {
    double springback = 0; ///< of the mean, rad
    double flange_angle = 0; ///< of the mean after the last step, rad
    double edge_strain = 0; ///< of the largest, log
    double thinning = 0; ///< of the largest
    double web_lift = 0; ///< mm
};

/// One thing that varies: what it is, by how much, and what that does (signed).
struct ScatterPart {
    std::string what; ///< "thickness", in plain words
    std::string band; ///< "5 %"
    ScatterFigures moves;
    std::vector<double> reached = {}; ///< move over value of what is reached at each place,
                                      ///< of a neck's share; signed
};

/// Error bars for what sheet and tools may differ by.
struct ScatterBand {
    ScatterFigures total; ///< half-widths, each >= 0
    std::vector<ScatterPart> parts;
    std::vector<std::string> places = {}; ///< of the verdict's limits where anything is reached
};

/// What is done to one zone of the flange's edge. Stations in mm.
struct CureZone {
    double from = 0;
    double to = 0;
    double stretch = 0; ///< growth of the edge's length there, engineering; negative: shrunk
    double put_in = 0; ///< at the edge by the tool, before the part gives; engineering
};

/// Which way to work the edge so that the web sits flat, and what came of it when tried.
struct WebCure {
    std::size_t step = 0; ///< place of the step that left the part as it is worked
    std::vector<CureZone> zones; ///< that are worked, by growing station; none: nothing helps
    double lift_before = 0; ///< mm
    double lift_after = 0; ///< mm, of the part with these zones worked, in balance
    double angle_change = 0; ///< of the mean flange angle away from free ends, rad
    double edge_strain_added = 0; ///< log, the largest along the edge; below zero: all shrinks

    /// Part of the lift that goes. Units: none. Source: none needed. Fails: never.
    [[nodiscard]] double share_gone() const {
        return lift_before > 0 ? 1 - lift_after / lift_before : 0;
    }
    /// Whether it brings the web flat: the lift falls by 70 % at least. Units: none. Source: own
    /// choice. Fails: never.
    [[nodiscard]] bool helps() const { return !zones.empty() && share_gone() >= 0.7; }
};

/// What the run cost. Seconds on the wall clock.
struct SolveFigures {
    int n_degrees_of_freedom = 0;
    int n_layers = 0;
    int n_increments = 0;
    int n_iterations = 0;
    int n_cutbacks = 0;
    int n_threads = 1;
    double seconds = 0;
    double seconds_elements = 0;
    double seconds_factorise = 0;
    double seconds_contact = 0;
    double seconds_bare_refactor = 0; ///< one CHOLMOD refactorisation of the same matrix
};

/// The whole run. `mesh` is the blank as cut. `steps` holds what was finished, and the last one as
/// far as it got.
struct JobResult {
    grid::SheetMesh mesh;
    std::vector<Frame> history;
    std::vector<StepResult> steps;
    SolveFigures figures;
    findings::HandCalculation by_hand;
    findings::Verdict verdict;
    std::vector<findings::Disagreement> disagreements;
    std::optional<PassResult> passes; ///< empty: one even pass
    std::optional<ScatterBand> scatter; ///< empty: not asked for, or a varied job found no balance
    std::optional<findings::Chance> chance; ///< of splitting; empty: no scatter
    std::optional<Remedies> remedies; ///< empty: it holds, not asked for, or could not be tried
    std::optional<WebCure> web_cure; ///< empty: web flat enough, not asked for, or no balance
    std::optional<MeshError> mesh_error; ///< empty: could not be estimated, or not asked for
    std::vector<std::string> warnings; ///< plain sentences
    StopReason reason = StopReason::done;
};

/// The mesh a step or a frame is drawn on: the step's own, else the blank's. Source: none needed.
/// Fails: never.
[[nodiscard]] const grid::SheetMesh& mesh_of(const JobResult& result, std::size_t step);

/// What was found in each step. Units, source: none needed. Fails: never.
[[nodiscard]] std::vector<findings::PartFindings> findings_of_steps(const JobResult& result);

/// The step's name as users read it: "bend-down", "heat-treat". Units: none. Source: design words.
/// Fails: never.
[[nodiscard]] std::string name_of(job::StepKind kind);

} // namespace flangewright::process
