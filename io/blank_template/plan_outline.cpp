#include "io/blank_template/plan_outline.hpp"

#include <cmath>
#include <sstream>

namespace flangewright::blank_template {

namespace {

using Eigen::Vector2d;
using paper::Pen;

double turn_of(const outline::BendLine& line, double station) {
    const Eigen::Vector3d tangent = line.frame(station).tangent;
    return std::atan2(tangent.y(), tangent.x());
}

/// Broken between words into lines of at most so many bytes; a longer word stands alone.
std::vector<std::string> broken(const std::string& text, std::size_t most) {
    std::vector<std::string> lines;
    std::istringstream words(text);
    for (std::string word; words >> word;) {
        if (lines.empty() || lines.back().size() + 1 + word.size() > most) {
            lines.push_back(word);
        } else {
            lines.back() += " " + word;
        }
    }
    return lines;
}

} // namespace

std::vector<paper::Path>
outline_between(Pen pen, const job::Blank& blank, const Vertices& near, const Vertices& far) {
    const bool starts_free = blank.start == job::EndKind::free;
    const bool ends_free = blank.end == job::EndKind::free;
    if (starts_free && ends_free) {
        return {{pen, joined(near, reversed(far)), true}};
    }
    if (ends_free) {
        return {{pen, joined(near, reversed(far)), false}};
    }
    if (starts_free) {
        return {{pen, joined(reversed(near), far), false}};
    }
    return {{pen, near, false}, {pen, far, false}};
}

void add_middles(paper::Sheet& sheet, const job::Blank& blank, double near, double far) {
    constexpr double past = 5; // mm beyond the outline
    const bool is_half = blank.start != blank.end;
    const auto add = [&](double station) {
        sheet.add_line(
            Pen::middle,
            plan_point(blank.line, station, near - past),
            plan_point(blank.line, station, far + past)
        );
        constexpr double quarter = 1.5707963267948966;
        const double inward = station == 0 ? -1.5 : 3.5; // of the letters' feet, off the part
        const Vector2d along = blank.line.frame(station).tangent.head<2>();
        sheet.words.push_back(
            {plan_point(blank.line, station, 0.5 * (near + far)) + inward * along,
             is_half ? "middle: turn over here for the other half" : "the part goes on",
             2.4,
             turn_of(blank.line, station) + quarter,
             true}
        );
    };
    if (blank.start == job::EndKind::continues) {
        add(0);
    }
    if (blank.end == job::EndKind::continues) {
        add(blank.line.length());
    }
}

void add_head(paper::Sheet& sheet, const std::vector<std::string>& lines) {
    const paper::Extent drawn = sheet.extent();
    constexpr double title = 4.5; // mm
    constexpr double note = 2.6;
    constexpr double gap = 6;
    constexpr std::size_t title_length = 60; // letters: what a page is wide
    constexpr std::size_t note_length = 112;
    std::vector<paper::Words> head;
    bool is_title = true;
    double y = 0;
    for (const std::string& line : lines) {
        for (const std::string& part : broken(line, is_title ? title_length : note_length)) {
            y -= is_title ? 1.4 * title : 1.5 * note;
            head.push_back({{drawn.low.x(), y}, part, is_title ? title : note, 0, false});
        }
        is_title = false;
    }
    for (paper::Words& words : head) {
        words.at.y() += drawn.high.y() + gap - y;
        sheet.words.push_back(std::move(words));
    }
}

void add_holes(
    paper::Sheet& sheet, const outline::BendLine& line, const std::vector<outline::Hole>& holes
) {
    constexpr double past_rim = 1.5;
    for (const outline::Hole& hole : holes) {
        const Vector2d centre = plan_point(line, hole.station, hole.distance);
        const Vector2d along = line.frame(hole.station).tangent.head<2>();
        const Vector2d across(-along.y(), along.x());
        const double radius = 0.5 * hole.diameter;
        sheet.circles.push_back({Pen::hole, centre, radius});
        for (const Vector2d& arm : {along, across}) {
            const Vector2d reach = (radius + past_rim) * arm;
            sheet.add_line(Pen::hole, centre - reach, centre + reach);
        }
        if (hole.is_pin) {
            sheet.words.push_back({centre + Vector2d(radius + 2, radius + 1), "pin", 2.2, 0, false}
            );
        }
    }
}

} // namespace flangewright::blank_template
