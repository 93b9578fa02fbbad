#include "io/run_folder/whole_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <charconv>
#include <csignal>
#include <string>
#include <system_error>
#include <vector>

namespace flangewright::run_folder {

namespace {

namespace fs = std::filesystem;

/// What a user can do about a refusal of the system.
std::string remedy_for(int error) {
    switch (error) {
    case ENOSPC:
    case EDQUOT:
        return "the disk is full: free some space, or give another folder";
    case EFBIG:
        return "the file grew past the size allowed here: raise the limit, or give another folder";
    case EACCES:
    case EPERM:
        return "this user may not write there: give another folder, or change its permissions";
    case EROFS:
        return "the disk can only be read: give another folder";
    case ENOTDIR:
    case EEXIST:
        return "a file stands where a folder is needed: remove it, or give another folder";
    case EISDIR:
        return "a folder stands where the file should go: remove it, or give another folder";
    case ENAMETOOLONG:
        return "the name is too long: give a shorter one";
    case ENOENT:
        return "the folder has gone: make it again, or give another one";
    default:
        return "check the disk, or give another folder";
    }
}

OutsideProblem refused(const std::string& doing, const fs::path& path, int error) {
    return {.doing = doing, .object = path.string(), .remedy = remedy_for(error)};
}

/// While it lives, a file that grows past the allowed size is an error and not the program's end.
class SizeLimitAsError {
public:
    SizeLimitAsError() {
        struct sigaction ignore {};
        ignore.sa_handler = SIG_IGN;
        ::sigaction(SIGXFSZ, &ignore, &before_);
    }
    ~SizeLimitAsError() { ::sigaction(SIGXFSZ, &before_, nullptr); }
    SizeLimitAsError(const SizeLimitAsError&) = delete;
    SizeLimitAsError& operator=(const SizeLimitAsError&) = delete;

private:
    struct sigaction before_ {};
};

/// An open file that is removed again unless it was kept.
class TrialFile {
public:
    explicit TrialFile(fs::path path)
        : path_(std::move(path)),
          file_(::open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666)),
          error_(file_ < 0 ? errno : 0), is_there_(file_ >= 0) {}
    ~TrialFile() {
        close();
        if (is_there_) {
            ::unlink(path_.c_str());
        }
    }
    TrialFile(const TrialFile&) = delete;
    TrialFile& operator=(const TrialFile&) = delete;

    void write(std::string_view bytes) {
        const SizeLimitAsError guard;
        while (error_ == 0 && !bytes.empty()) {
            const ssize_t n_written = ::write(file_, bytes.data(), bytes.size());
            if (n_written > 0) {
                bytes.remove_prefix(static_cast<std::size_t>(n_written));
            } else if (n_written == 0 || errno != EINTR) {
                error_ = n_written == 0 ? ENOSPC : errno;
            }
        }
        // Some disks tell only now that they are full.
        if (error_ == 0 && ::fsync(file_) != 0 && errno != EINVAL && errno != EROFS) {
            error_ = errno;
        }
    }

    void rename_to(const fs::path& path) {
        close();
        if (error_ == 0 && ::rename(path_.c_str(), path.c_str()) != 0) {
            error_ = errno;
        }
        is_there_ = error_ != 0 && is_there_;
    }

    /// 0 as long as all went well.
    [[nodiscard]] int error() const { return error_; }

private:
    void close() {
        if (file_ >= 0 && ::close(file_) != 0 && error_ == 0) {
            error_ = errno;
        }
        file_ = -1;
    }

    fs::path path_;
    int file_ = -1;
    int error_ = 0;
    bool is_there_ = false;
};

/// A name nobody else uses: ours by process, hidden from a quick look at the folder.
fs::path trial_name(const fs::path& path) {
    return path.parent_path() / fmt::format(".{}.{}.part", path.filename().string(), ::getpid());
}

/// The process of a trial name, 0 for any other name.
pid_t owner_of(const std::string& name) {
    constexpr std::string_view ending = ".part";
    if (!name.starts_with('.') || !name.ends_with(ending)) {
        return 0;
    }
    const std::string_view stem(name.data(), name.size() - ending.size());
    const std::string_view digits = stem.substr(stem.rfind('.') + 1);
    pid_t owner = 0;
    const auto outcome = std::from_chars(digits.data(), digits.data() + digits.size(), owner);
    const bool is_number =
        outcome.ec == std::errc() && outcome.ptr == digits.data() + digits.size();
    return is_number ? owner : 0;
}

bool is_alive(pid_t process) {
    return ::kill(process, 0) == 0 || errno != ESRCH;
}

} // namespace

Result<fs::path> write_whole(const fs::path& path, std::string_view bytes) {
    const fs::path trial_path = trial_name(path);
    ::unlink(trial_path.c_str()); // left by a process of the same number that was killed
    TrialFile file(trial_path);
    file.write(bytes);
    file.rename_to(path);
    if (file.error() != 0) {
        return tl::make_unexpected(refused("writing a result file", path, file.error()));
    }
    return path;
}

Result<fs::path> prepare_directory(const fs::path& path) {
    const std::string doing = "preparing the folder for the results";
    std::error_code error;
    fs::create_directories(path, error);
    if (error) {
        return tl::make_unexpected(refused(doing, path, error.value()));
    }
    if (!fs::is_directory(path, error)) {
        return tl::make_unexpected(refused(doing, path, ENOTDIR));
    }
    TrialFile file(trial_name(path / "trial"));
    file.write("can this folder be written to?\n");
    if (file.error() != 0) {
        return tl::make_unexpected(refused(doing, path, file.error()));
    }
    return path;
}

void drop_trial_files(const fs::path& folder) {
    std::error_code ignored;
    std::vector<fs::path> leftovers;
    for (auto entry = fs::recursive_directory_iterator(folder, ignored);
         entry != fs::recursive_directory_iterator();
         entry.increment(ignored)) {
        if (entry.depth() > 0) {
            entry.disable_recursion_pending();
        }
        const pid_t owner = owner_of(entry->path().filename().string());
        if (owner > 0 && !is_alive(owner)) {
            leftovers.push_back(entry->path());
        }
    }
    for (const fs::path& leftover : leftovers) {
        fs::remove(leftover, ignored);
    }
}

} // namespace flangewright::run_folder
