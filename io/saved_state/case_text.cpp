#include "io/saved_state/case_text.hpp"

#include "io/key_file/excerpt.hpp"
#include "solver/process/drive_passes.hpp"
#include "solver/process/job_result.hpp"
#include "solver/process/workpiece.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <sstream>
#include <vector>

namespace flangewright::saved_state {

namespace {

class Lines {
public:
    void add(const std::string& key, double value) { add(key, fmt::format("{}", value)); }
    void add(const std::string& key, const std::string& value) {
        text_ += key + " = " + key_file::on_one_line(value) + "\n";
    }
    [[nodiscard]] const std::string& text() const { return text_; }

private:
    std::string text_;
};

// The bindings name every member, so that one added to the job stops the build here: add it below,
// unless no state depends on it.

void add_material(
    Lines& lines, const std::string& section, const material::SheetMaterial& material
) {
    lines.add(section + ".name", material.name);
    lines.add(section + ".youngs_modulus", material.youngs_modulus);
    lines.add(section + ".poisson_ratio", material.poisson_ratio);
    lines.add(section + ".hardening.law", material.law_name);
    for (const auto& [key, values] : material.law_values) {
        lines.add(
            fmt::format("{}.hardening.{}", section, key), fmt::format("{}", fmt::join(values, ", "))
        );
    }
    for (const material::BackStress& back : material.back_stresses) {
        const auto& [stiffness, recall] = back;
        lines.add(section + ".hardening.back_stress.stiffness", stiffness);
        lines.add(section + ".hardening.back_stress.recall_rate", recall);
    }
    if (material.yield != nullptr) { // so that states of sheets without stay what they were
        lines.add(section + ".yield.law", material.yield_name);
        for (const auto& [key, values] : material.yield_values) {
            lines.add(
                fmt::format("{}.yield.{}", section, key), fmt::format("{}", fmt::join(values, ", "))
            );
        }
    }
}

void add_sheet(Lines& lines, const job::Sheet& sheet) {
    const auto& [material, thickness, rolling_direction, least_thickness, softer_tempers] = sheet;
    lines.add("sheet.thickness", thickness);
    lines.add("sheet.rolling_direction", rolling_direction);
    add_material(lines, "sheet.material", material);
}

std::string word_for(job::EndKind end) {
    return end == job::EndKind::free ? "free" : "continues";
}

// Nothing for what does not vary.
void add_profile(Lines& lines, const std::string& key, const outline::Profile& profile) {
    for (const outline::ProfilePoint& point : profile.points()) {
        const auto& [station, value] = point;
        lines.add(fmt::format("{} at {}", key, station), value);
    }
}

void add_openings(Lines& lines, const outline::Openings& openings) {
    const auto& [holes, notches, tabs] = openings;
    for (const outline::Hole& hole : holes) {
        const auto& [station, distance, diameter, is_pin] = hole;
        lines.add("hole.station", station);
        lines.add("hole.distance", distance);
        lines.add("hole.diameter", diameter);
        lines.add("hole.pin", is_pin ? "yes" : "no");
    }
    for (const outline::Notch& notch : notches) {
        const auto& [station, width, depth] = notch;
        lines.add("notch.station", station);
        lines.add("notch.width", width);
        lines.add("notch.depth", depth);
    }
    for (const outline::Tab& tab : tabs) {
        const auto& [begin, end, height] = tab;
        lines.add("tab.begin", begin);
        lines.add("tab.end", end);
        lines.add("tab.height", height);
    }
}

void add_blank(Lines& lines, const job::Blank& blank) {
    const auto& [line, web_width, flange_depth, flange_width, flange_widths, trim_allowance, lip_width, has_lip, start, end, openings, edge_finish] =
        blank;
    for (const outline::Piece& piece : line.pieces()) {
        const auto& [length, curvature] = piece;
        lines.add("bend_line.length", length);
        lines.add("bend_line.curvature", curvature);
    }
    lines.add("blank.web_width", web_width);
    lines.add("blank.flat_width", flange_width);
    add_profile(lines, "blank.flat_width", flange_widths);
    lines.add("blank.flange_depth", flange_depth);
    lines.add("blank.trim_allowance", trim_allowance);
    lines.add("blank.lip_width", lip_width);
    lines.add("blank.lip", has_lip ? "bent" : "flat");
    lines.add("blank.start", word_for(start));
    lines.add("blank.end", word_for(end));
    add_openings(lines, openings);
}

void add_block(Lines& lines, const job::Block& block) {
    const auto& [nose_radius, wall_angle, wall_angles, backing_setback, friction] = block;
    lines.add("block.nose_radius", nose_radius);
    lines.add("block.wall_angle", wall_angle);
    add_profile(lines, "block.wall_angle", wall_angles);
    lines.add("block.backing_setback", backing_setback);
    lines.add("block.friction", friction);
}

void add_drive(Lines& lines, const job::Drive& drive) {
    const auto& [kind, clearance, corner_radius, angle, order, passes, front] = drive;
    lines.add("drive.kind", kind == job::DriveKind::wiper ? "wiper" : "leaf");
    lines.add("drive.clearance", clearance);
    lines.add("drive.corner_radius", corner_radius);
    lines.add("drive.angle", angle);
    lines.add("drive.order", process::word_for(order));
    lines.add("drive.passes", fmt::format("{}", fmt::join(passes, ", ")));
    lines.add("drive.front", front);
}

void add_return_bend(Lines& lines, const job::ReturnBend& lip) {
    const auto& [side, lip_depth, nose_radius, angle, clearance, corner_radius] = lip;
    lines.add("return_bend.side", side == job::LipSide::under_web ? "under" : "away");
    lines.add("return_bend.lip_depth", lip_depth);
    lines.add("return_bend.nose_radius", nose_radius);
    lines.add("return_bend.angle", angle);
    lines.add("return_bend.clearance", clearance);
    lines.add("return_bend.corner_radius", corner_radius);
}

void add_steps(Lines& lines, const std::vector<job::StepKind>& steps) {
    std::vector<std::string> words;
    words.reserve(steps.size());
    for (const job::StepKind kind : steps) {
        words.push_back(process::name_of(kind));
    }
    lines.add("run.steps", fmt::format("{}", fmt::join(words, ", ")));
}

void add_mesh(Lines& lines, const process::Fineness& fineness) {
    const auto& [n_layers, n_round_nose, largest_turn, growth, widest, widest_in_flange, longest_ratio, n_along, longest, n_round_hole] =
        fineness;
    lines.add("layers", n_layers);
    lines.add("elements round the nose", n_round_nose);
    lines.add("largest turn", largest_turn);
    lines.add("growth", growth);
    lines.add("widest", widest);
    lines.add("widest in flange", widest_in_flange);
    lines.add("longest over those in the bend", longest_ratio);
    lines.add("elements along", n_along);
    lines.add("longest", longest);
    lines.add("elements round a hole", n_round_hole);
}

} // namespace

std::string case_text(const job::Job& job, const std::string& program_version) {
    Lines lines;
    lines.add("flangewright", program_version);
    const auto& [title, sheet, blank, block, drive, lip, steps, annealed, heat_treated, trimmed_edge_finish, accuracy, close_share, scatter] =
        job;
    add_sheet(lines, sheet);
    add_blank(lines, blank);
    add_block(lines, block);
    add_drive(lines, drive);
    if (lip) {
        add_return_bend(lines, *lip);
    }
    add_steps(lines, steps);
    const auto has = [&job](job::StepKind kind) {
        return std::ranges::find(job.steps, kind) != job.steps.end();
    };
    if (has(job::StepKind::anneal)) {
        add_material(lines, "anneal.material", annealed);
    }
    if (has(job::StepKind::heat_treat)) {
        add_material(lines, "heat_treat.material", heat_treated);
    }
    // The blank's mesh has a row of nodes there from the first step on.
    lines.add("row at the net edge", has(job::StepKind::trim) ? "yes" : "no");
    add_mesh(lines, process::fineness_for(accuracy));
    return lines.text();
}

std::string text_of_first_steps(const std::string& text, std::size_t n_steps) {
    const std::string steps_key = "run.steps = ";
    std::vector<std::string> steps;
    std::string kept;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with(steps_key)) {
            std::istringstream words(line.substr(steps_key.size()));
            for (std::string word; steps.size() < n_steps && std::getline(words, word, ',');) {
                steps.push_back(word.substr(word.find_first_not_of(' ')));
            }
            kept += steps_key + fmt::format("{}", fmt::join(steps, ", ")) + "\n";
            continue;
        }
        const auto is_used = [&steps](job::StepKind kind) {
            return std::ranges::find(steps, process::name_of(kind)) != steps.end();
        };
        const bool is_left_out = (line.starts_with("anneal.") && !is_used(job::StepKind::anneal))
            || (line.starts_with("heat_treat.") && !is_used(job::StepKind::heat_treat));
        kept += is_left_out ? "" : line + "\n";
    }
    return kept;
}

std::string first_difference(const std::string& then, const std::string& now) {
    std::istringstream then_lines(then);
    std::istringstream now_lines(now);
    std::string was;
    std::string is;
    for (;;) {
        const bool has_was = static_cast<bool>(std::getline(then_lines, was));
        const bool has_is = static_cast<bool>(std::getline(now_lines, is));
        if (!has_was && !has_is) {
            return "";
        }
        if (!has_was || !has_is || was != is) {
            return fmt::format(
                "{} there, {} here",
                has_was ? key_file::excerpt(was) : "nothing",
                has_is ? key_file::excerpt(is) : "nothing"
            );
        }
    }
}

} // namespace flangewright::saved_state
