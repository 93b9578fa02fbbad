#include "solver/process/run_keeper.hpp"

#include <algorithm>
#include <utility>

namespace flangewright::process {

namespace {

double seconds_between(
    std::chrono::steady_clock::time_point begin, std::chrono::steady_clock::time_point end
) {
    return std::chrono::duration<double>(end - begin).count();
}

} // namespace

RunKeeper::RunKeeper(const RunOptions& options, JobResult& result)
    : options_(options), result_(result) {
    if (options.begin_from != nullptr) {
        state_ = *options.begin_from;
        result_.history = std::move(state_.history);
        before_ = state_.spent;
        if (state_.drive) {
            result_.passes.emplace().as_driven = std::move(*state_.drive);
        }
    }
}

StepKeeping RunKeeper::keeping_for(const Workpiece& piece) {
    StepKeeping keeping;
    keeping.begin_from = std::exchange(state_.under_way, std::nullopt);
    path_.reset();
    if (keeping.begin_from) {
        path_ = keeping.begin_from->path;
    }
    if (options_.keep_state) {
        keeping.keep = [this, &piece](const equilibrium::PathMemory& path) {
            remember(piece, path);
        };
    }
    return keeping;
}

void RunKeeper::remember(const Workpiece& piece, const equilibrium::PathMemory& path) {
    constexpr double pause_over_cost = 30; // keeping must not slow the run down
    path_ = path;
    const double pause =
        std::max(options_.seconds_between_states, pause_over_cost * seconds_to_hand_over_);
    if (options_.seconds_between_states <= 0
        || seconds_between(handed_over_, Clock::now()) >= pause) {
        hand_over(piece);
    }
}

void RunKeeper::leave(const Workpiece& piece) {
    hand_over(piece);
}

void RunKeeper::finish(const Workpiece& piece, const StepResult& step) {
    state_.finished.push_back({step.kind, step.report, step.state, piece.held_by});
    path_.reset();
    hand_over(piece);
}

void RunKeeper::hand_over(const Workpiece& piece) {
    if (!options_.keep_state) {
        return;
    }
    const Clock::time_point begin = Clock::now();
    state_.under_way.reset();
    if (path_) {
        state_.under_way = StepUnderWay{piece.state, *path_};
    }
    state_.spent = spent(piece);
    state_.history = result_.history;
    state_.drive = result_.passes ? std::optional(result_.passes->as_driven) : std::nullopt;
    options_.keep_state(state_);
    handed_over_ = Clock::now();
    seconds_to_hand_over_ = seconds_between(begin, handed_over_);
    state_.under_way.reset();
    state_.history.clear();
}

SolveFigures RunKeeper::spent(const Workpiece& piece) const {
    const equilibrium::Clock& clock = piece.system->clock();
    SolveFigures spent = before_;
    spent.seconds_elements += clock.elements;
    spent.seconds_factorise += clock.factorise;
    spent.seconds_contact += clock.contact;
    spent.seconds += seconds_between(begin_, Clock::now());
    return spent;
}

} // namespace flangewright::process
