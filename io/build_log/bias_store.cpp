#include "io/build_log/bias_store.hpp"

#include "io/run_folder/whole_file.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

namespace flangewright::build_log {

namespace {

/// Held as long as it lives; where a disk knows no locks, nobody waits.
class Lock {
public:
    explicit Lock(const std::filesystem::path& path)
        : file_(::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666)) {
        if (file_ >= 0) {
            ::flock(file_, LOCK_EX);
        }
    }
    ~Lock() {
        if (file_ >= 0) {
            ::close(file_);
        }
    }
    Lock(const Lock&) = delete;
    Lock& operator=(const Lock&) = delete;

private:
    int file_;
};

} // namespace

Result<std::filesystem::path, BiasProblem>
store_bias(const std::filesystem::path& path, const std::vector<BiasRow>& added) {
    if (const auto folder = run_folder::prepare_directory(path.parent_path()); !folder) {
        return tl::unexpected(BiasProblem(folder.error()));
    }
    const Lock lock(path.parent_path() / ".bias.lock");
    auto rows = read_bias(path);
    if (!rows) {
        return tl::unexpected(BiasProblem(rows.error()));
    }
    const auto written = run_folder::write_whole(path, bias_text(std::move(*rows), added));
    if (!written) {
        return tl::unexpected(BiasProblem(written.error()));
    }
    return *written;
}

} // namespace flangewright::build_log
