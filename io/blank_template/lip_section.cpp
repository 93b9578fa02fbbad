#include "io/blank_template/lip_section.hpp"

#include "io/blank_template/tool_marks.hpp"
#include "mesh/base/check.hpp"
#include "solver/findings/flange_development.hpp"
#include "solver/findings/lip_development.hpp"
#include "solver/process/second_block.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace flangewright::blank_template {

namespace {

constexpr double past_lip = 8; // mm of block beyond the lip's edge

/// Bulge of an arc that turns by an angle to the right.
double right(double angle) {
    return -std::tan(0.25 * angle);
}

} // namespace

LipSection::LipSection(const job::Job& job, double back)
    : back_(back), nose_radius_(job.block.nose_radius), thickness_(job.sheet.thickness),
      wall_(findings::turned_angle(job)), down_(std::cos(wall_), -std::sin(wall_)),
      out_(std::sin(wall_), std::cos(wall_)) {
    check(job.return_bend.has_value(), "a section with a lip");
    const job::ReturnBend& lip = *job.return_bend;
    is_under_ = lip.side == job::LipSide::under_web;
    lip_radius_ = lip.nose_radius;
    turn_ = lip.angle;
    setback_ = findings::lip_setback(job);
    straight_ = std::max(thickness_, lip.lip_depth - setback_);
    const process::SecondSection section = process::second_section(job);
    axes_ = section.axes;
    origin_ = section.origin;
}

Eigen::Vector2d LipSection::round(double angle, double off) const {
    return {
        (nose_radius_ + off) * std::sin(angle),
        (nose_radius_ + off) * std::cos(angle) - nose_radius_};
}

Eigen::Vector2d LipSection::place(double angle, double off) const {
    const Eigen::Vector2d own(
        (lip_radius_ + off) * std::sin(angle), (lip_radius_ + off) * std::cos(angle) - lip_radius_
    );
    return origin_ + axes_ * own;
}

Eigen::Vector2d LipSection::along_lip() const {
    return axes_ * Eigen::Vector2d(std::cos(turn_), -std::sin(turn_));
}

Eigen::Vector2d LipSection::nose_end() const {
    return place(square, 0);
}

double LipSection::foot() const {
    return is_under_ ? nose_end().y() : place(0, thickness_).y();
}

Vertices LipSection::form_block() const {
    Vertices block{{{back_, 0}, 0}, {{0, 0}, right(wall_)}, {round(wall_, 0), 0}};
    if (!is_under_) { // the wall ends where the lip leaves it
        const Eigen::Vector2d foot = place(0, thickness_);
        block.push_back({foot, 0});
        block.push_back({{back_, foot.y()}, 0});
        return block;
    }
    block.push_back({nose_begin(), right(square)});
    block.push_back({nose_end(), 0});
    const double to_back = (nose_end().x() - back_) / out_.x();
    block.push_back({nose_end() - to_back * out_, 0});
    return block;
}

Vertices LipSection::outer_block() const {
    if (is_under_) {
        return {};
    }
    const double wide = lip_radius_ + straight_ + past_lip;
    const Eigen::Vector2d top = round(wall_, thickness_);
    return {
        {top, 0},
        {nose_begin(), -right(square)},
        {nose_end(), 0},
        {nose_begin() + lip_radius_ * down_ + wide * out_, 0},
        {top + wide * out_, 0}};
}

Vertices LipSection::sheet() const {
    const double inner = is_under_ ? 0 : thickness_; // off the lip's block
    const double outer = thickness_ - inner;
    const double bulge = is_under_ ? right(turn_) : -right(turn_);
    const Eigen::Vector2d lip = straight_ * along_lip();
    return {
        {{back_, 0}, 0},
        {{0, 0}, right(wall_)},
        {round(wall_, 0), 0},
        {place(0, inner), bulge},
        {place(turn_, inner), 0},
        {place(turn_, inner) + lip, 0},
        {place(turn_, outer) + lip, 0},
        {place(turn_, outer), -bulge},
        {place(0, outer), 0},
        {round(wall_, thickness_), -right(wall_)},
        {{0, thickness_}, 0},
        {{back_, thickness_}, 0}};
}

Eigen::Vector2d LipSection::upper_corner() const {
    return {(nose_radius_ + thickness_) * std::tan(0.5 * wall_), thickness_};
}

Eigen::Vector2d LipSection::lower_corner() const {
    return place(0, thickness_) + setback_ * down_;
}

Eigen::Vector2d LipSection::lip_edge() const {
    return place(turn_, thickness_) + straight_ * along_lip();
}

} // namespace flangewright::blank_template
