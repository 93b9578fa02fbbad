#include "io/run_folder/pictures.hpp"

#include "io/chart/edge_chart.hpp"
#include "io/chart/section_picture.hpp"
#include "io/tables/shown_length.hpp"
#include "io/tables/step_words.hpp"
#include "io/units/angle.hpp"
#include "io/vtk/colour_scale.hpp"
#include "io/vtk/node_figures.hpp"
#include "io/vtk/part_picture.hpp"
#include "solver/findings/verdict.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <iterator>

namespace flangewright::run_folder {

namespace {

using tables::brief_length;
using tables::shown_number;
using units::degrees;

// In the order in which pages show them.
constexpr std::array<const char*, 6> picture_names{
    "thinning.png",
    "stretch-outer-face.png",
    "stretch-mid.png",
    "springback.png",
    "edge-stretch.png",
    "section.png"};

/// What every picture needs.
struct Ground {
    const tables::RunFacts& facts;
    const job::Job& job;
    const process::JobResult& result;
    std::size_t shown = result.steps.size() - 1; ///< the step that is drawn

    [[nodiscard]] const process::StepResult& step() const { return result.steps[shown]; }
    [[nodiscard]] const grid::SheetMesh& mesh() const { return process::mesh_of(result, shown); }
    [[nodiscard]] bool has(const Eigen::MatrixXd& field) const {
        return field.size() >= mesh().n_nodes();
    }
};

std::string footer(const Ground& ground) {
    return fmt::format(
        "{}  |  flangewright {}, {}  |  a forming estimate, not approved data",
        vtk::printable(ground.job.title, 60),
        ground.facts.program_version,
        ground.facts.date
    );
}

/// What a step left: "On the block", "Released"; or how far an unfinished step came.
std::string state_words(const process::StepResult& step) {
    if (step.report.reason == process::StopReason::done) {
        return tables::with_capital(tables::words_after(step.kind));
    }
    if (step.kind == job::StepKind::bend_down) {
        return fmt::format(
            "Bend-down not finished, {} deg reached",
            shown_number(degrees(step.report.angle_reached), 1)
        );
    }
    return fmt::format(
        "{} not finished, {:.0f} % done",
        tables::with_capital(process::name_of(step.kind)),
        100 * step.report.share_done
    );
}

vtk::PartPicture part(const Ground& ground, const std::string& title) {
    const process::StepResult& step = ground.step();
    vtk::PartPicture picture;
    picture.text = {title, state_words(step), footer(ground)};
    picture.positions = step.state.positions;
    picture.directors = step.state.directors;
    picture.thickness = step.fields.thickness;
    return picture;
}

/// Per-cent figure with its largest value marked.
void show_percent(vtk::PartPicture& picture, const Eigen::VectorXd& percent) {
    picture.figure = percent;
    picture.mark = shown_number(percent.maxCoeff(), 1) + " %";
}

std::string draw_thinning(const Ground& ground) {
    const findings::PartFindings& found = ground.step().findings;
    vtk::PartPicture picture = part(ground, "How far the sheet has thinned");
    picture.text.subtitle += fmt::format(
        ". Thinnest at station {}, {} past the bend line in the flat.",
        brief_length(found.thinning_station, ground.facts.unit),
        brief_length(found.thinning_distance, ground.facts.unit)
    );
    picture.scale_title = "Thinning, %";
    show_percent(picture, 100 * vtk::thinning(ground.job, ground.step().fields));
    return vtk::part_picture(ground.mesh(), picture);
}

std::string
draw_strain(const Ground& ground, const Eigen::VectorXd& strain, const std::string& where) {
    vtk::PartPicture picture = part(ground, "Largest stretch " + where);
    picture.text.subtitle += ". Stretch in whatever direction it is largest, per cent of length.";
    picture.scale_title = "Stretch, %";
    show_percent(picture, 100 * strain.array().exp() - 100);
    return vtk::part_picture(ground.mesh(), picture);
}

/// A round factor that makes the movement plain to see without folding the part over.
double exaggeration(double largest_movement, double flange_width) {
    double chosen = 1;
    for (const double factor : {2.0, 3.0, 5.0, 10.0, 20.0, 50.0}) {
        if (factor * largest_movement <= 0.3 * flange_width) {
            chosen = factor;
        }
    }
    return chosen;
}

std::string draw_springback(const Ground& ground, const Eigen::Matrix3Xd& moved) {
    const Eigen::VectorXd distance = moved.colwise().norm().transpose();
    const double factor = exaggeration(distance.maxCoeff(), ground.job.blank.flange_width);
    const std::string unit = tables::unit_word(ground.facts.unit);
    vtk::PartPicture picture = part(ground, "Springback");
    if (factor > 1) {
        picture.text.title += fmt::format(", drawn {:.0f} times larger than it is", factor);
    }
    const auto& middle = ground.step().findings.springback_middle;
    if (middle) {
        picture.text.subtitle = fmt::format(
            "The flange opens {} deg{}. Released part set on the block; grey lines: held.",
            shown_number(degrees(middle->mean), 1),
            ground.job.blank.has_free_end() ? " away from the cut ends" : ""
        );
    }
    picture.positions += (factor - 1) * moved;
    picture.other_shape = ground.step().state.positions - moved;
    picture.scale_title = "Movement, " + unit;
    picture.figure = distance;
    for (double& value : picture.figure) {
        value = tables::in_unit(value, ground.facts.unit);
    }
    picture.mark = brief_length(distance.maxCoeff(), ground.facts.unit);
    return vtk::part_picture(ground.mesh(), picture);
}

/// What the free edge bears, per cent; nothing when the material's data do not say.
std::optional<double> allowed_edge_percent(const findings::Verdict& verdict) {
    for (const findings::LimitUse& limit : verdict.limits) {
        if (limit.place == findings::edge_place && limit.allowed) {
            return 100 * *limit.allowed;
        }
    }
    return std::nullopt;
}

std::string draw_edge(const Ground& ground) {
    chart::EdgeChart chart;
    chart.text = {"Stretch of the free edge", state_words(ground.step()), footer(ground)};
    chart.station_title = "Station along the bend line, " + tables::unit_word(ground.facts.unit);
    for (const findings::StationFindings& at : ground.step().findings.stations) {
        chart.stations.push_back(tables::in_unit(at.station, ground.facts.unit));
        chart.stretch_percent.push_back(tables::stretch_percent(at.edge_strain));
    }
    const auto end_words = [](job::EndKind kind) {
        return kind == job::EndKind::free ? "cut end" : "the part goes on";
    };
    chart.start_words = end_words(ground.job.blank.start);
    chart.end_words = end_words(ground.job.blank.end);
    chart.allowed_percent = allowed_edge_percent(ground.result.verdict);
    const auto& lip = ground.result.by_hand.lip;
    chart.by_hand_percent = 100
        * (ground.step().findings.lip && lip ? lip->edge_stretch
                                             : ground.result.by_hand.edge_stretch);
    const bool is_trimmed = ground.mesh().n_nodes() < ground.result.mesh.n_nodes();
    chart.text.subtitle += ". Computed along the edge, at mid-thickness";
    chart.text.subtitle += is_trimmed ? "." : ", trim allowance included.";
    chart.text.subtitle += chart.allowed_percent ? "" : " What this sheet bears is not known.";
    return chart::edge_chart(chart);
}

const process::StepResult* held_step(const process::JobResult& result) {
    for (auto step = result.steps.rbegin(); step != result.steps.rend(); ++step) {
        if (step->kind == job::StepKind::bend_down || step->kind == job::StepKind::return_bend) {
            return &*step;
        }
    }
    return nullptr;
}

/// The first release, or the last step when there is none.
std::size_t first_release(const process::JobResult& result) {
    for (std::size_t i = 0; i < result.steps.size(); ++i) {
        if (result.steps[i].kind == job::StepKind::release) {
            return i;
        }
    }
    return result.steps.size() - 1;
}

/// The release whose edge has been stretched most: that of the lip, if one is bent.
std::size_t release_of_last_bend(const process::JobResult& result) {
    for (std::size_t i = 0; i < result.steps.size(); ++i) {
        if (result.steps[i].kind == job::StepKind::release && result.steps[i].findings.lip) {
            return i;
        }
    }
    return first_release(result);
}

/// What a section's shape is called: its state and, where it was measured, its angle.
std::string section_caption(const process::StepResult& step, std::size_t line) {
    const bool is_whole = step.report.reason == process::StopReason::done;
    std::string state = is_whole ? state_words(step) : "Not finished";
    if (line >= step.findings.stations.size()) {
        return state;
    }
    const findings::StationFindings& at = step.findings.stations[line];
    const std::string flange = shown_number(degrees(at.flange_angle), 1);
    return at.lip_angle ? fmt::format(
               "{}: flange {}, lip {} deg",
               tables::with_capital(process::name_of(step.kind)),
               flange,
               shown_number(degrees(*at.lip_angle), 1)
           )
                        : fmt::format("{}: flange at {} deg", state, flange);
}

/// Where the section is, and how the released web lies there.
std::string section_subtitle(const Ground& ground, std::size_t line, double station) {
    const units::LengthUnit unit = ground.facts.unit;
    std::string place =
        fmt::format("Half way along, at station {}, to scale.", brief_length(station, unit));
    const findings::PartFindings& found = ground.step().findings;
    if (job::ends_on_block(ground.step().kind) || line >= found.stations.size()) {
        return place;
    }
    return fmt::format(
        "{} {} and set on the block, the web lifts {} here, {} at most.",
        place,
        tables::with_capital(tables::words_after(ground.step().kind)),
        brief_length(found.stations[line].web_gap, unit),
        brief_length(found.web_lift, unit)
    );
}

std::string draw_section(const Ground& ground, const process::StepResult& held) {
    const std::size_t line = ground.mesh().station_lines.size() / 2;
    const double station = ground.mesh().station(ground.mesh().station_lines[line].front());
    const outline::LineFrame frame = ground.job.blank.line.frame(station);
    const auto cut = [&](const process::StepResult& step) {
        const auto index = static_cast<std::size_t>(&step - ground.result.steps.data());
        const grid::SheetMesh& mesh = process::mesh_of(ground.result, index);
        return chart::section_through(
            mesh.station_lines[line],
            frame,
            step.state.positions,
            step.state.directors,
            step.fields.thickness
        );
    };
    chart::SectionPicture picture;
    picture.text = {
        "Section square to the bend line", section_subtitle(ground, line, station), footer(ground)};
    picture.held = cut(held);
    picture.held_caption = section_caption(held, line);
    picture.shows_lip_block = held.kind == job::StepKind::return_bend;
    if (&ground.step() != &held) {
        picture.released = cut(ground.step());
        picture.released_caption = section_caption(ground.step(), line);
    }
    const bool is_inch = ground.facts.unit == units::LengthUnit::inch;
    picture.ruler_length = is_inch ? 6.35 : 5;
    picture.ruler_caption = is_inch ? "1/4 in" : "5 mm";
    job::Job there = ground.job;
    there.block.wall_angle = ground.job.block.wall_angle_at(station);
    return chart::section_picture(there, picture);
}

} // namespace

std::vector<PlannedPicture> plan_pictures(
    const tables::RunFacts& facts, const job::Job& job, const process::JobResult& result
) {
    std::vector<PlannedPicture> plan;
    if (result.steps.empty()) {
        return plan;
    }
    const Ground ground{facts, job, result};
    const shell::SheetFields& fields = ground.step().fields;
    const bool has_shape =
        ground.has(fields.thickness) && ground.has(ground.step().state.directors);
    if (has_shape) {
        plan.push_back({"thinning.png", "How far the sheet has thinned", [=] {
                            return draw_thinning(ground);
                        }});
    }
    if (has_shape && ground.has(fields.major_outer_face)) {
        plan.push_back(
            {"stretch-outer-face.png",
             "Largest stretch on the outer face",
             [=, &fields] {
                 return draw_strain(ground, fields.major_outer_face, "on the outer face");
             }}
        );
    }
    if (has_shape && ground.has(fields.major_mid)) {
        plan.push_back({"stretch-mid.png", "Largest stretch at mid-thickness", [=, &fields] {
                            return draw_strain(ground, fields.major_mid, "at mid-thickness");
                        }});
    }
    const Ground released{facts, job, result, first_release(result)};
    const std::optional<Eigen::Matrix3Xd> moved = vtk::springback(result, released.shown);
    if (has_shape && moved && released.has(released.step().fields.thickness)) {
        plan.push_back({"springback.png", "Springback, exaggerated as the picture says", [=] {
                            return draw_springback(released, *moved);
                        }});
    }
    // Of the edge as bent: that is what the hand calculation and the limit speak of.
    const Ground bent{facts, job, result, release_of_last_bend(result)};
    if (bent.step().findings.stations.size() > 1) {
        plan.push_back({"edge-stretch.png", "Stretch of the free edge along the bend line", [=] {
                            return draw_edge(bent);
                        }});
    }
    const process::StepResult* held = held_step(result);
    if (has_shape && held != nullptr && held->fields.thickness.size() > 0
        && !result.mesh.station_lines.empty()) {
        plan.push_back({"section.png", "Section half way along, on the block and released", [=] {
                            return draw_section(ground, *held);
                        }});
    }
    return plan;
}

bool is_picture_name(const std::string& name) {
    return std::ranges::find(picture_names, name) != picture_names.end();
}

std::vector<sheet_page::PagePicture> pictures_in(const std::filesystem::path& folder) {
    std::vector<sheet_page::PagePicture> pictures;
    for (const char* name : picture_names) {
        std::ifstream file(folder / "pictures" / name, std::ios::binary);
        if (file) {
            pictures.push_back({name, {std::istreambuf_iterator<char>(file), {}}});
        }
    }
    return pictures;
}

} // namespace flangewright::run_folder
