#include "solver/process/cure_search.hpp"

#include "solver/process/free_balance.hpp"
#include "solver/process/web_reading.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace flangewright::process {

namespace {

// How much of what was expected has come: yielding takes some of it, and a web that is about to
// snap gives more.
double share_come(const Eigen::VectorXd& expected, const Eigen::VectorXd& come) {
    constexpr double least = 0.1;
    constexpr double most = 10;
    const double squared = expected.squaredNorm();
    return squared > 0 ? std::clamp(expected.dot(come) / squared, least, most) : 1;
}

// Finds amounts round by round, on the piece itself.
class Search {
public:
    explicit Search(const EdgeWork& work)
        : work_(work), web_(read_web(work.piece)), first_(web_),
          elastic_(web_influence(work.piece, web_, work.shares)),
          amounts_(Eigen::VectorXd::Zero(work.shares.cols())), best_(amounts_),
          best_lift_(first_.lift) {}

    /// Amounts that bring the web as flat as they can; empty: no balance, or stopped.
    std::optional<Eigen::VectorXd> run(const std::function<void(double)>& on_round) {
        if (elastic_.size() == 0) {
            return std::nullopt;
        }
        for (int round = 0; round < work_.n_rounds_most; ++round) {
            on_round(static_cast<double>(round) / work_.n_rounds_most);
            const std::optional<Eigen::VectorXd> more = next_amounts();
            if (!more) {
                break;
            }
            const FlatFit fit = fit_now();
            if (!work_edge(work_, *more)) {
                return std::nullopt;
            }
            const WebReading now = read_web(work_.piece);
            amounts_ += *more;
            come_ *= share_come(
                out_of_flat(fit, fit.influence * *more), out_of_flat(fit, now.gaps - web_.gaps)
            );
            web_ = now;
            if (web_.lift < best_lift_) { // else what was asked for before stands
                best_lift_ = web_.lift;
                best_ = amounts_;
            }
        }
        return best_;
    }

private:
    FlatFit fit_now() const {
        FlatFit fit = fit_of(work_.piece, web_);
        fit.influence = come_ * elastic_;
        fit.amounts = amounts_;
        fit.most = work_.most;
        fit.damping = dampings[std::min(i_damping_, dampings.size() - 1)];
        return fit;
    }

    // What is worth another round, with less damping where more of it promises too little.
    std::optional<Eigen::VectorXd> next_amounts() {
        const double left = web_.lift / first_.lift;
        if (left <= 1 - work_.share_wanted) {
            return std::nullopt;
        }
        // Once the web is nearly flat, much more work for a little more would be no good advice.
        constexpr double little_left = 0.2;
        const double least_gain = left <= little_left ? 0.1 : 0.01;
        const std::size_t last = std::min(i_damping_ + 1, dampings.size() - 1);
        for (; i_damping_ <= last; ++i_damping_) {
            Eigen::VectorXd more = flattening_amounts(fit_now());
            if (promised_gain(more) >= least_gain) {
                return more;
            }
        }
        return std::nullopt;
    }

    // Of the first unevenness.
    double promised_gain(const Eigen::VectorXd& more) const {
        const FlatFit fit = fit_now();
        const Eigen::VectorXd then = web_.gaps + fit.influence * more;
        return (out_of_flat(fit, web_.gaps).norm() - out_of_flat(fit, then).norm())
            / out_of_flat(fit, first_.gaps).norm();
    }

    static constexpr std::array dampings{0.05, 0.035, 0.025, 0.015};

    const EdgeWork& work_;
    WebReading web_;
    WebReading first_;
    Eigen::MatrixXd elastic_;
    Eigen::VectorXd amounts_;
    Eigen::VectorXd best_;
    double best_lift_;
    double come_ = 1; // over what is elastically expected
    std::size_t i_damping_ = 0;
};

} // namespace

bool work_edge(const EdgeWork& work, const Eigen::VectorXd& amounts) {
    const double most = amounts.cwiseAbs().maxCoeff();
    constexpr double rounding = 1e-9;
    const int n_goes = std::max(1, static_cast<int>(std::ceil(most / work.go - rounding)));
    Monitor silent; // a balance of its own is no step
    silent.stop = work.stop;
    for (int go = 0; go < n_goes; ++go) {
        add_edge_strain(work.piece.model, work.shares * amounts / n_goes, work.piece.state);
        hold_present_shape(work.piece);
        const StepReport report =
            balance_free(work.piece, job::StepKind::release, {.largest_step = 1}, silent, {});
        if (report.reason != StopReason::done) {
            return false;
        }
    }
    return true;
}

std::optional<Eigen::VectorXd>
search_flattening(const EdgeWork& work, const std::function<void(double)>& on_round) {
    return Search(work).run(on_round);
}

} // namespace flangewright::process
