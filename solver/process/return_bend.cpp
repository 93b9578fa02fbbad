#include "solver/process/return_bend.hpp"

#include "solver/findings/flange_development.hpp"
#include "solver/process/second_block.hpp"
#include "solver/process/set_on_block.hpp"
#include "solver/tooling/surface/form_block.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <limits>
#include <numbers>

namespace flangewright::process {

namespace {

using shell::dof_per_node;

constexpr int off_the_block = 2; // among a clamped node's axes
constexpr double square = 0.5 * std::numbers::pi;
constexpr double share_of_clamping = 0.2; // of the path, before the wiper comes
constexpr double plate_edge = 0.5; // radius of the edge opposite the nose, in thicknesses

/// A clamped node is led square to the block; along the line and along the flange it may slide.
void lead_flange_to_block(
    const Workpiece& piece,
    const SecondSection& section,
    const std::vector<int>& clamped,
    equilibrium::Problem& problem
) {
    for (const int node : clamped) {
        const auto at = static_cast<std::size_t>(node);
        const Eigen::Vector3d position = piece.state.positions.col(node);
        const outline::BendLine& line = piece.job.blank.line;
        const outline::LineFrame frame = line.frame(line.locate(position).station);
        const Eigen::Vector3d up = Eigen::Vector3d::UnitZ();
        Eigen::Matrix3d& axes = problem.node_axes[at];
        const auto in_space = [&](int axis) -> Eigen::Vector3d {
            return section.axes(0, axis) * frame.outward + section.axes(1, axis) * up;
        };
        axes.col(1) = in_space(0);
        axes.col(2) = in_space(1);
        axes.col(0) = axes.col(1).cross(axes.col(2));
        const double from = axes.col(off_the_block).dot(position);
        const double gap =
            in_second_section(piece, section, node)[1] - problem.half_thickness[node];
        problem.guides.push_back({node, off_the_block, from, from - gap});
        problem.is_fixed[at * dof_per_node + off_the_block] = true;
    }
}

// The clamped web does not slide.
void hold_web_edge(const Workpiece& piece, std::vector<bool>& is_fixed) {
    for (const int node : piece.mesh.web_edge) {
        is_fixed[static_cast<std::size_t>(node * dof_per_node + 1)] = true;
    }
    if (piece.job.blank.start == job::EndKind::free && piece.job.blank.end == job::EndKind::free) {
        const int middle = piece.mesh.web_edge[piece.mesh.web_edge.size() / 2];
        is_fixed[static_cast<std::size_t>(middle * dof_per_node)] = true;
    }
}

// Nodes by the tool they may touch.
struct Zones {
    std::vector<int> first_bend;
    std::vector<int> clamped;
    std::vector<int> lip;
};

Zones zones_of(const Workpiece& piece) {
    const double bend = findings::bend_allowance(piece.job) + piece.job.sheet.thickness;
    Zones zones;
    zones.clamped = clamped_flange(piece);
    std::vector<int> clamped = zones.clamped;
    std::ranges::sort(clamped);
    for (int node = 0; node < piece.mesh.n_nodes(); ++node) {
        const double distance = piece.mesh.distance[node];
        if (distance > -piece.job.block.backing_setback && distance < bend) {
            zones.first_bend.push_back(node);
        } else if (distance >= bend && !std::ranges::binary_search(clamped, node)) {
            zones.lip.push_back(node);
        }
    }
    return zones;
}

// The wiper starts clear of a lip that does not stand quite straight.
WiperStroke stroke_of(const job::Job& job) {
    const job::ReturnBend& lip = *job.return_bend;
    job::Drive drive;
    drive.clearance = lip.clearance;
    drive.corner_radius = lip.corner_radius;
    const double width = job.blank.lip_width + job.blank.trim_allowance;
    WiperStroke stroke = make_wiper(lip.nose_radius, drive, job.sheet.thickness, width);
    stroke.start += 0.1 * width;
    return stroke;
}

// The tools of the lip. While the flange is led home by guides they stay clear of a sheet that
// stands out or in, and close on it as it comes. Then blocks hold it: they are rigid, and a flange
// that has thinned toward its edge has play between them there.
class LipTools {
public:
    /// Guides in `problem` up to now stay; those of the flange are added to them.
    LipTools(const Workpiece& piece, const ContactChoice& contact, equilibrium::Problem& problem)
        : piece_(piece), section_(second_section(piece.job)), stroke_(stroke_of(piece.job)),
          zones_(zones_of(piece)), contact_(contact), n_guides_of_web_(problem.guides.size()) {
        const double nose_radius = piece.job.return_bend->nose_radius;
        block_ = placed(section_, std::make_shared<tooling::FormBlock>(nose_radius, square));
        wiper_ = placed(section_, stroke_.wiper);
        gap_ = contact.clamp_gap > 0 ? contact.clamp_gap : thickest(problem);
        plate_ = std::make_shared<tooling::MovedSurface>(
            std::make_shared<tooling::FormBlock>(plate_edge * piece.job.sheet.thickness, square),
            section_.axes * tooling::ShapeAxes(Eigen::Vector2d(1, -1).asDiagonal()),
            section_.origin
        );
        measure_room(problem);
        lead_flange_to_block(piece, section_, zones_.clamped, problem);
        guides_ = problem.guides;
    }

    [[nodiscard]] const SecondSection& section() const { return section_; }

    void move_to(double share, equilibrium::Problem& problem) const {
        const double clamped = std::min(1.0, share / share_of_clamping);
        const Eigen::Vector2d off = section_.axes.col(1);
        block_->move_to(section_.origin - (1 - clamped) * behind_ * off);
        plate_->move_to(section_.origin + (gap_ + (1 - clamped) * before_plate_) * off);
        wiper_->move_to(section_.origin + (1 - clamped) * above_ * off);
        stroke_.move_to(std::max(0.0, (share - share_of_clamping) / (1 - share_of_clamping)));
        guide(clamped, share <= share_of_clamping, problem);
    }

    [[nodiscard]] bool have_passed(const Workpiece& piece) const {
        double lowest = std::numeric_limits<double>::infinity();
        for (const int node : piece.mesh.free_edge) {
            lowest = std::min(lowest, in_second_section(piece, section_, node)[1]);
        }
        return stroke_.has_passed(lowest);
    }

    /// Form block under the flange's bend, second nose and its block, wiper, plate.
    [[nodiscard]] std::vector<tooling::SweptContact> contacts() const {
        const job::Job& job = piece_.job;
        return {
            contact(
                std::make_shared<tooling::FormBlock>(
                    job.block.nose_radius, findings::turned_angle(job)
                ),
                tooling::Face::block,
                zones_.first_bend
            ),
            contact(block_, section_.block_face(), past_bend()),
            contact(wiper_, section_.driven_face(), zones_.lip),
            contact(plate_, section_.driven_face(), zones_.clamped),
        };
    }

private:
    [[nodiscard]] std::vector<int> past_bend() const {
        std::vector<int> nodes = zones_.clamped;
        nodes.insert(nodes.end(), zones_.lip.begin(), zones_.lip.end());
        return nodes;
    }

    [[nodiscard]] double thickest(const equilibrium::Problem& problem) const {
        double most = 0;
        for (const int node : zones_.clamped) {
            most = std::max(most, 2 * problem.half_thickness[node]);
        }
        return most;
    }

    /// How far the tools must stand off at first.
    void measure_room(const equilibrium::Problem& problem) {
        for (const int node : past_bend()) {
            const double height = in_second_section(piece_, section_, node)[1];
            behind_ = std::max(behind_, problem.half_thickness[node] - height);
        }
        for (const int node : zones_.lip) {
            const double height = in_second_section(piece_, section_, node)[1];
            above_ = std::max(above_, height + problem.half_thickness[node] - stroke_.start);
        }
        for (const int node : zones_.clamped) {
            const double height = in_second_section(piece_, section_, node)[1];
            before_plate_ = std::max(before_plate_, height + problem.half_thickness[node] - gap_);
        }
    }

    void guide(double share, bool guides_flange, equilibrium::Problem& problem) const {
        problem.guided_share = share;
        problem.guides = guides_;
        for (std::size_t i = n_guides_of_web_; i < guides_.size(); ++i) {
            const int dof = guides_[i].node * dof_per_node + guides_[i].axis;
            problem.is_fixed[static_cast<std::size_t>(dof)] = guides_flange;
        }
        if (!guides_flange) {
            problem.guides.resize(n_guides_of_web_);
        }
    }

    [[nodiscard]] tooling::SweptContact contact(
        std::shared_ptr<const tooling::RigidSurface> surface,
        tooling::Face face,
        std::vector<int> nodes
    ) const {
        const job::Job& job = piece_.job;
        return {
            job.blank.line,
            std::move(surface),
            {contact_stiffness(job.sheet, contact_.stiffness_factor), contact_.ramp},
            face,
            std::move(nodes),
            job.block.friction,
            contact_stiffness(job.sheet, contact_.stick_factor)};
    }

    const Workpiece& piece_;
    SecondSection section_;
    WiperStroke stroke_;
    Zones zones_;
    ContactChoice contact_;
    std::shared_ptr<tooling::MovedSurface> block_;
    std::shared_ptr<tooling::MovedSurface> wiper_;
    std::shared_ptr<tooling::MovedSurface> plate_; ///< presses the flange on the block
    std::vector<equilibrium::Guide> guides_; ///< those of the web first
    std::size_t n_guides_of_web_;
    double gap_ = 0; ///< between block and plate
    double behind_ = 0; ///< how far the sheet stands behind the block's face
    double above_ = 0; ///< and the lip above the wiper's start
    double before_plate_ = 0; ///< and the flange in the plate's place
};

} // namespace

StepReport return_bend(
    Workpiece& piece,
    const ContactChoice& contact,
    const Monitor& monitor,
    const ShapeListener& listener,
    const StepKeeping& keeping
) {
    equilibrium::Problem problem = problem_of(piece);
    lead_web_down(piece, problem);
    const LipTools tools(piece, contact, problem);
    problem.contacts = tools.contacts();
    hold_web_edge(piece, problem.is_fixed);
    const double angle = piece.job.return_bend->angle;
    Fold fold{
        job::StepKind::return_bend,
        [&tools](equilibrium::Problem& now, double share) { tools.move_to(share, now); },
        [&tools](const Workpiece& now) { return lip_angle(now, tools.section()); },
        [&tools](const Workpiece& now) { return tools.have_passed(now); },
        angle,
        wiper_angle_most(angle)};
    fold.stops = {share_of_clamping};
    return follow_fold(piece, problem, fold, monitor, listener, keeping);
}

} // namespace flangewright::process
