#include "solver/process/neck_search.hpp"

#include "mesh/grid/nodes_left.hpp"
#include "solver/findings/interior_neck.hpp"
#include "solver/findings/neck_basis.hpp"
#include "solver/process/workpiece.hpp"

#include <cmath>
#include <vector>

namespace flangewright::process {

namespace {

/// Walks from step to step.
class NeckSearch {
public:
    NeckSearch(const job::Job& job, int n_threads, JobResult& result)
        : job_(job), n_threads_(n_threads), result_(result), paths_(result.mesh.n_nodes()),
          mesh_(&result.mesh), positions_(&result.mesh.positions), material_(&job.sheet.material),
          groove_(limits::fit_groove(*material_)) {}

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
            groove_ = limits::fit_groove(*material_);
            paths_.begin_anew(strain_of(*positions_));
            worst_.resize(0);
        }
        if (mesh.n_nodes() != mesh_->n_nodes()) {
            const std::vector<int> left = grid::nodes_left(*mesh_, mesh);
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
            const Eigen::VectorXd now =
                findings::neck_shares(paths_, *material_, groove_, n_threads_);
            worst_ = worst_.size() == now.size() ? Eigen::VectorXd(worst_.cwiseMax(now)) : now;
            judged_ = paths_;
        }
        step.findings.neck =
            findings::worst_neck(*mesh_, job_, paths_, worst_, step.findings.lip.has_value());
        if (step.findings.neck) {
            findings::NeckFindings& neck = *step.findings.neck;
            findings::say_basis(neck, *material_, groove_);
            findings::set_beside(neck, paths_.increments(neck.node), *material_, groove_);
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
    limits::GrooveFit groove_; ///< of that material
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
