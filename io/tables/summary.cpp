#include "io/tables/summary.hpp"

#include "io/tables/edge_words.hpp"
#include "io/tables/json_figures.hpp"
#include "io/tables/pass_table.hpp"
#include "io/tables/summary_of_steps.hpp"
#include "io/tables/summary_of_verdict.hpp"
#include "io/tables/web_words.hpp"
#include "io/units/angle.hpp"
#include "solver/findings/flange_development.hpp"
#include "solver/process/drive_passes.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::tables {

namespace {

Json solve(const RunFacts& facts, const process::JobResult& result) {
    const process::SolveFigures& figures = result.figures;
    return {
        {"reason", word_for_reason(result.reason)},
        {"degrees_of_freedom", figures.n_degrees_of_freedom},
        {"layers", figures.n_layers},
        {"steps", figures.n_increments},
        {"iterations", figures.n_iterations},
        {"cutbacks", figures.n_cutbacks},
        {"seconds", number(figures.seconds)},
        {"seconds_in",
         {{"elements", number(figures.seconds_elements)},
          {"factorise", number(figures.seconds_factorise)},
          {"contact", number(figures.seconds_contact)},
          {"output", number(facts.seconds_output)}}},
        {"refactor_seconds_bare", number(figures.seconds_bare_refactor)},
        {"threads", figures.n_threads}};
}

std::string word_for_curvature(double curvature) {
    if (curvature == 0) {
        return "line";
    }
    return curvature > 0 ? "concave" : "convex";
}

/// The bend line as it is computed, with what the edge does there by hand.
Json pieces(const job::Job& job) {
    Json list = Json::array();
    double station = 0;
    for (const outline::Piece& piece : job.blank.line.pieces()) {
        const double stretch =
            findings::edge_stretch_at(job, job.blank.flange_width, piece.curvature);
        list.push_back(
            {{"curve", word_for_curvature(piece.curvature)},
             {"station_mm", number(station)},
             {"length_mm", number(piece.length)},
             {"radius_mm", number(1 / std::abs(piece.curvature))},
             {"sweep_deg", number(units::degrees(piece.length * std::abs(piece.curvature)))},
             {"edge_stretch_percent_by_hand", number(100 * stretch)}}
        );
        station += piece.length;
    }
    return list;
}

Json lip_by_hand(const findings::LipByHand& lip) {
    return {
        {"edge_strain_log", number(lip.edge_strain)},
        {"edge_stretch_percent", number(100 * lip.edge_stretch)},
        {"bend_strain_log", number(lip.bend_strain)},
        {"bend_allowance_mm", number(lip.bend_allowance)},
        {"mould_setback_mm", number(lip.mould_setback)},
        {"bend_begin_mm", number(lip.bend_begin)},
        {"flat_width_mm", number(lip.flat_width)},
        {"springback_deg", number(units::degrees(lip.springback))}};
}

Json hand_calculation(const findings::HandCalculation& hand) {
    return {
        {"edge_strain_log", number(hand.edge_strain)},
        {"edge_stretch_percent", number(100 * hand.edge_stretch)},
        {"edge_thickness_ratio", number(hand.edge_thickness_ratio)},
        {"edge_r_value", number(hand.edge_r_value)},
        {"bend_strain_log", number(hand.bend_strain)},
        {"bend_allowance_mm", number(hand.bend_allowance)},
        {"mould_setback_mm", number(hand.mould_setback)},
        {"flat_width_mm", number(hand.flat_width)},
        {"springback_deg", number(units::degrees(hand.springback))},
        {"springback_moment_n_mm_per_mm", number(hand.springback_moment)},
        {"block_angle_for_wanted_deg", number(units::degrees(hand.block_angle_for_wanted))},
        {"lip", hand.lip ? lip_by_hand(*hand.lip) : Json(nullptr)}};
}

// Empty when it is not known.
Json mesh_error(const process::JobResult& result) {
    if (!result.mesh_error) {
        return nullptr;
    }
    return {
        {"springback_deg", number(units::degrees(result.mesh_error->springback))},
        {"flange_angle_deg", number(units::degrees(result.mesh_error->flange_angle))},
        {"edge_strain_log", number(result.mesh_error->edge_strain)},
        {"thinning_percent", number(100 * result.mesh_error->thinning)},
        {"web_lift_mm",
         result.mesh_error->web_lift ? number(*result.mesh_error->web_lift) : Json(nullptr)}};
}

// Whether the web sits flat.
Json web_seat(const process::JobResult& result) {
    const std::optional<tables::WebSeat> seat = web_seat_of(result);
    return seat ? Json(word_for(*seat)) : Json(nullptr);
}

Json scatter_figures(const process::ScatterFigures& figures) {
    return {
        {"springback_deg", number(units::degrees(figures.springback))},
        {"flange_angle_deg", number(units::degrees(figures.flange_angle))},
        {"edge_strain_log", number(figures.edge_strain)},
        {"thinning_percent", number(100 * figures.thinning)},
        {"web_lift_mm", number(figures.web_lift)}};
}

// Empty when it was not asked for or not found.
Json scatter(const process::JobResult& result) {
    if (!result.scatter) {
        return nullptr;
    }
    Json parts = Json::array();
    for (const process::ScatterPart& part : result.scatter->parts) {
        parts.push_back(
            {{"what", part.what}, {"band", part.band}, {"moves", scatter_figures(part.moves)}}
        );
    }
    return {{"total", scatter_figures(result.scatter->total)}, {"parts", parts}};
}

Json edge_on_the_way(const EdgeOnTheWay& edge) {
    return {{"max", number(edge.strain)}, {"station_mm", number(edge.station)}};
}

Json drive_record(const process::DriveRecord& record) {
    Json list = Json::array();
    for (const process::PassFigures& pass : record.passes) {
        list.push_back(
            {{"angle_wanted_deg", number(units::degrees(pass.angle_wanted))},
             {"flange_angle_deg", {{"mean", number(units::degrees(pass.flange_angle))}}},
             {"edge_strain_log",
              {{"max", number(pass.edge_strain)}, {"station_mm", number(pass.edge_station)}}}}
        );
    }
    Json edge = Json::array();
    for (Eigen::Index i = 0; i < record.stations.size(); ++i) {
        edge.push_back(
            {{"station_mm", number(record.stations[i])},
             {"stretched_log", number(record.stretched[i])},
             {"shrunk_log", number(record.shrunk[i])}}
        );
    }
    return {
        {"passes", list},
        {"stretched_on_the_way_log", edge_on_the_way(most_stretched(record))},
        {"shrunk_on_the_way_log", edge_on_the_way(most_shrunk(record))},
        {"edge_on_the_way", edge}};
}

// Empty for one even pass.
Json drive_in_passes(const job::Job& job, const process::JobResult& result) {
    if (!result.passes || result.passes->as_driven.stations.size() == 0) {
        return nullptr;
    }
    const process::PassResult& passes = *result.passes;
    return {
        {"order", process::word_for(job.drive.order)},
        {"front_mm", number(job.drive.front)},
        {"as_driven", drive_record(passes.as_driven)},
        {"even", passes.even ? drive_record(*passes.even) : Json(nullptr)},
        {"seconds_even", number(passes.seconds_even)}};
}

// Empty where the web is flat enough, or nothing was found.
Json web_cure(const process::JobResult& result) {
    if (!result.web_cure) {
        return nullptr;
    }
    const process::WebCure& cure = *result.web_cure;
    Json zones = Json::array();
    for (const process::CureZone& zone : cure.zones) {
        zones.push_back(
            {{"from_mm", number(zone.from)},
             {"to_mm", number(zone.to)},
             {"stretch_percent", number(100 * zone.stretch)},
             {"put_in_percent", number(100 * zone.put_in)}}
        );
    }
    return {
        {"step", cure.step + 1},
        {"zones", zones},
        {"web_lift_mm", {{"before", number(cure.lift_before)}, {"after", number(cure.lift_after)}}},
        {"brings_it_flat", cure.helps()},
        {"flange_angle_change_deg", number(units::degrees(cure.angle_change))},
        {"edge_strain_added_log", {{"max", number(cure.edge_strain_added)}}}};
}

Json disagreements(const process::JobResult& result) {
    Json list = Json::array();
    for (const findings::Disagreement& entry : result.disagreements) {
        list.push_back(
            {{"figure", entry.figure},
             {"computed", number(entry.computed)},
             {"by_hand", number(entry.by_hand)},
             {"sentence", entry.sentence}}
        );
    }
    return list;
}

Json edge_finish(const job::Job& job) {
    const bool is_trimmed = std::ranges::find(job.steps, job::StepKind::trim) != job.steps.end();
    return {
        {"as_cut", word_for(job.blank.edge_finish)},
        {"trimmed", is_trimmed ? Json(word_for(job.trimmed_edge_finish)) : Json(nullptr)}};
}

// Null for a file: built into the program, or written out in the case.
Json sheet(const material::SheetMaterial& material) {
    return {
        {"material", material.name},
        {"own_file", material.own_file.empty() ? Json(nullptr) : Json(material.own_file)},
        {"curve_grade", material::word_for(material.curve_grade)}};
}

Json warnings(const RunFacts& facts, const process::JobResult& result) {
    Json list = result.warnings;
    for (const std::string& warning : facts.output_warnings) {
        list.push_back(warning);
    }
    return list;
}

} // namespace

std::string
summary_json(const RunFacts& facts, const job::Job& job, const process::JobResult& result) {
    const Json summary = {
        {"schema", summary_schema},
        {"program", {{"name", "flangewright"}, {"version", facts.program_version}}},
        {"case",
         {{"title", job.title},
          {"file", facts.case_file},
          {"date", facts.date},
          {"run_mark", facts.run_mark.empty() ? Json(nullptr) : Json(facts.run_mark)}}},
        {"sheet", sheet(job.sheet.material)},
        {"mesh", {{"nodes", result.mesh.n_nodes()}, {"elements", result.mesh.n_elements()}}},
        {"pieces", pieces(job)},
        {"edge_finish", edge_finish(job)},
        {"solve", solve(facts, result)},
        {"steps", steps_json(job, result)},
        {"drive_in_passes", drive_in_passes(job, result)},
        {"hand_calculation", hand_calculation(result.by_hand)},
        {"mesh_error", mesh_error(result)},
        {"scatter", scatter(result)},
        {"chance_of_splitting", chance_json(result)},
        {"what_would_help", remedies_json(result)},
        {"web_sits", web_seat(result)},
        {"web_cure", web_cure(result)},
        {"disagreements", disagreements(result)},
        {"warnings", warnings(facts, result)},
        {"verdict", verdict_json(result.verdict)},
        {"lip_advice", lip_advice_json(job, result)}};
    // A title that is not valid UTF-8 must not bring the run down.
    return summary.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

} // namespace flangewright::tables
