#include "io/blank_template/blank_sheet.hpp"

#include "io/blank_template/plan_outline.hpp"
#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"
#include "solver/findings/flange_development.hpp"
#include "solver/findings/lip_development.hpp"
#include "solver/process/outline_guess.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace flangewright::blank_template {

namespace {

using Eigen::Vector2d;
using outline::BendLine;
using outline::Profile;
using paper::Pen;
using paper::Sheet;

void add_path(Sheet& sheet, Pen pen, Vertices vertices) {
    sheet.paths.push_back({pen, std::move(vertices), false});
}

void add_outlines(Sheet& sheet, const TemplateRequest& request) {
    const job::Blank& blank = request.job.blank;
    const Stretch whole{0, blank.line.length()};
    const Vertices web = beside_line(blank.line, whole, -blank.web_width);
    for (const paper::Path& path : outline_between(
             Pen::cut, blank, web, free_edge(blank.line, request.cut(), blank.openings)
         )) {
        sheet.paths.push_back(path);
    }
    if (request.is_trimmed()) {
        add_path(sheet, Pen::net, beside_line(blank.line, whole, request.net));
    }
    add_path(sheet, Pen::bend, beside_line(blank.line, whole, 0));
    add_path(sheet, Pen::tangent, beside_line(blank.line, whole, flange_tangents(request.job)));
    if (request.job.return_bend) {
        const Profile begin = process::guessed_lip_begins(request.job);
        const double round_nose = findings::lip_bend_allowance(request.job);
        add_path(sheet, Pen::tangent, beside_line(blank.line, whole, begin));
        add_path(sheet, Pen::tangent, beside_line(blank.line, whole, begin, round_nose));
    }
}

/// Distance between marks, in the shop's unit, so that there are no more than some forty.
double mark_distance(double length, units::LengthUnit unit) {
    const bool is_inch = unit == units::LengthUnit::inch;
    const std::array<double, 5> mm{5, 10, 20, 50, 100};
    const std::array<double, 5> inches{0.25, 0.5, 1, 2, 5};
    for (std::size_t i = 0; i < mm.size(); ++i) {
        const double distance = units::length_of(is_inch ? inches.at(i) : mm.at(i), unit);
        if (length / distance <= 40) {
            return distance;
        }
    }
    return length / 40;
}

void add_stations(Sheet& sheet, const TemplateRequest& request) {
    const BendLine& line = request.job.blank.line;
    const double distance = mark_distance(line.length(), request.unit);
    const Profile cut = request.cut();
    constexpr double half_mark = 1.5;
    constexpr double at_edge = 3;
    for (int i = 0; i * distance <= line.length() + 1e-6; ++i) {
        const double station = std::min(i * distance, line.length());
        const double width = cut.at(station);
        sheet.add_line(
            Pen::station,
            plan_point(line, station, -half_mark),
            plan_point(line, station, half_mark)
        );
        sheet.add_line(
            Pen::station,
            plan_point(line, station, width - at_edge),
            plan_point(line, station, width)
        );
        const Eigen::Vector3d tangent = line.frame(station).tangent;
        sheet.words.push_back(
            {plan_point(line, station, -half_mark - 3),
             fmt::format("{:g}", tables::in_unit(i * distance, request.unit)),
             2.2,
             std::atan2(tangent.y(), tangent.x()),
             true}
        );
    }
}

void add_grain(Sheet& sheet, const job::Job& job) {
    const job::Blank& blank = job.blank;
    const outline::LineFrame frame = blank.line.frame(blank.middle_of_part());
    const double angle = job.sheet.rolling_direction;
    const Vector2d along =
        (std::cos(angle) * frame.tangent + std::sin(angle) * frame.outward).head<2>();
    const Vector2d centre =
        plan_point(blank.line, 0.5 * blank.line.length(), -0.6 * blank.web_width);
    const double half = 0.5 * std::min({30.0, 0.7 * blank.line.length(), 0.7 * blank.web_width});
    const Vector2d across(-along.y(), along.x());
    for (const double side : {-1.0, 1.0}) { // either way along the grain is the same
        const Vector2d tip = centre + side * half * along;
        sheet.add_line(Pen::grain, centre, tip);
        for (const double barb : {-1.0, 1.0}) {
            sheet.add_line(
                Pen::grain, tip, tip - side * 0.25 * half * along + barb * 0.1 * half * across
            );
        }
    }
    sheet.words.push_back(
        {centre + 0.2 * half * across + 1.0 * across,
         "grain",
         2.4,
         std::atan(along.y() / (std::abs(along.x()) > 1e-9 ? along.x() : 1e-9)),
         true}
    );
}

/// Holes of the flange bear the number the notes call them by.
void add_hole_numbers(Sheet& sheet, const job::Blank& blank) {
    const std::vector<outline::Hole>& holes = blank.openings.holes;
    for (std::size_t i = 0; i < holes.size(); ++i) {
        if (holes[i].distance > 0) {
            const double off = 0.5 * holes[i].diameter + 1;
            const Vector2d centre = plan_point(blank.line, holes[i].station, holes[i].distance);
            sheet.words.push_back(
                {centre + Vector2d(off, off), fmt::format("hole {}", i + 1), 2.2, 0, false}
            );
        }
    }
}

std::vector<std::string> head_of(const TemplateRequest& request) {
    const job::Job& job = request.job;
    const units::LengthUnit unit = request.unit;
    std::vector<std::string> lines{job.title, "Blank, flat, seen from its outer side"};
    lines.back() += job.blank.start != job.blank.end ? ": one half of the part" : "";
    lines.push_back(
        "Sheet: " + job.sheet.material.name + ", " + tables::shown_length(job.sheet.thickness, unit)
        + " thick. Nose radius " + tables::shown_length(job.block.nose_radius, unit) + "."
    );
    if (request.shows_grain) {
        lines.back() += fmt::format(
            " Grain {:g} deg from the bend line.", units::degrees(job.sheet.rolling_direction)
        );
    }
    lines.emplace_back("Full line: cut here. Long dashes: bend line, the bend tangent in the web. "
                       "Dots: bend tangent in the flange.");
    if (job.return_bend) {
        lines.emplace_back(
            "Further dots: bend tangents of the lip, by hand; the lip's block decides "
            "where it bends."
        );
    }
    if (request.is_trimmed()) {
        lines.push_back(
            "Short dashes: net edge; what lies beyond ("
            + tables::brief_length(job.blank.trim_allowance, unit) + ") is trimmed off "
            + (job.return_bend ? "as the steps say." : "after forming.")
        );
    }
    lines.push_back(
        "Numbers: station along the bend line, " + tables::unit_word(unit) + ". Ink, never scribe."
    );
    lines.insert(lines.end(), request.notes.begin(), request.notes.end());
    lines.emplace_back(
        "Print at 100 %, not fitted to the page; check both bars with a rule before you cut."
    );
    lines.emplace_back("A forming estimate: the drawing and approved data decide. Form a trial "
                       "piece of the same sheet first.");
    return lines;
}

} // namespace

Profile flange_tangents(const job::Job& job) {
    const Profile& walls = job.block.wall_angles;
    if (walls.is_empty()) {
        return Profile({{0, findings::bend_allowance(job)}});
    }
    std::vector<outline::ProfilePoint> points;
    job::Job there = job;
    for (const outline::ProfilePoint& point : walls.points()) {
        there.block.wall_angle = point.value;
        points.push_back({point.station, findings::bend_allowance(there)});
    }
    return Profile(std::move(points));
}

Sheet blank_sheet(const TemplateRequest& request) {
    const job::Blank& blank = request.job.blank;
    Sheet sheet;
    sheet.name = "blank";
    add_outlines(sheet, request);
    add_middles(sheet, blank, -blank.web_width, request.cut().most());
    add_stations(sheet, request);
    add_holes(sheet, blank.line, blank.openings.holes);
    add_hole_numbers(sheet, blank);
    if (request.shows_grain) {
        add_grain(sheet, request.job);
    }
    add_head(sheet, head_of(request));
    return sheet;
}

} // namespace flangewright::blank_template
