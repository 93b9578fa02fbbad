#include "io/tables/summary_of_steps.hpp"

#include "io/tables/shown_length.hpp"

#include <limits>

namespace flangewright::tables {

namespace {

void add_springback(Json& entry, const findings::PartFindings& found) {
    if (found.springback) {
        entry["springback_deg"] = spread_deg(*found.springback);
    }
    if (found.springback_middle) {
        entry["springback_deg_middle"] = spread_deg(*found.springback_middle);
    }
}

std::optional<double> angle_before_deg(const process::StepResult& step) {
    return step.angle_before ? std::optional(units::degrees(*step.angle_before)) : std::nullopt;
}

Json lip(const findings::LipFindings& found) {
    Json entry = {
        {"angle_deg", spread_deg(found.angle)},
        {"angle_deg_middle", spread_deg(found.angle_middle)},
        {"depth_mm", {{"mean", number(found.depth_mean)}}},
        {"bend_strain_log", {{"max", number(found.bend_strain_most)}}},
        {"bend_strain_used_log", {{"max", number(found.bend_strain_used)}}}};
    if (found.springback_middle) {
        entry["springback_deg_middle"] = {
            {"mean", number(units::degrees(*found.springback_middle))}};
    }
    return entry;
}

Json openings(const std::vector<findings::OpeningFindings>& found) {
    Json list = Json::array();
    for (const findings::OpeningFindings& each : found) {
        Json entry = {
            {"kind", findings::word_for(each.kind)},
            {"number", each.number},
            {"rim_strain_log", {{"max", number(each.tension_most)}}},
            {"rim_strain_used_log", {{"max", number(each.tension_used)}}},
            {"rim_stretch_percent", {{"max", number(stretch_percent(each.tension_most))}}},
            {"station_mm", number(each.station)},
            {"distance_mm", number(each.distance)}};
        if (each.least_diameter && each.most_diameter) {
            entry["diameter_mm"] = {
                {"least", number(*each.least_diameter)}, {"most", number(*each.most_diameter)}};
        }
        list.push_back(entry);
    }
    return list;
}

Json step(const process::StepResult& result, double plan_radius_before) {
    const findings::PartFindings& found = result.findings;
    Json entry = {
        {"name", process::name_of(result.kind)},
        {"reason", word_for_reason(result.report.reason)},
        {"share_done", number(result.report.share_done)},
        {"angle_reached_deg", number(units::degrees(result.report.angle_reached))},
        {"steps", result.report.n_increments},
        {"iterations", result.report.n_iterations},
        {"cutbacks", result.report.n_cutbacks},
        {"let_move", result.report.n_moved},
        {"flange_angle_deg", spread_deg(found.flange_angle)},
        {"flange_angle_deg_middle", spread_deg(found.flange_angle_middle)},
        {"flange_angle_deg_before", number(angle_before_deg(result))},
        {"edge_strain_log",
         {{"max", number(found.edge_strain_most)},
          {"tension_max", number(found.edge_tension_most)},
          {"station_mm", number(found.edge_strain_station)}}},
        {"edge_strain_used_log", {{"max", number(found.edge_tension_used)}}},
        {"edge_stretch_percent", {{"max", number(stretch_percent(found.edge_strain_most))}}},
        {"bend_strain_log", {{"max", number(found.bend_strain_most)}}},
        {"bend_strain_used_log", {{"max", number(found.bend_strain_used)}}},
        {"thinning_percent",
         {{"max", number(100 * found.thinning_most)},
          {"station_mm", number(found.thinning_station)},
          {"distance_mm", number(found.thinning_distance)}}},
        {"web_lift_mm", {{"max", number(found.web_lift)}}},
        {"penetration_mm", {{"max", number(result.report.penetration)}}},
        {"flange_depth_mm", {{"mean", number(found.flange_depth_mean)}}},
        {"plan_radius_mm",
         {{"before", number(plan_radius_before)}, {"after", number(found.plan_radius)}}},
        {"notes", found.notes}};
    add_springback(entry, found);
    if (found.lip) {
        entry["lip"] = lip(*found.lip);
    }
    if (!found.openings.empty()) {
        entry["openings"] = openings(found.openings);
    }
    if (found.neck) {
        entry["interior_neck"] = {
            {"share_used", number(found.neck->share)},
            {"major_strain_used_log", number(found.neck->major_strain)},
            {"station_mm", number(found.neck->station)},
            {"distance_mm", number(found.neck->distance)}};
        if (found.neck->other_share) {
            entry["interior_neck"]["beside"] = {
                {"law", found.neck->other_law}, {"share_used", number(*found.neck->other_share)}};
        }
    }
    return entry;
}

} // namespace

std::string word_for_reason(process::StopReason reason) {
    switch (reason) {
    case process::StopReason::done:
        return "done";
    case process::StopReason::no_equilibrium:
        return "no equilibrium";
    case process::StopReason::stop_requested:
        break;
    }
    return "stopped by the user";
}

Json steps_json(const job::Job& job, const process::JobResult& result) {
    Json list = Json::array();
    const bool is_mixed = job.blank.line.curve() == outline::Curve::mixed;
    double plan_radius =
        is_mixed ? std::numeric_limits<double>::infinity() : job.blank.line.radius();
    for (const process::StepResult& done : result.steps) {
        list.push_back(step(done, plan_radius));
        plan_radius = done.findings.plan_radius;
    }
    return list;
}

} // namespace flangewright::tables
