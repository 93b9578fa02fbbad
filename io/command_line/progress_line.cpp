#include "io/command_line/progress_line.hpp"

#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <cmath>
#include <ostream>

namespace flangewright::command_line {

namespace {

std::string time_left(double seconds) {
    if (!(seconds >= 0) || seconds > 1e6) { // unknown yet
        return "";
    }
    if (seconds < 90) {
        return fmt::format(", about {:.0f} s left", std::ceil(seconds));
    }
    return fmt::format(", about {:.0f} min left", std::ceil(seconds / 60));
}

} // namespace

std::string progress_text(const Progress& progress) {
    if (progress.n_iterations == 0) { // work beside the steps, that turns no flange
        return fmt::format("{} {:.0f} %", progress.step, 100 * progress.share_done);
    }
    return fmt::format(
        "{} {:.0f} %, flange at {:.1f} deg, {} iterations{}",
        progress.step,
        100 * progress.share_done,
        units::degrees(progress.flange_angle),
        progress.n_iterations,
        time_left(progress.seconds_left)
    );
}

void ProgressLine::show(const Progress& progress) {
    constexpr std::chrono::milliseconds pause{100};
    const auto now = std::chrono::steady_clock::now();
    if (!terminal_.err_is_screen || (is_drawn_ && now - drawn_at_ < pause)) {
        return;
    }
    constexpr std::size_t widest = 79; // a longer line would not be drawn over
    terminal_.err << '\r' << progress_text(progress).substr(0, widest) << "\x1b[K" << std::flush;
    drawn_at_ = now;
    is_drawn_ = true;
}

void ProgressLine::clear() {
    if (is_drawn_) {
        terminal_.err << "\r\x1b[K" << std::flush;
        is_drawn_ = false;
    }
}

} // namespace flangewright::command_line
