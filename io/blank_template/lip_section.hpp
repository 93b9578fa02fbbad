// The lip's block and the sheet round both noses, cut across.
#pragma once

#include "io/blank_template/plan_path.hpp"
#include "solver/job/job.hpp"

namespace flangewright::blank_template {

/// The section with a lip: the form block's face is level at y = 0, its bend line at x = 0, the
/// flange falls to the right. Lengths in mm.
class LipSection {
public:
    /// Tools and web are drawn back to `back`, below zero.
    LipSection(const job::Job& job, double back);

    [[nodiscard]] bool is_under_web() const { return is_under_; }
    [[nodiscard]] double back() const { return back_; }
    /// Where the lip's nose begins in the face that the flange lies on, and where it ends.
    [[nodiscard]] Eigen::Vector2d nose_begin() const { return place(0, 0); }
    [[nodiscard]] Eigen::Vector2d nose_end() const;
    /// Height of the form block's lower face at its nose; under the web the lip's. Below zero.
    [[nodiscard]] double foot() const;
    /// Form block; under the web its lower edge is the lip's nose. Closed.
    [[nodiscard]] Vertices form_block() const;
    /// Block outside the flange that turns a lip away from the web; none under the web. Closed.
    [[nodiscard]] Vertices outer_block() const;
    /// Web, flange and lip as they lie on the blocks. Closed.
    [[nodiscard]] Vertices sheet() const;
    /// Outside corners: of web and flange, of flange and lip; and the lip's edge on that outside.
    [[nodiscard]] Eigen::Vector2d upper_corner() const;
    [[nodiscard]] Eigen::Vector2d lower_corner() const;
    [[nodiscard]] Eigen::Vector2d lip_edge() const;
    /// Down the flange, and off it away from the web.
    [[nodiscard]] Eigen::Vector2d down() const { return down_; }
    [[nodiscard]] Eigen::Vector2d out() const { return out_; }

private:
    [[nodiscard]] Eigen::Vector2d round(double angle, double off) const;
    [[nodiscard]] Eigen::Vector2d place(double angle, double off) const;
    [[nodiscard]] Eigen::Vector2d along_lip() const;

    bool is_under_ = true;
    double back_ = 0;
    double nose_radius_ = 0;
    double lip_radius_ = 0;
    double thickness_ = 0;
    double wall_ = 0; ///< angle the flange is turned through
    double turn_ = 0; ///< and the lip from it
    double straight_ = 0; ///< of the lip, past its bend
    double setback_ = 0; ///< lip's bend tangent to the outside corner
    Eigen::Vector2d down_;
    Eigen::Vector2d out_;
    Eigen::Matrix2d axes_; ///< of the second nose: along the flange, off its block
    Eigen::Vector2d origin_; ///< the lip's bend tangent on the block
};

} // namespace flangewright::blank_template
