#include "mesh/base/parallel.hpp"

#include <tbb/blocked_range.h>
#include <tbb/info.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

namespace flangewright {

void for_each_index(int n, int n_threads, const std::function<void(int)>& body) {
    constexpr int grain = 16;
    if (n_threads <= 1 || n <= grain) {
        for (int i = 0; i < n; ++i) {
            body(i);
        }
        return;
    }
    tbb::task_arena arena(n_threads);
    arena.execute([&] {
        tbb::parallel_for(
            tbb::blocked_range<int>(0, n, grain),
            [&](const tbb::blocked_range<int>& range) {
                for (int i = range.begin(); i != range.end(); ++i) {
                    body(i);
                }
            }
        );
    });
}

int default_thread_count() {
    return tbb::info::default_concurrency();
}

} // namespace flangewright
