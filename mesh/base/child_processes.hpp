// Independent pieces of work, each in a process of its own: libraries that can't work twice at once
// in one process can so.
#pragma once

#include <functional>
#include <optional>
#include <stop_token>
#include <vector>

namespace flangewright {

/// What one piece of work answers; nothing when it failed.
using Numbers = std::optional<std::vector<double>>;

/// Calls `work(i)` for i = 0 .. n - 1, at most `n_at_once` at the same time, each in a copy of this
/// process that ends with it; what the work changes in memory is lost. The work must use one
/// thread. `on_done` is told after each one how many are done. A piece that crashes, throws or is
/// stopped answers nothing. Fails: never; where no process can be made, the work answers nothing.
[[nodiscard]] std::vector<Numbers> in_child_processes(
    int n,
    int n_at_once,
    const std::function<Numbers(int)>& work,
    const std::function<void(int n_done)>& on_done,
    const std::stop_token& stop
);

} // namespace flangewright
