#include "solver/findings/interior_neck.hpp"

#include "mesh/base/parallel.hpp"
#include "solver/limits/local_neck.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace flangewright::findings {

namespace {

constexpr double looked_into = 0.25; // quick share from which a path is followed
constexpr double needed_share = 0.5;
constexpr double on_line = 1e-9; // mm

/// Minor over major strain of one in rolling axes; 0 where nothing is stretched.
double strain_ratio(const Eigen::Vector3d& e) {
    const double mean = 0.5 * (e[0] + e[1]);
    const double radius = 0.5 * std::hypot(e[0] - e[1], e[2]);
    return mean + radius > 0 ? (mean - radius) / (mean + radius) : 0;
}

/// The larger of those of the path's last stretch that thins and of all of it: a straight path has
/// one, and of a turned one neither is known to be right.
double correction(
    const limits::GrooveFit& groove,
    std::span<const limits::PathStretch> path,
    const Eigen::Vector3d& moved
) {
    path = limits::up_to_thinning(path);
    const double whole = groove.correction(strain_ratio(moved));
    return path.empty() ? whole
                        : std::max(whole, groove.correction(strain_ratio(path.back().rate)));
}

/// Larger principal log strain of one in rolling axes.
double major_strain(const Eigen::Vector3d& e) {
    return 0.5 * (e[0] + e[1] + std::hypot(e[0] - e[1], e[2]));
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

Eigen::VectorXd neck_shares(
    const MembranePaths& paths,
    const material::SheetMaterial& material,
    const limits::GrooveFit& groove,
    int n_threads
) {
    if (!groove.flow) {
        return {};
    }
    const std::shared_ptr<const material::YieldLaw> yield = limits::yield_of(material);
    const limits::NeckingSheet sheet{*groove.flow, *yield};
    const limits::GrooveChoice& choice = groove.choice;
    const double least = limits::least_strain_at_neck(sheet, choice);
    Eigen::VectorXd shares(paths.n_nodes());
    for_each_index(paths.n_nodes(), n_threads, [&](int node) {
        const std::vector<limits::PathStretch> path =
            limits::stretches_of(*yield, paths.increments(node));
        const double quick = limits::quick_share(path, least);
        // The least limit is behind a quick share: no measured one lies far below it.
        shares[node] = quick < looked_into ? quick
                                           : limits::share_to_neck(sheet, path, choice).share
                * correction(groove, path, paths.moved(node));
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
                .node = node,
            };
        }
    }
    return worst;
}

void set_beside(
    NeckFindings& neck,
    std::span<const Eigen::Vector3d> path,
    const material::SheetMaterial& material,
    const limits::GrooveFit& groove
) {
    if (neck.share < needed_share || groove.is_from_points() || material.other_curves.empty()) {
        return;
    }
    const material::OtherCurve& other = material.other_curves.front();
    if (!other.law) {
        return;
    }
    const std::shared_ptr<const material::YieldLaw> yield = limits::yield_of(material);
    const limits::NeckingSheet sheet{*other.law, *yield};
    neck.other_share =
        limits::share_to_neck(sheet, limits::stretches_of(*yield, path), groove.choice).share;
    neck.other_law = other.law_name;
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
    use.limit_of = worst->limit_of;
    use.source = worst->source;
    if (worst->other_share) {
        use.beside = fmt::format(
            "With the sheet's other hardening curve ({}) {:.0f} % of the way to a neck is used",
            worst->other_law,
            100 * *worst->other_share
        );
    }
    return use;
}

} // namespace flangewright::findings
