#include "io/run_folder/whole_file.hpp"
#include "tests/support/trial_folder.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <sstream>

namespace flangewright::run_folder {
namespace {

namespace fs = std::filesystem;

std::string content_of(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream content;
    content << file.rdbuf();
    return content.str();
}

std::size_t n_files_in(const fs::path& folder) {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(folder), fs::directory_iterator())
    );
}

/// A small disk of its own, where the surroundings allow one.
class SmallDisk {
public:
    SmallDisk(const fs::path& place, const char* options, unsigned long flags = 0) : place_(place) {
        is_mounted_ = ::mount("tmpfs", place.c_str(), "tmpfs", flags, options) == 0;
    }
    ~SmallDisk() {
        if (is_mounted_) {
            ::umount2(place_.c_str(), MNT_DETACH);
        }
    }
    SmallDisk(const SmallDisk&) = delete;
    SmallDisk& operator=(const SmallDisk&) = delete;
    [[nodiscard]] bool is_mounted() const { return is_mounted_; }

private:
    fs::path place_;
    bool is_mounted_ = false;
};

TEST(WholeFile, HoldsTheBytesAndLeavesNothingBeside) {
    const support::TrialFolder folder;
    const std::string bytes("a\0b\n", 4);
    const Result<fs::path> written = write_whole(folder.path() / "x.txt", bytes);
    ASSERT_TRUE(written);
    EXPECT_EQ(content_of(*written), bytes);
    EXPECT_EQ(n_files_in(folder.path()), 1U);
}

TEST(WholeFile, ReplacesAnOlderOne) {
    const support::TrialFolder folder;
    ASSERT_TRUE(write_whole(folder.path() / "x.txt", "old and longer"));
    ASSERT_TRUE(write_whole(folder.path() / "x.txt", "new"));
    EXPECT_EQ(content_of(folder.path() / "x.txt"), "new");
}

TEST(WholeFile, OnAFullDiskIsNotThereAndTheOldOneIsKept) {
    const support::TrialFolder folder;
    const SmallDisk disk(folder.path(), "size=64k");
    if (!disk.is_mounted()) {
        GTEST_SKIP() << "mounting a small disk needs root";
    }
    ASSERT_TRUE(write_whole(folder.path() / "x.txt", "old"));
    const Result<fs::path> written =
        write_whole(folder.path() / "x.txt", std::string(1000000, 'x'));
    ASSERT_FALSE(written);
    EXPECT_EQ(written.error().doing, "writing a result file");
    EXPECT_EQ(written.error().object, (folder.path() / "x.txt").string());
    EXPECT_EQ(written.error().remedy, "the disk is full: free some space, or give another folder");
    EXPECT_EQ(content_of(folder.path() / "x.txt"), "old");
    EXPECT_EQ(n_files_in(folder.path()), 1U) << "the temporary file is left behind";
}

TEST(WholeFile, PastTheAllowedSizeIsAnErrorAndNotTheProgramsEnd) {
    const support::TrialFolder folder;
    rlimit before{};
    ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &before), 0);
    const rlimit small{4096, before.rlim_max};
    ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &small), 0);
    const Result<fs::path> written =
        write_whole(folder.path() / "x.txt", std::string(1000000, 'x'));
    ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &before), 0);
    ASSERT_FALSE(written);
    EXPECT_THAT(written.error().remedy, testing::HasSubstr("size allowed"));
    EXPECT_EQ(n_files_in(folder.path()), 0U);
}

TEST(WholeFile, WhereAFolderStandsIsRefused) {
    const support::TrialFolder folder;
    fs::create_directories(folder.path() / "x.txt" / "inside");
    const Result<fs::path> written = write_whole(folder.path() / "x.txt", "bytes");
    ASSERT_FALSE(written);
    EXPECT_THAT(
        written.error().remedy, testing::HasSubstr("a folder stands where the file should go")
    );
    EXPECT_EQ(n_files_in(folder.path()), 1U);
}

TEST(WholeFile, InAFolderThatIsGoneIsRefused) {
    const support::TrialFolder folder;
    const Result<fs::path> written = write_whole(folder.path() / "gone" / "x.txt", "bytes");
    ASSERT_FALSE(written);
    EXPECT_THAT(written.error().remedy, testing::HasSubstr("the folder has gone"));
}

TEST(PrepareDirectory, MakesItWithItsParentsAndLeavesItEmpty) {
    const support::TrialFolder folder;
    ASSERT_TRUE(prepare_directory(folder.path() / "a" / "b"));
    EXPECT_TRUE(fs::is_directory(folder.path() / "a" / "b"));
    EXPECT_EQ(n_files_in(folder.path() / "a" / "b"), 0U);
    EXPECT_TRUE(prepare_directory(folder.path() / "a" / "b")) << "a second time";
    EXPECT_TRUE(prepare_directory((folder.path() / "c").string() + "/")) << "with a slash";
}

TEST(PrepareDirectory, RefusesAFileInItsPlace) {
    const support::TrialFolder folder;
    std::ofstream(folder.path() / "file") << "text";
    for (const fs::path& place : {folder.path() / "file", folder.path() / "file" / "below"}) {
        const Result<fs::path> prepared = prepare_directory(place);
        ASSERT_FALSE(prepared) << place;
        EXPECT_EQ(prepared.error().doing, "preparing the folder for the results");
        EXPECT_EQ(
            prepared.error().remedy,
            "a file stands where a folder is needed: remove it, or give another folder"
        );
    }
}

TEST(PrepareDirectory, RefusesADiskThatCanOnlyBeRead) {
    const support::TrialFolder folder;
    const SmallDisk disk(folder.path(), "size=64k", MS_RDONLY);
    if (!disk.is_mounted()) {
        GTEST_SKIP() << "mounting a read-only disk needs root";
    }
    for (const fs::path& place : {folder.path(), folder.path() / "below"}) {
        const Result<fs::path> prepared = prepare_directory(place);
        ASSERT_FALSE(prepared) << place;
        EXPECT_EQ(prepared.error().remedy, "the disk can only be read: give another folder");
    }
}

TEST(PrepareDirectory, RefusesAFolderThatTheUserMayNotWriteTo) {
    const support::TrialFolder folder;
    fs::permissions(
        folder.path(),
        fs::perms::all
            & ~(fs::perms::owner_write | fs::perms::group_write | fs::perms::others_write)
    );
    // Root may write everywhere, so a child that is nobody does the asking.
    const pid_t child = ::fork();
    if (child == 0) {
        constexpr uid_t nobody = 65534;
        if (::geteuid() == 0 && ::setuid(nobody) != 0) {
            ::_exit(2);
        }
        const Result<fs::path> prepared = prepare_directory(folder.path());
        const bool is_said = !prepared
            && prepared.error().remedy
                == "this user may not write there: give another folder, or change its permissions";
        ::_exit(is_said ? 0 : 1);
    }
    int status = -1;
    ::waitpid(child, &status, 0);
    fs::permissions(folder.path(), fs::perms::owner_all);
    EXPECT_EQ(status, 0);
}

} // namespace
} // namespace flangewright::run_folder
