#include "solver/limits/groove.hpp"

#include <Eigen/Core>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>

namespace flangewright::limits {

namespace {

using Vector = Eigen::Vector3d;

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double smallest_stretch = 1e-9;
constexpr double converged = 1e-9;
constexpr int n_iterations_most = 15;
constexpr int n_closer_most = 60;
constexpr double stress_most = 4; // over the flow stress: beyond any plane stress at yield
// Of the groove's flow over an increment: a half is more exact, yet swings from one increment to
// the next.
constexpr double weight_of_end = 0.6;
constexpr double finest_step = 0.05;
constexpr double largest_jump = 1; // of strain in the groove alone

/// Strain and thickness of one of the two, sheet or groove.
struct Zone {
    double equivalent = 0;
    double log_thickness = 0;
};

/// Directions of the groove in the sheet as it is now, as they act on stresses and strains.
struct GrooveAxes {
    Vector normal; ///< strain square to the groove; stress of that kind
    Vector tangent;
    Vector shear; ///< stress of that kind
    Vector take_normal; ///< component of a stress
    Vector take_tangent;
    Vector take_shear;

    explicit GrooveAxes(const Eigen::Vector2d& t) {
        const Eigen::Vector2d n(t.y(), -t.x());
        normal = {n.x() * n.x(), n.y() * n.y(), n.x() * n.y()};
        tangent = {t.x() * t.x(), t.y() * t.y(), t.x() * t.y()};
        shear = {2 * n.x() * t.x(), 2 * n.y() * t.y(), n.x() * t.y() + n.y() * t.x()};
        take_normal = {normal[0], normal[1], 2 * normal[2]};
        take_tangent = {tangent[0], tangent[1], 2 * tangent[2]};
        take_shear = {0.5 * shear[0], 0.5 * shear[1], shear[2]};
    }
};

/// How the groove's strain goes at the end of an increment: per equivalent strain.
struct GrooveFlow {
    double along = 0; ///< along the groove
    double thinning = 0;
};

/// One increment: the sheet takes the share 1 - w of `step`, the groove w. Unknown are w and the
/// stress along the groove.
class Increment {
public:
    /// `before` is the flow at the beginning, where it is that of the same stretch: strain then
    /// goes by a mean of both, else by that at the end.
    Increment(
        const NeckingSheet& sheet,
        const PathStretch& stretch,
        const GrooveAxes& axes,
        const std::array<Zone, 2>& zones,
        const std::optional<GrooveFlow>& before
    )
        : sheet_(sheet), stretch_(stretch), axes_(axes), outside_(zones[0]), inside_(zones[1]),
          before_(before), along_(axes.tangent.dot(stretch.rate)),
          normal_stress_(axes.take_normal.dot(stretch.stress)),
          shear_stress_(axes.take_shear.dot(stretch.stress)) {
        thinning_ = before ? before->thinning : stretch.thinning();
    }

    /// Newton's method from w and stress; false when it does not get there.
    bool solve(double step, double& w, double& stress);
    /// By brackets, slow and sure. False when the groove would take all.
    bool bracket(double step, double& w, double& stress);
    /// How much more the groove, strained alone by `step`, bears than the sheet carries: part of
    /// its flow stress.
    double bearing(double step, double& stress) {
        step_ = step;
        return -flow_misfit_at(1, stress);
    }
    /// Flow of the last look.
    [[nodiscard]] GrooveFlow flow() const { return {along_inside_, end_thinning_}; }
    /// Log strain of the groove's thickness in this increment, of which it takes w.
    [[nodiscard]] double thinning_inside(double w) const { return step_ * w * thinning_; }

private:
    /// Misfit of flow and of length along the groove, and their derivatives over w and stress.
    struct Misfit {
        double flow = 0, length = 0;
        double flow_w = 0, flow_s = 0, length_w = 0, length_s = 0;
    };
    Misfit misfit(double w, double stress);
    double flow_misfit_at(double w, double& stress);

    const NeckingSheet& sheet_;
    const PathStretch& stretch_;
    const GrooveAxes& axes_;
    const Zone& outside_;
    const Zone& inside_;
    const std::optional<GrooveFlow>& before_;
    double step_ = 0;
    double along_; ///< strain along the groove per equivalent strain of the sheet
    double normal_stress_;
    double shear_stress_;
    double thinning_; ///< of the groove over the increment, per its equivalent strain; last look
    double end_thinning_ = 0;
    double along_inside_ = 0;
};

Increment::Misfit Increment::misfit(double w, double stress) {
    const material::FlowStress out = sheet_.hardening.at(outside_.equivalent + step_ * (1 - w));
    const material::FlowStress in = sheet_.hardening.at(inside_.equivalent + step_ * w);
    // Force across the groove: what the sheet carries on its thickness, over the groove's.
    const double q = out.stress / in.stress
        * std::exp(outside_.log_thickness - step_ * (1 - w) * stretch_.thinning()
                   - inside_.log_thickness + step_ * w * thinning_);
    const double q_w = q * step_
        * (stretch_.thinning() + thinning_ - out.slope / out.stress - in.slope / in.stress);
    const Vector carried = normal_stress_ * axes_.normal + shear_stress_ * axes_.shear;
    const material::YieldPoint at = sheet_.yield.at(q * carried + stress * axes_.tangent);
    end_thinning_ = at.gradient[0] + at.gradient[1];
    along_inside_ = at.gradient.dot(axes_.tangent);
    const double part = before_ ? weight_of_end : 1;
    thinning_ = part * end_thinning_ + (before_ ? (1 - part) * before_->thinning : 0);
    const double along = part * along_inside_ + (before_ ? (1 - part) * before_->along : 0);
    const Vector turned = at.curvature * axes_.tangent;
    Misfit misfit;
    misfit.flow = at.stress - 1;
    misfit.flow_w = at.gradient.dot(carried) * q_w;
    misfit.flow_s = along_inside_;
    misfit.length = w * along - (1 - w) * along_;
    misfit.length_w = along + along_ + w * part * turned.dot(carried) * q_w;
    misfit.length_s = w * part * turned.dot(axes_.tangent);
    return misfit;
}

bool Increment::solve(double step, double& w, double& stress) {
    step_ = step;
    for (int i = 0; i < n_iterations_most; ++i) {
        const double thinning_before = thinning_;
        const Misfit now = misfit(w, stress);
        if (std::abs(now.flow) + std::abs(now.length) < converged
            && std::abs(step_ * (thinning_ - thinning_before)) < converged) {
            return w >= 0 && w < 1;
        }
        const double det = now.flow_w * now.length_s - now.flow_s * now.length_w;
        const double move_w = (-now.flow * now.length_s + now.length * now.flow_s) / det;
        const double move_s = (-now.length * now.flow_w + now.flow * now.length_w) / det;
        if (!std::isfinite(move_w) || !std::isfinite(move_s)) {
            return false;
        }
        // No further than the middle between here and the end of the range.
        w = std::clamp(w + move_w, 0.5 * w, 0.5 * (w + 1));
        stress += std::clamp(move_s, -0.5, 0.5);
    }
    return false;
}

/// Where `f`, which rises through zero between `low` and `high`, is zero: false position, with the
/// value of an end that stays halved each time.
template <typename F>
double rising_root(const F& f, double low, double high, double tolerance) {
    double at_low = f(low);
    double at_high = f(high);
    double middle = 0.5 * (low + high);
    int side = 0;
    for (int i = 0; i < n_closer_most && high - low > tolerance; ++i) {
        const bool can_aim = at_low < 0 && at_high > 0 && std::isfinite(at_high - at_low);
        middle =
            can_aim ? (low * at_high - high * at_low) / (at_high - at_low) : 0.5 * (low + high);
        const double now = f(middle);
        if (std::abs(now) < 0.1 * converged) {
            break;
        }
        if (now < 0) {
            low = middle;
            at_low = now;
            at_high *= side < 0 ? 0.5 : 1;
            side = -1;
        } else {
            high = middle;
            at_high = now;
            at_low *= side > 0 ? 0.5 : 1;
            side = 1;
        }
    }
    return middle;
}

/// Misfit of flow with the stress along the groove that keeps the lengths alike; infinity when no
/// stress does.
double Increment::flow_misfit_at(double w, double& stress) {
    const auto length = [&](double along) { return misfit(w, along).length; };
    stress = rising_root(length, -stress_most, stress_most, 1e-12);
    const Misfit found = misfit(w, stress);
    if (std::abs(found.length) < 1e-6) {
        return found.flow;
    }
    return infinity;
}

bool Increment::bracket(double step, double& w, double& stress) {
    step_ = step;
    if (flow_misfit_at(1, stress) > 0) {
        return false;
    }
    // A groove that does nothing would have to bear too much, one that does all bears it.
    w = rising_root([&](double part) { return -flow_misfit_at(part, stress); }, 0, 1, 1e-12);
    flow_misfit_at(w, stress);
    return true;
}

/// Follows sheet and groove along the path.
class GrooveWalk {
public:
    GrooveWalk(const NeckingSheet& sheet, double normal, const GrooveChoice& choice)
        : sheet_(sheet), choice_(choice), tangent_(-std::sin(normal), std::cos(normal)),
          predicted_(0.5 * choice.step) {
        zones_[1].log_thickness = std::log(choice.thickness_ratio);
    }

    /// Equivalent strain at the neck if it comes within `length` of this stretch.
    std::optional<double> walk(const PathStretch& stretch, double length);

private:
    void follow(const PathStretch& stretch, double length);
    bool step(const PathStretch& stretch, double left);
    bool step_within(Increment& increment, double left);
    bool strain_groove_alone(Increment& increment);
    [[nodiscard]] Eigen::Vector2d turned(const PathStretch& stretch, double length) const;

    const NeckingSheet& sheet_;
    const GrooveChoice& choice_;
    Eigen::Vector2d tangent_;
    std::array<Zone, 2> zones_; ///< sheet, groove
    std::optional<GrooveFlow> flow_; ///< of the groove on this stretch
    double w_ = 0.5;
    double stress_ = 0; ///< in the groove along itself, over its flow stress
    double predicted_; ///< strain of the sheet in the next increment
};

Eigen::Vector2d GrooveWalk::turned(const PathStretch& stretch, double length) const {
    Eigen::Matrix2d rate;
    rate << stretch.rate[0], 0.5 * stretch.rate[2], 0.5 * stretch.rate[2], stretch.rate[1];
    return (tangent_ + length * (rate * tangent_)).normalized();
}

/// The groove is strained as the sheet is.
void GrooveWalk::follow(const PathStretch& stretch, double length) {
    tangent_ = turned(stretch, length);
    for (Zone& zone : zones_) {
        zone.equivalent += length;
        zone.log_thickness -= length * stretch.thinning();
    }
}

/// Where the path turns the groove may have to catch up before sheet and groove flow together.
/// False when no strain of it helps: that is the neck.
bool GrooveWalk::strain_groove_alone(Increment& increment) {
    double enough = choice_.step;
    double stress = stress_;
    while (increment.bearing(enough, stress) < 0) {
        enough *= 2;
        if (enough > largest_jump) {
            return false;
        }
    }
    enough = rising_root(
        [&](double strain) { return increment.bearing(strain, stress); }, 0, enough, 1e-9
    );
    increment.bearing(enough, stress);
    zones_[1].equivalent += enough;
    zones_[1].log_thickness -= increment.thinning_inside(1);
    stress_ = stress;
    flow_ = increment.flow();
    predicted_ = 0;
    return true;
}

/// An increment of at most `left` in the sheet; false when there is none.
bool GrooveWalk::step_within(Increment& increment, double left) {
    double both = std::min(choice_.step, left / (1 - w_));
    for (int attempt = 0;; ++attempt) {
        double w = w_;
        double stress = stress_;
        if (!increment.solve(both, w, stress) && !increment.bracket(both, w, stress)) {
            both *= 0.25; // the neck may come within the increment
            if (attempt < 4 && both > finest_step * choice_.step) {
                continue;
            }
            return false;
        }
        const double outside = both * (1 - w);
        w_ = std::min(w, 0.99);
        if (outside > left * (1 + 1e-6) && attempt < 4) {
            both = std::min(both, left / (1 - w));
            continue;
        }
        stress_ = stress;
        flow_ = increment.flow();
        predicted_ = outside;
        zones_[1].equivalent += both * w;
        zones_[1].log_thickness -= increment.thinning_inside(w);
        return true;
    }
}

/// False when the groove takes all.
bool GrooveWalk::step(const PathStretch& stretch, double left) {
    const GrooveAxes axes(turned(stretch, 0.5 * std::min(left, predicted_)));
    const std::optional<GrooveFlow> before = flow_;
    Increment increment(sheet_, stretch, axes, zones_, before);
    if (!step_within(increment, left)) {
        return strain_groove_alone(increment);
    }
    tangent_ = turned(stretch, predicted_);
    zones_[0].equivalent += predicted_;
    zones_[0].log_thickness -= predicted_ * stretch.thinning();
    return true;
}

std::optional<double> GrooveWalk::walk(const PathStretch& stretch, double length) {
    if (stretch.thinning() <= 0) {
        follow(stretch, length);
        return std::nullopt;
    }
    stress_ = GrooveAxes(tangent_).take_tangent.dot(stretch.stress);
    flow_.reset();
    const double end = zones_[0].equivalent + length;
    while (end - zones_[0].equivalent > smallest_stretch) {
        if (zones_[0].equivalent >= choice_.furthest) {
            return infinity;
        }
        if (!step(stretch, end - zones_[0].equivalent)) {
            return zones_[0].equivalent;
        }
    }
    return std::nullopt;
}

} // namespace

std::vector<PathStretch>
stretches_of(const material::YieldLaw& law, std::span<const RollingStrain> increments) {
    std::vector<PathStretch> path;
    for (const RollingStrain& strain : increments) {
        const FlowAlong flow = flow_along(law, strain);
        if (flow.equivalent > smallest_stretch) {
            path.push_back({strain / flow.equivalent, flow.stress, flow.equivalent});
        }
    }
    return path;
}

std::span<const PathStretch> up_to_thinning(std::span<const PathStretch> path) {
    while (!path.empty() && path.back().thinning() <= 0) {
        path = path.first(path.size() - 1);
    }
    return path;
}

double strain_at_neck(
    const NeckingSheet& sheet,
    std::span<const PathStretch> path,
    double normal,
    const GrooveChoice& choice
) {
    path = up_to_thinning(path);
    GrooveWalk walk(sheet, normal, choice);
    for (std::size_t i = 0; i < path.size(); ++i) {
        const bool is_last = i + 1 == path.size();
        const std::optional<double> neck =
            walk.walk(path[i], is_last ? 2 * choice.furthest : path[i].length);
        if (neck) {
            return *neck;
        }
    }
    return infinity;
}

} // namespace flangewright::limits
