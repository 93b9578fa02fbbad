#include "solver/findings/part_findings.hpp"

#include "mesh/base/check.hpp"
#include "solver/findings/edge_strain.hpp"
#include "solver/findings/flange_angle.hpp"
#include "solver/findings/flange_depth.hpp"
#include "solver/findings/flange_development.hpp"
#include "solver/findings/lip.hpp"
#include "solver/findings/lip_development.hpp"
#include "solver/findings/openings.hpp"
#include "solver/findings/plan_radius.hpp"
#include "solver/findings/thinning.hpp"
#include "solver/findings/web_lift.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace flangewright::findings {

namespace {

/// Along the bend line: length each station stands for, and whether it is away from free ends.
struct Along {
    std::vector<double> weight;
    std::vector<bool> is_middle;
};

Along along_line(const std::vector<StationFindings>& stations, const job::Job& job) {
    const std::size_t n = stations.size();
    const double first = stations.front().station;
    const double last = stations.back().station;
    const double depth = formed_flange_depth(job, job.blank.flange_width);
    const double margin = std::min(2 * depth, 0.25 * (last - first));
    const double from = job.blank.start == job::EndKind::free ? first + margin : first;
    const double to = job.blank.end == job::EndKind::free ? last - margin : last;
    const double slack = 1e-9 * (1 + last - first);
    Along along{std::vector<double>(n, 1), std::vector<bool>(n)};
    for (std::size_t i = 0; i < n; ++i) {
        const double at = stations[i].station;
        along.is_middle[i] = at >= from - slack && at <= to + slack;
        if (n > 1) {
            const double before = stations[i == 0 ? 0 : i - 1].station;
            const double after = stations[std::min(i + 1, n - 1)].station;
            along.weight[i] = 0.5 * (after - before);
        }
    }
    if (std::ranges::find(along.is_middle, true) == along.is_middle.end()) {
        along.is_middle[n / 2] = true;
    }
    return along;
}

template <typename Figure>
Spread spread_of(
    const std::vector<StationFindings>& stations,
    const Along& along,
    bool middle_only,
    Figure figure
) {
    Spread spread;
    double weight = 0;
    for (std::size_t i = 0; i < stations.size(); ++i) {
        if (middle_only && !along.is_middle[i]) {
            continue;
        }
        const double value = figure(stations[i]);
        spread.least = weight == 0 ? value : std::min(spread.least, value);
        spread.most = weight == 0 ? value : std::max(spread.most, value);
        spread.mean += along.weight[i] * value;
        weight += along.weight[i];
    }
    spread.mean /= weight;
    return spread;
}

double largest_gap(const grid::SheetMesh& mesh, const WebLift& lift, int station_line) {
    double largest = 0;
    std::vector<int> line = mesh.station_lines[static_cast<std::size_t>(station_line)];
    std::ranges::sort(line);
    for (std::size_t i = 0; i < lift.web_nodes.size(); ++i) {
        if (std::ranges::binary_search(line, lift.web_nodes[i])) {
            largest = std::max(largest, lift.gaps(static_cast<Eigen::Index>(i)));
        }
    }
    return largest;
}

/// Figures of one station; says in `n_sparse` when the line was fitted to too few nodes.
StationFindings look_at_station(
    const grid::SheetMesh& mesh,
    const PartShape& shape,
    const job::Job& job,
    const WebLift& lift,
    int line,
    int& n_sparse
) {
    const auto i = static_cast<std::size_t>(line);
    const int edge = mesh.station_lines[i].back();
    StationFindings found;
    found.station = mesh.station(edge);
    const Section section(job.blank.line.frame(found.station), lift.plane);
    const FlangeLine flange =
        fit_flange_line(mesh, shape, section, line, fit_window(job, found.station));
    n_sparse += flange.is_sparse ? 1 : 0;
    found.flange_angle = flange_angle(flange);
    found.flange_depth = flange_depth(shape, section, flange, mesh.bend_begin[i], edge);
    if (job.blank.has_lip) {
        const FlangeLine lip =
            fit_flange_line(mesh, shape, section, line, lip_window(job, found.station));
        const int tangent = mesh.bend_begin[i];
        const double web_outer_face =
            section.at(shape.positions.col(tangent)).y() + 0.5 * shape.thickness(tangent);
        const LipReading reading = read_lip(
            flange,
            lip,
            section.at(shape.positions.col(edge)),
            web_outer_face,
            job.return_bend->side
        );
        found.lip_angle = reading.angle;
        found.lip_depth = reading.depth;
        found.flange_depth = reading.flange_depth;
        n_sparse += !flange.is_sparse && reading.is_sparse ? 1 : 0;
    }
    found.edge_thickness = shape.thickness(edge);
    found.least_thickness = least_thickness(mesh, shape.thickness, line);
    found.web_gap = largest_gap(mesh, lift, line);
    return found;
}

void add_edge_strain(
    PartFindings& part, const grid::SheetMesh& mesh, const PartShape& shape, const job::Job& job
) {
    const Eigen::VectorXd strain =
        edge_strain(mesh, shape.positions, {job.blank.start, job.blank.end});
    for (std::size_t i = 0; i < part.stations.size(); ++i) {
        part.stations[i].edge_strain = strain(static_cast<Eigen::Index>(i));
    }
    Eigen::Index at = 0;
    strain.cwiseAbs().maxCoeff(&at);
    part.edge_strain_most = strain(at);
    part.edge_strain_station = part.stations[static_cast<std::size_t>(at)].station;
    part.edge_tension_most = strain.maxCoeff();
    part.edge_tension_used = part.edge_tension_most;
}

void add_springback(PartFindings& part, const Along& along, std::span<const double> held_angles) {
    check(held_angles.size() == part.stations.size(), "each station has a held angle");
    for (std::size_t i = 0; i < part.stations.size(); ++i) {
        part.stations[i].springback = held_angles[i] - part.stations[i].flange_angle;
    }
    const auto springback = [](const StationFindings& at) { return *at.springback; };
    part.springback = spread_of(part.stations, along, false, springback);
    part.springback_middle = spread_of(part.stations, along, true, springback);
}

LipFindings
lip_findings(const std::vector<StationFindings>& stations, const Along& along, double bend_strain) {
    const auto angle = [](const StationFindings& at) { return *at.lip_angle; };
    const auto depth = [](const StationFindings& at) { return *at.lip_depth; };
    LipFindings lip;
    lip.angle = spread_of(stations, along, false, angle);
    lip.angle_middle = spread_of(stations, along, true, angle);
    lip.depth_mean = spread_of(stations, along, false, depth).mean;
    lip.bend_strain_most = bend_strain;
    lip.bend_strain_used = bend_strain;
    return lip;
}

/// Largest value between two flat distances past the bend tangent; at least 0.
double largest_between(
    const grid::SheetMesh& mesh,
    const Eigen::Ref<const Eigen::VectorXd>& field,
    double from,
    double to
) {
    double largest = 0;
    for (Eigen::Index node = 0; node < field.size(); ++node) {
        if (mesh.distance(node) >= from && mesh.distance(node) <= to) {
            largest = std::max(largest, field(node));
        }
    }
    return largest;
}

} // namespace

double largest_in_bend(
    const grid::SheetMesh& mesh, const Eigen::Ref<const Eigen::VectorXd>& field, const job::Job& job
) {
    const double t = job.sheet.thickness;
    const double bend = job.block.wall_angle * (job.block.nose_radius + 0.5 * t);
    return largest_between(mesh, field, -t, bend + t);
}

double largest_in_lip_bend(
    const grid::SheetMesh& mesh, const Eigen::Ref<const Eigen::VectorXd>& field, const job::Job& job
) {
    const double t = job.sheet.thickness;
    const double begin = job.blank.lip_begin();
    return largest_between(mesh, field, begin - t, begin + lip_bend_allowance(job) + t);
}

const Eigen::VectorXd&
across_stretched_face_of_lip(const shell::SheetFields& fields, const job::Job& job) {
    return job.return_bend->side == job::LipSide::under_web ? fields.across_outer_face
                                                            : fields.across_block_face;
}

void add_lip_springback(PartFindings& part, const PartFindings& held) {
    if (part.lip && held.lip) {
        part.lip->springback_middle = held.lip->angle_middle.mean - part.lip->angle_middle.mean;
    }
}

PartShape shape_of(const shell::SheetState& state, const shell::SheetFields& fields) {
    return {state.positions, state.directors, fields.thickness};
}

std::vector<double> flange_angles(const PartFindings& part) {
    std::vector<double> angles;
    for (const StationFindings& at : part.stations) {
        angles.push_back(at.flange_angle);
    }
    return angles;
}

PartFindings find_in_part(
    const grid::SheetMesh& mesh,
    const PartShape& shape,
    const shell::SheetFields& fields,
    const job::Job& job,
    std::optional<std::span<const double>> held_angles
) {
    check(!mesh.station_lines.empty(), "a part has stations");
    check(mesh.free_edge.size() == mesh.station_lines.size(), "each station ends on the free edge");
    const TiltDirections tilts = held_angles ? free_tilts(job.blank) : TiltDirections{};
    const WebLift lift = set_on_block(mesh, shape, tilts);

    PartFindings part;
    int n_sparse = 0;
    for (int line = 0; line < static_cast<int>(mesh.station_lines.size()); ++line) {
        part.stations.push_back(look_at_station(mesh, shape, job, lift, line, n_sparse));
    }
    const Along along = along_line(part.stations, job);
    const auto angle = [](const StationFindings& at) { return at.flange_angle; };
    part.flange_angle = spread_of(part.stations, along, false, angle);
    part.flange_angle_middle = spread_of(part.stations, along, true, angle);
    const auto depth = [](const StationFindings& at) { return at.flange_depth; };
    part.flange_depth_mean = spread_of(part.stations, along, false, depth).mean;
    if (held_angles) {
        add_springback(part, along, *held_angles);
    }
    add_edge_strain(part, mesh, shape, job);
    const Thinnest thinnest = thinnest_place(mesh, shape.thickness, job.sheet.thickness);
    part.thinning_most = thinnest.thinning;
    part.thinning_station = thinnest.station;
    part.thinning_distance = thinnest.distance;
    part.bend_strain_most = largest_in_bend(mesh, fields.across_outer_face, job);
    part.bend_strain_used = part.bend_strain_most;
    if (job.blank.has_lip) {
        part.lip = lip_findings(
            part.stations,
            along,
            largest_in_lip_bend(mesh, across_stretched_face_of_lip(fields, job), job)
        );
    }
    part.openings = find_openings(mesh, shape.positions);
    part.web_lift = lift.largest;
    part.plan_radius = job.blank.line.curve() == outline::Curve::mixed
        ? std::numeric_limits<double>::infinity()
        : plan_radius(shape.positions, mesh.bend_begin);
    if (n_sparse > 0) {
        part.notes.push_back(fmt::format(
            "The flange angle rests on fewer than three nodes at {} of {} stations: the straight "
            "part of the flange is short for this mesh, so read the angle with care.",
            n_sparse,
            part.stations.size()
        ));
    }
    return part;
}

} // namespace flangewright::findings
