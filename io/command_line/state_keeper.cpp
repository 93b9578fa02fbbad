#include "io/command_line/state_keeper.hpp"

#include "io/command_line/words.hpp"
#include "io/saved_state/state_file.hpp"

#include <fmt/format.h>

#include <ostream>

namespace flangewright::command_line {

void StateKeeper::keep(const process::RunState& state) {
    const auto written = saved_state::write_state(folder_, case_text_, state);
    if (!written && !has_failed_) {
        has_failed_ = true;
        const std::string line =
            line_for(written.error()) + "; the run goes on, but can't be resumed";
        log_.note(line);
        terminal_.err << line << "\n";
    }
}

std::string state_words(const process::RunState& state, const job::Job& job) {
    const std::string done =
        fmt::format("{} of {} steps done", state.finished.size(), job.steps.size());
    return state.under_way ? fmt::format(
               "{}, {:.1f} % of the next one", done, 100 * state.under_way->path.report.share_done
           )
                           : done;
}

} // namespace flangewright::command_line
