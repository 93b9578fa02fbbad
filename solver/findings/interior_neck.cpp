#include "solver/findings/interior_neck.hpp"

#include "mesh/base/check.hpp"
#include "mesh/base/parallel.hpp"
#include "solver/limits/local_neck.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

namespace flangewright::findings {

namespace {

constexpr double looked_into = 0.25; // quick share from which a path is followed
constexpr double needed_share = 0.5;
constexpr double on_line = 1e-9; // mm

std::shared_ptr<const material::YieldLaw> von_mises() {
    for (const material::YieldEntry& entry : material::yield_laws()) {
        if (entry.name == "von_mises") {
            return entry.make({});
        }
    }
    check(false, "von Mises is among the yield laws");
    return nullptr;
}

/// Larger principal log strain of one in rolling axes.
double major_strain(const Eigen::Vector3d& e) {
    return 0.5 * (e[0] + e[1] + std::hypot(e[0] - e[1], e[2]));
}

std::shared_ptr<const material::YieldLaw> yield_of(const material::SheetMaterial& material) {
    return material.yield ? material.yield : von_mises();
}

std::vector<bool> on_cut_edge(const grid::SheetMesh& mesh, const job::Blank& blank) {
    std::vector<bool> is_cut(static_cast<std::size_t>(mesh.n_nodes()));
    const auto mark = [&](const std::vector<int>& nodes) {
        for (const int node : nodes) {
            is_cut[static_cast<std::size_t>(node)] = true;
        }
    };
    mark(mesh.web_edge);
    mark(mesh.free_edge);
    for (const grid::Rim& rim : mesh.rims) {
        mark(rim.nodes);
    }
    if (blank.start == job::EndKind::free) {
        mark(mesh.start_end);
    }
    if (blank.end == job::EndKind::free) {
        mark(mesh.far_end);
    }
    return is_cut;
}

bool is_between(double distance, double from, double to) {
    return distance >= from - on_line && distance <= to + on_line;
}

/// In the bend or, once it is bent, in the lip's.
bool is_in_bend(double distance, double bend_end, const job::Job& job, bool has_lip) {
    if (is_between(distance, 0, bend_end)) {
        return true;
    }
    if (!has_lip || !job.return_bend) {
        return false;
    }
    const double from = job.blank.lip_begin();
    const double length =
        job.return_bend->angle * (job.return_bend->nose_radius + 0.5 * job.sheet.thickness);
    return is_between(distance, from, from + length);
}

} // namespace

Eigen::VectorXd
neck_shares(const MembranePaths& paths, const material::SheetMaterial& material, int n_threads) {
    if (!material.hardening) {
        return {};
    }
    const std::shared_ptr<const material::HardeningLaw> flow =
        material::steady_flow(material.hardening, material.back_stresses);
    const std::shared_ptr<const material::YieldLaw> yield = yield_of(material);
    const limits::NeckingSheet sheet{*flow, *yield};
    const limits::GrooveChoice choice;
    const double least = limits::least_strain_at_neck(sheet, choice);
    Eigen::VectorXd shares(paths.n_nodes());
    for_each_index(paths.n_nodes(), n_threads, [&](int node) {
        const std::vector<limits::PathStretch> path =
            limits::stretches_of(*yield, paths.increments(node));
        const double quick = limits::quick_share(path, least);
        shares[node] =
            quick < looked_into ? quick : limits::share_to_neck(sheet, path, choice).share;
    });
    return shares;
}

std::optional<NeckFindings> worst_neck(
    const grid::SheetMesh& mesh,
    const job::Job& job,
    const MembranePaths& paths,
    const Eigen::VectorXd& shares,
    bool has_lip
) {
    if (shares.size() != mesh.n_nodes() || paths.n_nodes() != mesh.n_nodes()) {
        return std::nullopt;
    }
    const std::vector<bool> is_cut = on_cut_edge(mesh, job.blank);
    const double bend_end = mesh.bend_end.empty() ? 0 : mesh.distance[mesh.bend_end.front()];
    std::optional<NeckFindings> worst;
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        const bool is_inside = !is_cut[static_cast<std::size_t>(node)]
            && !is_in_bend(mesh.distance[node], bend_end, job, has_lip);
        if (is_inside && (!worst || shares[node] > worst->share)) {
            worst = NeckFindings{
                .share = shares[node],
                .station = mesh.station[node],
                .distance = mesh.distance[node],
                .major_strain = std::max(0.0, major_strain(paths.moved(node))),
            };
        }
    }
    return worst;
}

material::DataGrade neck_grade(const material::SheetMaterial& material) {
    material::DataGrade curve = material.curve_grade;
    if (!material.back_stresses.empty()) {
        curve = std::max(curve, material.back_stress_grade);
    }
    switch (curve) {
    case material::DataGrade::coupon:
        return material::DataGrade::published;
    case material::DataGrade::published:
        return material::DataGrade::typical;
    case material::DataGrade::typical:
    case material::DataGrade::assumed:
        return material::DataGrade::assumed;
    case material::DataGrade::unknown:
        break;
    }
    return material::DataGrade::unknown;
}

std::optional<LimitUse> use_of_interior(std::span<const PartFindings> steps) {
    std::optional<NeckFindings> worst;
    for (const PartFindings& step : steps) {
        if (step.neck && (!worst || step.neck->share > worst->share)) {
            worst = step.neck;
        }
    }
    if (!worst) {
        return std::nullopt;
    }
    LimitUse use;
    use.place = interior_place;
    use.reached = std::expm1(worst->major_strain);
    use.share = worst->share;
    if (worst->share > 0) {
        use.allowed = std::expm1(worst->major_strain / worst->share);
    }
    use.is_needed = worst->share > needed_share;
    use.grade = worst->grade;
    use.source = worst->source;
    return use;
}

} // namespace flangewright::findings
