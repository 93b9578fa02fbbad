#include "io/command_line/solve_for_answer.hpp"

namespace flangewright::command_line {

using process::AlongEnd;
using process::SearchEnd;

bool Answer::is_found() const {
    return along ? along->end == AlongEnd::found
                 : one && (one->end == SearchEnd::found || one->end == SearchEnd::at_bound);
}

const process::JobResult* Answer::check() const {
    if (is_along()) {
        return along->check.get();
    }
    return one ? one->check.get() : nullptr;
}

} // namespace flangewright::command_line
