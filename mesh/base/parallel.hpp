// The one way our own loops use several cores.
#pragma once

#include <functional>

namespace flangewright {

/// Calls `body(i)` for i = 0 .. n - 1, spread over at most `n_threads` threads; returns when all
/// are done. The calls must not touch each other's data. Waiting threads sleep, so that a busy
/// machine is not slowed down further.
void for_each_index(int n, int n_threads, const std::function<void(int)>& body);

/// How many threads to use when the user does not say: one per core.
[[nodiscard]] int default_thread_count();

} // namespace flangewright
