#include "solver/process/neck_search.hpp"

#include "mesh/base/check.hpp"
#include "solver/findings/interior_neck.hpp"
#include "solver/process/workpiece.hpp"

#include <cmath>
#include <map>
#include <utility>
#include <vector>

namespace flangewright::process {

namespace {

/// Which nodes of the mesh before are left after a cut: the flat place of a node stays.
std::vector<int> nodes_left(const grid::SheetMesh& before, const grid::SheetMesh& after) {
    std::map<std::pair<double, double>, int> at_place;
    for (int node = 0; node < before.n_nodes(); ++node) {
        at_place[{before.positions(0, node), before.positions(1, node)}] = node;
    }
    std::vector<int> left;
    left.reserve(static_cast<std::size_t>(after.n_nodes()));
    for (int node = 0; node < after.n_nodes(); ++node) {
        const auto found = at_place.find({after.positions(0, node), after.positions(1, node)});
        check(found != at_place.end(), "a cut sheet keeps its nodes");
        left.push_back(found->second);
    }
    return left;
}

/// Walks from step to step.
class NeckSearch {
public:
    NeckSearch(const job::Job& job, int n_threads, JobResult& result)
        : job_(job), n_threads_(n_threads), result_(result), paths_(result.mesh.n_nodes()),
          mesh_(&result.mesh), positions_(&result.mesh.positions), material_(&job.sheet.material) {}

    void look_at_step(std::size_t index) {
        StepResult& step = result_.steps[index];
        begin(step, mesh_of(result_, index));
        for (const Frame& frame : result_.history) {
            if (frame.step == static_cast<int>(index)) {
                paths_.look(strain_of(frame.positions));
            }
        }
        paths_.end_step(strain_of(step.state.positions));
        positions_ = &step.state.positions;
        judge(step);
    }

private:
    [[nodiscard]] Eigen::Matrix3Xd strain_of(const Eigen::Matrix3Xd& positions) const {
        const Eigen::Vector3d rolled = rolling_direction(job_);
        return findings::membrane_strain(*mesh_, positions, std::atan2(rolled.y(), rolled.x()));
    }

    void begin(const StepResult& step, const grid::SheetMesh& mesh) {
        if (step.kind == job::StepKind::anneal || step.kind == job::StepKind::heat_treat) {
            material_ = step.kind == job::StepKind::anneal ? &job_.annealed : &job_.heat_treated;
            paths_.begin_anew(strain_of(*positions_));
            worst_.resize(0);
        }
        if (mesh.n_nodes() != mesh_->n_nodes()) {
            const std::vector<int> left = nodes_left(*mesh_, mesh);
            paths_.keep_only(left);
            judged_.keep_only(left);
            if (worst_.size() > 0) {
                worst_ = Eigen::VectorXd(worst_(left));
            }
        }
        mesh_ = &mesh;
    }

    void judge(StepResult& step) {
        // Most steps off the block move no path: what was found then stands.
        if (worst_.size() == 0 || paths_ != judged_) {
            const Eigen::VectorXd now = findings::neck_shares(paths_, *material_, n_threads_);
            worst_ = worst_.size() == now.size() ? Eigen::VectorXd(worst_.cwiseMax(now)) : now;
            judged_ = paths_;
        }
        step.findings.neck =
            findings::worst_neck(*mesh_, job_, paths_, worst_, step.findings.lip.has_value());
        if (step.findings.neck) {
            step.findings.neck->grade = findings::neck_grade(*material_);
            step.findings.neck->source = "groove analysis on the hardening curve of "
                + material_->name
                + " (groove 1 % thinner: common practice, no source; beyond the uniform elongation "
                  "the curve is extrapolated); curve: "
                + material_->curve_source;
        }
        step.neck_shares = worst_;
    }

    const job::Job& job_;
    int n_threads_;
    JobResult& result_;
    findings::MembranePaths paths_;
    findings::MembranePaths judged_ = paths_; ///< those `worst_` was last worked out for
    const grid::SheetMesh* mesh_;
    const Eigen::Matrix3Xd* positions_; ///< where the step before ended
    const material::SheetMaterial* material_;
    Eigen::VectorXd worst_; ///< share of each node so far, since soft
};

} // namespace

void look_for_necks(const job::Job& job, int n_threads, JobResult& result) {
    NeckSearch search(job, n_threads, result);
    for (std::size_t i = 0; i < result.steps.size(); ++i) {
        search.look_at_step(i);
    }
}

} // namespace flangewright::process
