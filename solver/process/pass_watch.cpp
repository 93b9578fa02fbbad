#include "solver/process/pass_watch.hpp"

#include "solver/findings/edge_strain.hpp"
#include "solver/findings/part_findings.hpp"
#include "solver/process/bend_down.hpp"
#include "solver/process/drive_passes.hpp"
#include "solver/shell/recover.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace flangewright::process {

PassWatch::PassWatch(const Workpiece& piece, DriveRecord& record)
    : record_(record), angles_(pass_angles(piece.job.drive)), ends_(pass_ends(piece.job)) {
    if (record_.stations.size() > 0) {
        return;
    }
    const std::vector<int>& edge = piece.mesh.free_edge;
    const auto n_nodes = static_cast<Eigen::Index>(edge.size());
    record_.stations.resize(n_nodes);
    for (Eigen::Index i = 0; i < n_nodes; ++i) {
        record_.stations[i] = piece.mesh.station[edge[static_cast<std::size_t>(i)]];
    }
    record_.stretched = record_.shrunk = Eigen::VectorXd::Zero(n_nodes);
}

void PassWatch::look(const Workpiece& piece, double share_done) {
    constexpr double rounding = 1e-8;
    take_edge(piece);
    // The last pass ends with the step, once it has settled.
    const std::size_t next = record_.passes.size();
    if (next + 1 < ends_.size() && share_done > ends_[next] - rounding) {
        end_pass(piece);
    }
}

void PassWatch::finish(const Workpiece& piece, StopReason reason) {
    take_edge(piece);
    while (reason == StopReason::done && record_.passes.size() < angles_.size()) {
        end_pass(piece);
    }
}

void PassWatch::take_edge(const Workpiece& piece) {
    const Eigen::VectorXd strain = findings::edge_strain(
        piece.mesh, piece.state.positions, {piece.job.blank.start, piece.job.blank.end}
    );
    record_.stretched = record_.stretched.cwiseMax(strain);
    record_.shrunk = record_.shrunk.cwiseMin(strain);
}

void PassWatch::end_pass(const Workpiece& piece) {
    const shell::SheetFields fields = shell::recover_fields(piece.model, piece.state);
    const findings::PartFindings now = findings::find_in_part(
        piece.mesh, findings::shape_of(piece.state, fields), fields, piece.job
    );
    record_.passes.push_back(
        {angles_[record_.passes.size()],
         now.flange_angle.mean,
         now.edge_strain_most,
         now.edge_strain_station}
    );
}

std::string warning_of_the_way(const DriveRecord& record, double tension_at_end) {
    constexpr double margin = 0.002; // log strain; less is no news
    const double at_end = std::max(0.0, tension_at_end);
    const double on_way = record.stretched.size() > 0 ? record.stretched.maxCoeff() : 0;
    if (on_way <= at_end + margin) {
        return "";
    }
    return fmt::format(
        "On the way of the bend-down the free edge was stretched by {:.1f} %, more than the {:.1f} "
        "% it ends with. The verdict weighs the end: weigh the way yourself.",
        100 * std::expm1(on_way),
        100 * std::expm1(at_end)
    );
}

std::optional<DriveRecord>
drive_evenly(const job::Job& job, int n_threads, const Monitor& monitor) {
    job::Job even = job;
    even.drive.order = job::DriveOrder::evenly;
    Result<Workpiece> piece = make_workpiece(even, fineness_for(even.accuracy), n_threads);
    if (!piece) {
        return std::nullopt;
    }
    Monitor renamed;
    renamed.stop = monitor.stop;
    renamed.on_progress = [&monitor](Progress progress) {
        progress.step = "even drive, to compare";
        monitor.report(progress);
    };
    DriveRecord record;
    PassWatch watch(*piece, record);
    const StepReport report =
        bend_down(*piece, {}, renamed, [&watch](const Workpiece& now, double share_done) {
            watch.look(now, share_done);
        });
    watch.finish(*piece, report.reason);
    return report.reason == StopReason::done ? std::optional(std::move(record)) : std::nullopt;
}

} // namespace flangewright::process
