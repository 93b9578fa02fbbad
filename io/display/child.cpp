#include "io/display/child.hpp"

#include "io/display/process.hpp"

#include <sys/mman.h>
#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <optional>

namespace flangewright::display {

namespace {

bool write_all(int file, const char* bytes, std::size_t n_bytes) {
    while (n_bytes > 0) {
        const ssize_t n_written = ::write(file, bytes, n_bytes);
        if (n_written <= 0) {
            return false;
        }
        bytes += n_written;
        n_bytes -= static_cast<std::size_t>(n_written);
    }
    return true;
}

/// One record in the shared memory: two lengths, name, content.
void hand_over(int memory, const NamedBytes& made) {
    const std::array<std::uint64_t, 2> lengths{made.first.size(), made.second.size()};
    const bool is_whole =
        write_all(memory, reinterpret_cast<const char*>(lengths.data()), sizeof(lengths))
        && write_all(memory, made.first.data(), made.first.size())
        && write_all(memory, made.second.data(), made.second.size());
    if (!is_whole) {
        ::_exit(1);
    }
}

std::string whole_content(int memory) {
    std::string content;
    std::array<char, 65536> part{};
    ::lseek(memory, 0, SEEK_SET);
    for (ssize_t n = ::read(memory, part.data(), part.size()); n > 0;
         n = ::read(memory, part.data(), part.size())) {
        content.append(part.data(), static_cast<std::size_t>(n));
    }
    return content;
}

/// Records up to the first one that a dying child left unfinished.
std::vector<NamedBytes> whole_records(const std::string& content) {
    std::vector<NamedBytes> made;
    std::array<std::uint64_t, 2> lengths{};
    std::size_t at = 0;
    while (content.size() - at >= sizeof(lengths)) {
        std::memcpy(lengths.data(), content.data() + at, sizeof(lengths));
        at += sizeof(lengths);
        const std::size_t rest = content.size() - at;
        if (lengths[0] > rest || lengths[1] > rest - lengths[0]) {
            break;
        }
        made.emplace_back(
            content.substr(at, lengths[0]), content.substr(at + lengths[0], lengths[1])
        );
        at += lengths[0] + lengths[1];
    }
    return made;
}

[[noreturn]] void be_the_child(
    const ChildPlace& place, const std::function<void(const HandOver&)>& work, int memory
) {
    silence();
    // A crash here is expected trouble, not worth a core file.
    const rlimit no_core{0, 0};
    ::setrlimit(RLIMIT_CORE, &no_core);
    if (place.display.empty()) {
        ::unsetenv("DISPLAY");
    } else {
        ::setenv("DISPLAY", place.display.c_str(), 1);
    }
    int code = 1;
    try {
        work([memory](const NamedBytes& made) { hand_over(memory, made); });
        code = 0;
    } catch (...) { // the parent hears of it by the exit code
        code = 1;
    }
    ::_exit(code);
}

} // namespace

ChildWork work_in_child(const ChildPlace& place, const std::function<void(const HandOver&)>& work) {
    ChildWork done;
    const int memory = ::memfd_create("flangewright", MFD_CLOEXEC);
    if (memory < 0) {
        return done;
    }
    const pid_t parent = ::getpid();
    const pid_t child = ::fork();
    if (child == 0) {
        settle_child(parent);
        be_the_child(place, work, memory);
    }
    if (child > 0) {
        const Ending ending = wait_for(child, place.patience_ms);
        done.finished = ending == Ending::cleanly;
        done.in_time = ending != Ending::not_yet;
        if (ending == Ending::not_yet) {
            end_process(child);
        }
        done.made = whole_records(whole_content(memory));
    }
    ::close(memory);
    return done;
}

} // namespace flangewright::display
