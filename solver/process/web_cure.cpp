#include "solver/process/web_cure.hpp"

#include "solver/findings/edge_strain.hpp"
#include "solver/findings/part_findings.hpp"
#include "solver/process/cure_search.hpp"
#include "solver/process/web_reading.hpp"
#include "solver/shell/recover.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace flangewright::process {

namespace {

// Puts the piece back as it was, whatever happened to it.
class Kept {
public:
    explicit Kept(Workpiece& piece) : piece_(piece), state_(piece.state), held_by_(piece.held_by) {}
    ~Kept() { put_back(); }
    Kept(const Kept&) = delete;
    Kept& operator=(const Kept&) = delete;

    void put_back() {
        piece_.state = state_;
        piece_.held_by = held_by_;
    }

private:
    Workpiece& piece_;
    shell::SheetState state_;
    equilibrium::DeadLoads held_by_;
};

// What is compared before and after.
struct Looks {
    double angle = 0;
    Eigen::VectorXd edge_strain; // log, per node of the edge
    Eigen::VectorXd edge_length; // from its start to each node
};

Looks look_at(const Workpiece& piece) {
    const job::Blank& blank = piece.job.blank;
    const shell::SheetFields fields = shell::recover_fields(piece.model, piece.state);
    const std::vector<double> held(piece.mesh.station_lines.size(), 0.0); // any: it lies free
    const findings::PartFindings found = findings::find_in_part(
        piece.mesh,
        findings::shape_of(piece.state, fields),
        fields,
        piece.job,
        std::span<const double>(held)
    );
    const std::vector<int>& edge = piece.mesh.free_edge;
    Looks looks{
        found.flange_angle_middle.mean,
        findings::edge_strain(piece.mesh, piece.state.positions, {blank.start, blank.end}),
        Eigen::VectorXd::Zero(static_cast<Eigen::Index>(edge.size()))};
    for (std::size_t i = 1; i < edge.size(); ++i) {
        const auto at = static_cast<Eigen::Index>(i);
        const Eigen::Vector3d way =
            piece.state.positions.col(edge[i]) - piece.state.positions.col(edge[i - 1]);
        looks.edge_length[at] = looks.edge_length[at - 1] + way.norm();
    }
    return looks;
}

double length_at(const Workpiece& piece, const Looks& looks, double station) {
    const std::vector<int>& edge = piece.mesh.free_edge;
    std::size_t i = 1;
    while (i + 1 < edge.size() && piece.mesh.station[edge[i]] < station) {
        ++i;
    }
    const double from = piece.mesh.station[edge[i - 1]];
    const double share = (station - from) / (piece.mesh.station[edge[i]] - from);
    const auto at = static_cast<Eigen::Index>(i);
    return (1 - share) * looks.edge_length[at - 1] + share * looks.edge_length[at];
}

double growth(const Workpiece& piece, const EdgeZone& zone, const Looks& before, const Looks& now) {
    const auto length = [&](const Looks& looks) {
        return length_at(piece, looks, zone.to) - length_at(piece, looks, zone.from);
    };
    return length(now) / length(before) - 1;
}

// Works the amounts into the part as it was released, and nothing else, and reads what they do.
std::optional<WebCure>
proof_of(const EdgeWork& work, const std::vector<EdgeZone>& zones, const Eigen::VectorXd& amounts) {
    const Workpiece& piece = work.piece;
    WebCure cure;
    cure.lift_before = cure.lift_after = read_web(piece).lift;
    if ((amounts.array() == 0).all()) {
        return cure;
    }
    const Looks before = look_at(piece);
    if (!work_edge(work, amounts)) {
        return std::nullopt;
    }
    const Looks now = look_at(piece);
    cure.lift_after = read_web(piece).lift;
    cure.angle_change = now.angle - before.angle;
    cure.edge_strain_added = (now.edge_strain - before.edge_strain).maxCoeff();
    for (std::size_t i = 0; i < zones.size(); ++i) {
        const double put_in = amounts[static_cast<Eigen::Index>(i)];
        if (put_in != 0) {
            const double stretch = growth(piece, zones[i], before, now);
            cure.zones.push_back({zones[i].from, zones[i].to, stretch, put_in});
        }
    }
    return cure;
}

// Takes out zones whose edge hardly changes its length, or changes it against the tool because a
// neighbour pulls; says whether there were any.
bool leave_out_small(const WebCure& cure, double least, Eigen::VectorXd& amounts) {
    bool is_any = false;
    Eigen::Index i = 0;
    for (const CureZone& zone : cure.zones) {
        while (amounts[i] != zone.put_in) {
            ++i;
        }
        if (zone.stretch * std::copysign(1, zone.put_in) < least) {
            amounts[i] = 0;
            is_any = true;
        }
        ++i;
    }
    return is_any;
}

} // namespace

std::optional<std::size_t> workable_step(const std::vector<job::StepKind>& steps) {
    std::optional<std::size_t> last;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (steps[i] == job::StepKind::return_bend || steps[i] == job::StepKind::heat_treat) {
            break;
        }
        if (!job::ends_on_block(steps[i])) {
            last = i;
        }
    }
    return last;
}

std::optional<WebCure>
find_web_cure(Workpiece& piece, const CureChoice& choice, const Monitor& monitor) {
    if (monitor.stop.stop_requested() || read_web(piece).lift < choice.smallest_lift) {
        return std::nullopt;
    }
    const auto tell = [&monitor](double share_done) {
        monitor.report({.step = "web cure", .share_done = share_done});
    };
    Kept kept(piece);
    const std::vector<EdgeZone> zones = edge_zones(piece);
    const EdgeWork work{
        .piece = piece,
        .shares = edge_shares(piece, zones),
        .stop = monitor.stop,
        .most = choice.most};
    std::optional<Eigen::VectorXd> amounts =
        search_flattening(work, [&tell](double share) { tell(0.5 * share); });
    if (!amounts) {
        return std::nullopt;
    }
    std::optional<WebCure> cure;
    do {
        tell(0.5);
        kept.put_back();
        cure = proof_of(work, zones, *amounts);
    } while (cure && leave_out_small(*cure, choice.least_named, *amounts));
    tell(1);
    return cure;
}

} // namespace flangewright::process
