#include "tests/support/formed_flange.hpp"

#include "solver/findings/part_findings.hpp"
#include "solver/findings/web_lift.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace flangewright::support {

namespace {

using Eigen::Vector3d;

constexpr double thickness = 0.8;
constexpr double nose_radius = 3.2;
constexpr double web_width = 45;
constexpr double leg_width = 20;
constexpr double wanted_angle = 0.5 * std::numbers::pi;
constexpr double middle_radius = nose_radius + 0.5 * thickness;
constexpr double bend_width = middle_radius * wanted_angle;
constexpr double flange_width = bend_width + leg_width;

/// Where a flat distance past the bend tangent ends up in the section, and its outer normal.
struct SectionPoint {
    double out = 0;
    double height = 0.5 * thickness;
    double turned = 0;
};

SectionPoint section_point(double distance, double angle) {
    if (distance <= 0) {
        return {distance, 0.5 * thickness, 0};
    }
    const double radius = bend_width / angle;
    const double turned = std::min(distance, bend_width) / radius;
    const double straight = std::max(0.0, distance - bend_width);
    return {
        radius * std::sin(turned) + straight * std::cos(turned),
        0.5 * thickness - radius * (1 - std::cos(turned)) - straight * std::sin(turned),
        turned};
}

/// Graded lines across the blank, web edge to free edge.
std::vector<double> distances(const FlangeShape& shape) {
    std::vector<double> lines;
    for (int i = 0; i < shape.n_web; ++i) {
        const double share = 1.0 - static_cast<double>(i) / shape.n_web;
        lines.push_back(-web_width * std::pow(share, 1.5));
    }
    for (int i = 0; i < shape.n_bend; ++i) {
        lines.push_back(bend_width * i / shape.n_bend);
    }
    for (int i = 0; i <= shape.n_leg; ++i) {
        lines.push_back(
            bend_width + leg_width * std::pow(static_cast<double>(i) / shape.n_leg, 1.2)
        );
    }
    return lines;
}

grid::SheetMesh mapped_mesh(const FlangeShape& shape) {
    const std::vector<double> across = distances(shape);
    const int n_across = static_cast<int>(across.size());
    grid::SheetMesh mesh;
    const int n_nodes = (shape.n_along + 1) * n_across;
    mesh.positions.resize(3, n_nodes);
    mesh.station.resize(n_nodes);
    mesh.distance.resize(n_nodes);
    for (int i = 0; i <= shape.n_along; ++i) {
        std::vector<int> line;
        for (int j = 0; j < n_across; ++j) {
            const int node = i * n_across + j;
            mesh.station(node) = shape.line.length() * i / shape.n_along;
            mesh.distance(node) = across[static_cast<std::size_t>(j)];
            mesh.positions.col(node) = shape.line.point({mesh.station(node), mesh.distance(node)});
            line.push_back(node);
            if (i < shape.n_along && j + 1 < n_across) {
                mesh.quads.push_back({node, node + n_across, node + n_across + 1, node + 1});
            }
        }
        mesh.web_edge.push_back(line.front());
        mesh.free_edge.push_back(line.back());
        mesh.bend_begin.push_back(line[static_cast<std::size_t>(shape.n_web)]);
        mesh.bend_end.push_back(line[static_cast<std::size_t>(shape.n_web + shape.n_bend)]);
        mesh.station_lines.push_back(line);
    }
    mesh.start_end = mesh.station_lines.front();
    mesh.far_end = mesh.station_lines.back();
    return mesh;
}

/// 1 away from the ends, falling to zero at a cut end within about one flange width.
double away_from_ends(const FlangeShape& shape, double station) {
    const double to_end = std::min(station, shape.line.length() - station);
    return 1 - std::exp(-to_end / (0.6 * leg_width));
}

/// From -1 to 1 along the line.
double along(const FlangeShape& shape, double station) {
    return 2 * station / shape.line.length() - 1;
}

double angle_at(const FlangeShape& shape, double station, double angle, double springback) {
    return angle - springback * (1 + 0.2 * (1 - away_from_ends(shape, station)));
}

/// Held: springback = 0, lift = 0.
struct Pose {
    double angle = wanted_angle;
    double springback = 0;
    double lift = 0;
};

shell::SheetState posed(const FlangeShape& shape, const grid::SheetMesh& mesh, const Pose& pose) {
    shell::SheetState state;
    state.positions.resize(3, mesh.n_nodes());
    state.directors.resize(3, mesh.n_nodes());
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        const double station = mesh.station(node);
        const double angle = angle_at(shape, station, pose.angle, pose.springback);
        const SectionPoint at = section_point(mesh.distance(node), std::max(angle, 1e-6));
        const outline::LineFrame frame = shape.line.frame(station);
        const double bow = pose.lift * (1 - std::pow(along(shape, station), 2));
        state.positions.col(node) =
            frame.point + at.out * frame.outward + Vector3d(0, 0, at.height + bow);
        state.directors.col(node) =
            std::sin(at.turned) * frame.outward + std::cos(at.turned) * Vector3d::UnitZ();
    }
    return state;
}

/// Log strain along the line: plan radius of the point now over its radius when flat.
double hoop_strain(const FlangeShape& shape, const grid::SheetMesh& mesh, int node, double angle) {
    const SectionPoint at = section_point(mesh.distance(node), std::max(angle, 1e-6));
    const double curvature = shape.line.curvature(0);
    const double strain =
        std::log((1 - curvature * at.out) / (1 - curvature * mesh.distance(node)));
    return strain * away_from_ends(shape, mesh.station(node));
}

/// Log strain across the bend at the outer face, fading in over the tangents.
double bend_strain(double distance, double angle) {
    const double inside = std::clamp(std::min(distance, bend_width - distance) / 0.8, 0.0, 1.0);
    const double radius = bend_width / std::max(angle, 1e-6);
    return inside * std::log(1 + 0.5 * thickness / radius);
}

shell::SheetFields fields_at(const FlangeShape& shape, const grid::SheetMesh& mesh, double angle) {
    shell::SheetFields fields;
    const int n = mesh.n_nodes();
    for (Eigen::VectorXd* list :
         {&fields.thickness,
          &fields.plastic_strain,
          &fields.major_mid,
          &fields.minor_mid,
          &fields.major_block_face,
          &fields.minor_block_face,
          &fields.major_outer_face,
          &fields.minor_outer_face,
          &fields.across_outer_face,
          &fields.across_block_face}) {
        list->setZero(n);
    }
    fields.stress_block_face.setZero(3, n);
    fields.stress_outer_face.setZero(3, n);
    for (int node = 0; node < n; ++node) {
        const double hoop = hoop_strain(shape, mesh, node, angle);
        const double across = -0.5 * hoop;
        const double bend = bend_strain(mesh.distance(node), angle);
        fields.thickness(node) = thickness * std::exp(-hoop - across - 0.08 * bend);
        fields.plastic_strain(node) = std::hypot(hoop, bend);
        fields.major_mid(node) = std::max(hoop, across);
        fields.minor_mid(node) = std::min(hoop, across);
        fields.major_outer_face(node) = std::max(hoop, across + bend);
        fields.minor_outer_face(node) = std::min(hoop, across + bend);
        fields.major_block_face(node) = std::max(hoop, across - bend);
        fields.minor_block_face(node) = std::min(hoop, across - bend);
        fields.across_outer_face(node) = across + bend;
        fields.across_block_face(node) = across - bend;
        const double flow = 180 * std::pow(0.002 + std::abs(hoop), 0.2);
        fields.stress_outer_face.col(node) << flow * (hoop > 0 ? 1 : -1), 400 * bend, 0;
        fields.stress_block_face.col(node) << flow * (hoop > 0 ? 1 : -1), -400 * bend, 0;
    }
    return fields;
}

findings::Spread spread(const std::vector<double>& values) {
    findings::Spread found{values.front(), 0, values.front()};
    for (const double value : values) {
        found.least = std::min(found.least, value);
        found.most = std::max(found.most, value);
        found.mean += value / static_cast<double>(values.size());
    }
    return found;
}

std::vector<double> inner_half(const std::vector<double>& values) {
    const auto quarter = static_cast<std::ptrdiff_t>(values.size() / 4);
    return {values.begin() + quarter, values.end() - quarter};
}

findings::StationFindings station_findings(
    const FlangeShape& shape,
    const process::JobResult& result,
    const process::StepResult& step,
    int i
) {
    const std::vector<int>& line = result.mesh.station_lines[static_cast<std::size_t>(i)];
    const int edge = line.back();
    findings::StationFindings at;
    at.station = result.mesh.station(edge);
    const bool released = step.kind == job::StepKind::release;
    at.flange_angle = angle_at(shape, at.station, wanted_angle, released ? shape.springback : 0);
    if (released) {
        at.springback = wanted_angle - at.flange_angle;
    }
    at.edge_strain = hoop_strain(shape, result.mesh, edge, wanted_angle);
    at.edge_thickness = step.fields.thickness(edge);
    at.least_thickness = thickness;
    for (const int node : line) {
        at.least_thickness = std::min(at.least_thickness, step.fields.thickness(node));
    }
    at.flange_depth = leg_width + nose_radius + thickness;
    return at;
}

/// Largest gap beneath the web at each station, part set on the block.
std::vector<double> web_gaps(const grid::SheetMesh& mesh, const process::StepResult& step) {
    std::vector<double> gaps(mesh.station_lines.size(), 0);
    if (step.kind != job::StepKind::release) {
        return gaps;
    }
    const findings::WebLift lift = findings::set_on_block(
        mesh, findings::shape_of(step.state, step.fields), findings::free_tilts({})
    );
    for (std::size_t k = 0; k < lift.web_nodes.size(); ++k) {
        // Nodes run station line by station line.
        const auto line =
            static_cast<std::size_t>(lift.web_nodes[k]) / mesh.station_lines[0].size();
        gaps[line] = std::max(gaps[line], lift.gaps(static_cast<Eigen::Index>(k)));
    }
    return gaps;
}

findings::PartFindings part_findings(
    const FlangeShape& shape, const process::JobResult& result, const process::StepResult& step
) {
    findings::PartFindings found;
    std::vector<double> angles;
    std::vector<double> springbacks;
    const std::vector<double> gaps = web_gaps(result.mesh, step);
    for (int i = 0; i <= shape.n_along; ++i) {
        findings::StationFindings at = station_findings(shape, result, step, i);
        at.web_gap = gaps[static_cast<std::size_t>(i)];
        angles.push_back(at.flange_angle);
        if (at.springback) {
            springbacks.push_back(*at.springback);
        }
        if (std::abs(at.edge_strain) > std::abs(found.edge_strain_most)) {
            found.edge_strain_most = at.edge_strain;
            found.edge_strain_station = at.station;
        }
        found.edge_tension_most = std::max(found.edge_tension_most, at.edge_strain);
        if (1 - at.least_thickness / thickness > found.thinning_most) {
            found.thinning_most = 1 - at.least_thickness / thickness;
            found.thinning_station = at.station;
            found.thinning_distance = flange_width;
        }
        found.web_lift = std::max(found.web_lift, at.web_gap);
        found.flange_depth_mean += at.flange_depth / (shape.n_along + 1);
        found.stations.push_back(at);
    }
    found.flange_angle = spread(angles);
    found.flange_angle_middle = spread(inner_half(angles));
    if (!springbacks.empty()) {
        found.springback = spread(springbacks);
        found.springback_middle = spread(inner_half(springbacks));
    }
    found.bend_strain_most = step.fields.across_outer_face.maxCoeff();
    found.bend_strain_used = found.bend_strain_most;
    found.edge_tension_used = found.edge_tension_most;
    found.plan_radius = shape.line.radius() * (springbacks.empty() ? 1.0 : 1.004);
    return found;
}

process::StepResult
made_up_step(const FlangeShape& shape, const process::JobResult& result, job::StepKind kind) {
    const bool released = kind == job::StepKind::release;
    process::StepResult step;
    step.kind = kind;
    step.report = {
        .reason = process::StopReason::done,
        .n_increments = released ? 6 : 74,
        .n_iterations = released ? 31 : 602,
        .n_cutbacks = released ? 0 : 7,
        .share_done = 1,
        .angle_reached = wanted_angle,
        .penetration = released ? 0 : 0.0031,
        .residual = 3e-7};
    step.state = posed(
        shape, result.mesh, released ? Pose{wanted_angle, shape.springback, shape.lift} : Pose{}
    );
    step.fields = fields_at(shape, result.mesh, wanted_angle);
    step.findings = part_findings(shape, result, step);
    return step;
}

void add_frames(const FlangeShape& shape, process::JobResult& result) {
    for (int i = 0; i <= 6; ++i) {
        const bool released = i == 6;
        process::Frame frame;
        frame.step = released ? 1 : 0;
        frame.share_done = released ? 1 : i / 5.0;
        frame.drive_angle = wanted_angle * (released ? 1 : i / 5.0);
        const Pose pose = released ? Pose{wanted_angle, shape.springback, shape.lift}
                                   : Pose{frame.drive_angle, 0, 0};
        frame.positions = posed(shape, result.mesh, pose).positions;
        frame.fields = fields_at(shape, result.mesh, frame.drive_angle);
        result.history.push_back(frame);
    }
}

findings::HandCalculation by_hand(const FlangeShape& shape) {
    const double out = middle_radius;
    const double curvature = shape.line.curvature(0);
    findings::HandCalculation hand;
    hand.edge_strain = std::log((1 - curvature * out) / (1 - curvature * flange_width));
    hand.edge_stretch = std::expm1(hand.edge_strain);
    hand.edge_thickness_ratio = std::exp(-0.5 * hand.edge_strain);
    hand.bend_strain = std::log(1 + 0.5 * thickness / middle_radius);
    hand.bend_allowance = bend_width;
    hand.mould_setback = nose_radius + thickness;
    hand.flat_width = flange_width;
    hand.springback = 0.028;
    hand.springback_moment = 21;
    hand.block_angle_for_wanted = wanted_angle + hand.springback;
    return hand;
}

findings::Verdict made_up_verdict(const findings::PartFindings& found) {
    findings::Verdict verdict;
    const double edge = std::expm1(found.edge_tension_most);
    const double bend = std::expm1(found.bend_strain_most);
    verdict.limits = {
        {.place = "free edge",
         .is_cut_edge = true,
         .reached = edge,
         .allowed = 0.16,
         .share = edge / 0.16,
         .word = edge < 0.8 * 0.16 ? findings::VerdictWord::holds : findings::VerdictWord::close,
         .grade = material::DataGrade::typical,
         .source = "invented for tests"},
        {.place = "outer fibre of the bend",
         .reached = bend,
         .allowed = 0.25,
         .share = bend / 0.25,
         .word = findings::VerdictWord::holds,
         .grade = material::DataGrade::published,
         .source = "invented for tests"}};
    verdict.share_used = edge / 0.16;
    verdict.word =
        *verdict.share_used < 0.8 ? findings::VerdictWord::holds : findings::VerdictWord::close;
    verdict.because = "the free edge uses most of the stretch this sheet bears before it necks";
    verdict.grade = material::DataGrade::typical;
    return verdict;
}

} // namespace

job::Job made_up_job(const FlangeShape& shape) {
    job::Job job;
    job.title = "Test frame segment <A & B> 20° \"invented\"";
    job.sheet.material.name = "made-up alloy, annealed";
    job.sheet.material.youngs_modulus = 70000;
    job.sheet.material.poisson_ratio = 0.33;
    job.sheet.material.law_name = "swift";
    job.sheet.material.curve_grade = material::DataGrade::typical;
    job.sheet.material.curve_source = "invented for tests";
    job.sheet.material.note = "Invented values: good for testing pages, for nothing else.";
    job.sheet.thickness = thickness;
    job.blank.line = shape.line;
    job.blank.web_width = web_width;
    job.blank.flange_depth = leg_width + nose_radius + thickness - 3;
    job.blank.flange_width = flange_width;
    job.blank.trim_allowance = 3;
    job.block.nose_radius = nose_radius;
    job.block.wall_angle = wanted_angle;
    job.block.backing_setback = 1;
    job.drive.kind = job::DriveKind::wiper;
    job.drive.corner_radius = 4;
    return job;
}

process::JobResult made_up_result(const FlangeShape& shape) {
    process::JobResult result;
    result.mesh = mapped_mesh(shape);
    result.steps.push_back(made_up_step(shape, result, job::StepKind::bend_down));
    result.steps.push_back(made_up_step(shape, result, job::StepKind::release));
    add_frames(shape, result);
    result.figures = {
        .n_degrees_of_freedom = 5 * result.mesh.n_nodes(),
        .n_layers = 12,
        .n_increments = 80,
        .n_iterations = 633,
        .n_cutbacks = 7,
        .n_threads = 2,
        .seconds = 52.4,
        .seconds_elements = 19.8,
        .seconds_factorise = 24.1,
        .seconds_contact = 3.3,
        .seconds_bare_refactor = 0.031};
    result.by_hand = by_hand(shape);
    result.verdict = made_up_verdict(result.steps.back().findings);
    result.disagreements = {
        {"springback",
         shape.springback,
         result.by_hand.springback,
         "Springback: computed 3.4 deg, by hand 1.6 deg. The hand calculation knows a straight "
         "strip only; a curved flange is held by its own web."}};
    return result;
}

} // namespace flangewright::support
