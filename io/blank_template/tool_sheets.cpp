#include "io/blank_template/tool_sheets.hpp"

#include "io/blank_template/plan_outline.hpp"
#include "io/blank_template/tool_marks.hpp"
#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace flangewright::blank_template {

namespace {

using outline::Profile;
using paper::Pen;
using paper::Sheet;

/// Distance of the block's outline from the bend line.
Profile wall_distances(const job::Block& block) {
    const auto reach = [&block](double angle) {
        return block.nose_radius * std::sin(std::min(angle, square));
    };
    if (block.wall_angles.is_empty()) {
        return Profile({{0, reach(block.wall_angle)}});
    }
    std::vector<outline::ProfilePoint> points;
    for (const outline::ProfilePoint& point : block.wall_angles.points()) {
        points.push_back({point.station, reach(point.value)});
    }
    return Profile(std::move(points));
}

/// How the wall stands, in words.
std::string wall_words(const job::Block& block) {
    const auto words = [](double angle) {
        const double undercut = units::degrees(angle - square);
        if (std::abs(undercut) < 0.005) {
            return std::string("square");
        }
        return undercut > 0 ? fmt::format("undercut {:.3g} deg", undercut)
                            : fmt::format("leaning out {:.3g} deg", -undercut);
    };
    return block.wall_angles.is_empty()
        ? words(block.wall_angle)
        : words(block.wall_angles.least()) + " to " + words(block.wall_angles.most());
}

void add_pins(Sheet& sheet, const job::Blank& blank) {
    std::vector<outline::Hole> pins;
    std::ranges::copy_if(blank.openings.holes, std::back_inserter(pins), &outline::Hole::is_pin);
    add_holes(sheet, blank.line, pins);
}

Sheet plan_sheet(const TemplateRequest& request, Pen pen, const Profile& front) {
    const job::Blank& blank = request.job.blank;
    const Stretch whole{0, blank.line.length()};
    Sheet sheet;
    for (const paper::Path& path : outline_between(
             pen,
             blank,
             beside_line(blank.line, whole, -blank.web_width),
             beside_line(blank.line, whole, front)
         )) {
        sheet.paths.push_back(path);
    }
    sheet.paths.push_back({Pen::bend, beside_line(blank.line, whole, 0), false});
    add_middles(sheet, blank, -blank.web_width, front.most());
    add_pins(sheet, blank);
    return sheet;
}

} // namespace

Sheet form_block_sheet(const TemplateRequest& request) {
    const job::Block& block = request.job.block;
    Sheet sheet = plan_sheet(request, Pen::form_block, wall_distances(block));
    sheet.name = "form block";
    add_head(
        sheet,
        {"Form block, seen from above, its face up",
         request.job.title,
         "Full line past the bend line: where the nose of "
             + tables::shown_length(block.nose_radius, request.unit) + " ends in the wall; wall "
             + wall_words(block) + ". Long dashes: bend line.",
         "Its back may lie anywhere: drawn to the web's edge.",
         tool_caution}
    );
    return sheet;
}

Sheet backing_sheet(const TemplateRequest& request) {
    const double setback = request.job.block.backing_setback;
    Sheet sheet = plan_sheet(request, Pen::backing, Profile({{0, -setback}}));
    sheet.name = "backing block";
    add_head(
        sheet,
        {"Backing block, seen from above",
         request.job.title,
         setback > 0 ? "Its edge lies " + tables::shown_length(setback, request.unit)
                 + " behind the bend line (long dashes)."
                     : std::string("Its edge lies on the bend line."),
         tool_caution}
    );
    return sheet;
}

namespace {

/// One section: the face is level at y = 0, the wall falls to the right of x = 0.
class Section {
public:
    Section(const job::Job& job, double angle, double depth)
        : radius_(job.block.nose_radius), thickness_(job.sheet.thickness), angle_(angle),
          back_(-std::min(job.blank.web_width, 30.0)), setback_(job.block.backing_setback) {
        const double mould_setback = (radius_ + thickness_) * std::tan(0.5 * angle_);
        straight_ = std::max(thickness_, depth - mould_setback);
    }

    [[nodiscard]] Sheet drawn() const {
        Sheet sheet;
        sheet.paths.push_back({Pen::section, block(), true});
        sheet.paths.push_back({Pen::sheet, metal(), true});
        constexpr double height = 10;
        const double t = thickness_;
        sheet.paths.push_back(
            {Pen::section,
             {{{back_, t}, 0},
              {{-setback_, t}, 0},
              {{-setback_, t + height}, 0},
              {{back_, t + height}, 0}},
             true}
        );
        return sheet;
    }

private:
    /// A point of the nose, `off` outside its radius, `angle` round from the face.
    [[nodiscard]] Eigen::Vector2d round(double angle, double off) const {
        return {(radius_ + off) * std::sin(angle), (radius_ + off) * std::cos(angle) - radius_};
    }
    [[nodiscard]] Eigen::Vector2d down_wall() const {
        return {std::cos(angle_), -std::sin(angle_)};
    }
    [[nodiscard]] Vertices block() const {
        constexpr double past_flange = 8;
        const Eigen::Vector2d foot = round(angle_, 0) + (straight_ + past_flange) * down_wall();
        return {
            {{back_, 0}, 0},
            {{0, 0}, -std::tan(0.25 * angle_)},
            {round(angle_, 0), 0},
            {foot, 0},
            {{back_, foot.y()}, 0}};
    }
    [[nodiscard]] Vertices metal() const {
        const double bulge = std::tan(0.25 * angle_);
        const Eigen::Vector2d edge = straight_ * down_wall();
        return {
            {{back_, 0}, 0},
            {{0, 0}, -bulge},
            {round(angle_, 0), 0},
            {round(angle_, 0) + edge, 0},
            {round(angle_, thickness_) + edge, 0},
            {round(angle_, thickness_), bulge},
            {{0, thickness_}, 0},
            {{back_, thickness_}, 0}};
    }

    double radius_;
    double thickness_;
    double angle_;
    double back_;
    double setback_;
    double straight_ = 0;
};

std::vector<double> section_stations(const job::Job& job) {
    const std::vector<outline::ProfilePoint>& points = job.block.wall_angles.points();
    if (points.empty()) {
        return {0.5 * job.blank.line.length()};
    }
    constexpr std::size_t most = 6;
    const std::size_t n = std::min(most, points.size());
    std::vector<double> stations;
    for (std::size_t i = 0; i < n; ++i) {
        stations.push_back(points[n == 1 ? 0 : i * (points.size() - 1) / (n - 1)].station);
    }
    return stations;
}

} // namespace

Sheet section_sheet(const TemplateRequest& request, const Profile& wanted) {
    const job::Job& job = request.job;
    const units::LengthUnit unit = request.unit;
    Sheet sheet;
    sheet.name = "section";
    for (const double station : section_stations(job)) {
        const double depth = wanted.at(station);
        const bool is_one = job.block.wall_angles.is_empty();
        // As it is stated: the block's own corner is rounded.
        const double angle = is_one ? job.block.wall_angle : job.block.wall_angles.at(station);
        Sheet one = Section(job, angle, depth).drawn();
        job::Block there;
        there.wall_angle = angle;
        const paper::Extent own = one.extent();
        double y = own.low.y() - 4;
        for (const std::string& line : std::vector<std::string>{
                 is_one ? "all along" : "station " + tables::brief_length(station, unit),
                 fmt::format("wall turned {:.3g} deg: ", units::degrees(angle)) + wall_words(there),
                 "flange depth " + tables::brief_length(depth, unit)}) {
            one.words.push_back({{own.low.x(), y}, line, 2.4, 0, false});
            y -= 3.6;
        }
        const double x = sheet.paths.empty() ? 0 : sheet.extent().high.x() + 15 - own.low.x();
        sheet.add(one, {x, 0});
    }
    const double setback = job.block.backing_setback;
    add_head(
        sheet,
        {"Section across nose and wall, real size",
         job.title,
         "Nose radius " + tables::shown_length(job.block.nose_radius, unit) + ", sheet "
             + tables::shown_length(job.sheet.thickness, unit) + ", backing set back "
             + tables::shown_length(setback, unit) + ".",
         tool_caution}
    );
    return sheet;
}

} // namespace flangewright::blank_template
