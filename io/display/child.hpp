// Work that may bring a process down, done in a child so that the program itself survives.
#pragma once

#include <functional>
#include <string>
#include <utility>
#include <vector>

namespace flangewright::display {

/// A file's name and its whole content.
using NamedBytes = std::pair<std::string, std::string>;

/// Called by the work for each thing it has made.
using HandOver = std::function<void(const NamedBytes&)>;

/// What a child got done.
struct ChildWork {
    std::vector<NamedBytes> made; ///< whole ones only, also when the child failed later
    bool finished = false; ///< the work came to its end
    bool in_time = true;
};

/// Where the child runs.
struct ChildPlace {
    std::string display; ///< DISPLAY of the child; empty: none
    int patience_ms = 180000; ///< then the child is ended
};

/// Runs `work` in a child process whose messages go nowhere. The caller goes on unharmed whether
/// the child ends, aborts or hangs. Units: none. Source: fork(2), memfd_create(2). Fails: never;
/// what could not be had is missing from the answer.
[[nodiscard]] ChildWork
work_in_child(const ChildPlace& place, const std::function<void(const HandOver&)>& work);

} // namespace flangewright::display
