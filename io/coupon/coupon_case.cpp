#include "io/coupon/coupon_case.hpp"

#include "io/key_file/excerpt.hpp"
#include "io/units/angle.hpp"
#include "solver/process/drive_passes.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>
#include <sstream>

namespace flangewright::coupon {

namespace {

using key_file::InputProblem;

/// "[sheet.material]" gives "sheet.material"; nothing for a line that begins no section. A row of
/// numbers in a list begins with a bracket, too.
std::string_view section_of(std::string_view line) {
    line.remove_prefix(std::min(line.find_first_not_of(" \t"), line.size()));
    if (line.size() < 2 || line[0] != '['
        || std::isalpha(static_cast<unsigned char>(line[1])) == 0) {
        return {};
    }
    return line.substr(1, line.find(']') - 1);
}

/// All sections of the sheet, word for word.
std::string sheet_sections(std::string_view own_text) {
    std::istringstream lines{std::string(own_text)};
    std::string kept;
    bool is_sheet = false;
    for (std::string line; std::getline(lines, line);) {
        if (const std::string_view section = section_of(line); !section.empty()) {
            is_sheet = section == "sheet" || section.starts_with("sheet.");
        }
        kept += is_sheet ? line + "\n" : "";
    }
    kept.erase(std::min(kept.find_last_not_of('\n') + 2, kept.size()));
    return kept;
}

std::string length(const char* key, double value) {
    return fmt::format("{} = \"{:.6g} mm\"\n", key, value);
}

std::string degrees(const char* key, double angle) {
    return fmt::format("{} = {:.6g}\n", key, units::degrees(angle));
}

std::string line_section(const TestFlange& flange) {
    std::string text = "\n[bend_line]\ncurve = \"chain\"\npieces = [\n";
    for (std::size_t i = 0; i < flange.steps.size(); ++i) {
        const FlangeStep& step = flange.steps[i];
        const bool is_end = i == 0 || i + 1 == flange.steps.size();
        const double turn = (step.length + (is_end ? flange.run_out : 0)) / step.radius;
        text += fmt::format(
            "    {{ concave = \"{:g} mm\", sweep = {:.5f} }}, # edge stretch by hand {:.1f} %\n",
            step.radius,
            units::degrees(turn),
            100 * step.stretch
        );
    }
    return text + "]\n";
}

std::string blank_section(const job::Job& job, const TestFlange& flange) {
    std::string text = "\n[blank]\n" + length("web_width", flange.web_width)
        + length("flat_width", flange.flat_width) + "start = \"free\"\nend = \"free\"\n";
    return job.blank.edge_finish
        ? text + "edge = \"" + material::word_for(*job.blank.edge_finish) + "\"\n"
        : text;
}

std::string tool_sections(const job::Job& job) {
    std::string text = "\n[block]\n" + length("nose_radius", job.block.nose_radius)
        + degrees("wall_angle", job.block.wall_angle)
        + length("backing_setback", job.block.backing_setback)
        + fmt::format("friction = {:g}\n", job.block.friction);
    const bool is_wiper = job.drive.kind == job::DriveKind::wiper;
    text += fmt::format("\n[drive]\nkind = \"{}\"\n", is_wiper ? "wiper" : "leaf")
        + (is_wiper ? length("corner_radius", job.drive.corner_radius) : "")
        + fmt::format("clearance = {:g}\n", job.drive.clearance)
        + degrees("angle", job.drive.angle);
    if (!job.drive.passes.empty()) {
        std::vector<std::string> passes;
        for (const double angle : job.drive.passes) {
            passes.push_back(fmt::format("{:.6g}", units::degrees(angle)));
        }
        text += fmt::format("passes = [{}]\n", fmt::join(passes, ", "));
    }
    if (job.drive.order != job::DriveOrder::evenly) {
        text += "order = \"" + process::word_for(job.drive.order) + "\"\n"
            + length("front", job.drive.front);
    }
    return text;
}

std::string run_section(job::Accuracy accuracy) {
    const char* word = accuracy == job::Accuracy::quick ? "quick"
        : accuracy == job::Accuracy::fine               ? "fine"
                                                        : "normal";
    return fmt::format("\n[run]\naccuracy = \"{}\"\n", word);
}

} // namespace

Result<std::string, InputProblem> coupon_case(
    const case_file::CaseFile& own,
    std::string_view own_text,
    const TestFlange& flange,
    const std::string& file
) {
    const std::string sheet = sheet_sections(own_text);
    if (sheet.empty()) {
        return tl::unexpected(InputProblem{
            file,
            0,
            0,
            "sheet",
            "a sheet in another form",
            "a section [sheet] with its keys below it",
            "write the sheet as a section, so that it can be taken over word for word"});
    }
    const bool is_inch = own.unit == units::LengthUnit::inch;
    return "# Written by flangewright coupon write for \"" + key_file::on_one_line(own.job.title)
        + "\".\n# A trial flange that finds what this edge bears: no part, and not approved data.\n"
          "title = \"Test flange, radius falling in steps\"\nunit = \""
        + (is_inch ? "in" : "mm") + "\"\n\n" + sheet + line_section(flange)
        + blank_section(own.job, flange) + tool_sections(own.job) + run_section(own.job.accuracy);
}

} // namespace flangewright::coupon
