#include "io/run_folder/pictures.hpp"
#include "io/run_folder/run_folder.hpp"
#include "tests/support/formed_flange.hpp"
#include "tests/support/trial_folder.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/mount.h>
#include <sys/wait.h>

#include <cstdlib>
#include <fstream>
#include <set>
#include <sstream>

namespace flangewright::run_folder {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

const display::ScreenSearch no_screen{.display = "", .program = "/nowhere/at/all"};

OutputRequest request_for(const fs::path& folder) {
    OutputRequest request;
    request.directory = folder;
    request.job = support::made_up_job();
    request.with_pictures = false;
    request.program_version = "9.8.7";
    request.case_file = "cases/x/case.toml";
    request.screen = no_screen;
    return request;
}

std::string content_of(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream content;
    content << file.rdbuf();
    return content.str();
}

std::set<std::string> files_in(const fs::path& folder) {
    std::set<std::string> names;
    for (const fs::directory_entry& entry : fs::recursive_directory_iterator(folder)) {
        if (entry.is_regular_file()) {
            names.insert(fs::relative(entry.path(), folder).string());
        }
    }
    return names;
}

TEST(RunFolder, HoldsExactlyWhatIsListed) {
    const support::TrialFolder folder;
    const auto written = write_outputs(request_for(folder.path()), support::made_up_result());
    ASSERT_TRUE(written);
    std::set<std::string> listed;
    for (const fs::path& file : written->files) {
        listed.insert(fs::relative(file, folder.path()).string());
    }
    EXPECT_EQ(files_in(folder.path()), listed);
    for (const char* name :
         {"summary.json",
          "stations.csv",
          "edge.csv",
          "sheet.html",
          "history.pvd",
          "steps/1-bend-down.vtu",
          "steps/1-bend-down-edge.vtu",
          "steps/2-release.vtu",
          "steps/2-release-edge.vtu",
          "history/0001.vtu"}) {
        EXPECT_TRUE(listed.contains(name)) << name;
    }
    EXPECT_EQ(written->files.back(), folder.path() / "summary.json") << "must come last";
    EXPECT_GT(written->seconds, 0);
}

TEST(RunFolder, WithoutADisplayLeavesPicturesOutAndSaysSo) {
    const support::TrialFolder folder;
    OutputRequest request = request_for(folder.path());
    request.with_pictures = true;
    const auto written = write_outputs(request, support::made_up_result());
    ASSERT_TRUE(written);
    const std::string sentence = "Pictures are left out: no display. To get them, install the "
                                 "package xvfb, or run where an X display answers.";
    EXPECT_THAT(written->warnings, testing::ElementsAre(sentence));
    EXPECT_THAT(content_of(folder.path() / "summary.json"), HasSubstr(sentence));
    EXPECT_THAT(content_of(folder.path() / "sheet.html"), HasSubstr(sentence));
    EXPECT_FALSE(fs::exists(folder.path() / "pictures" / "thinning.png"));
}

TEST(RunFolder, HasAllPicturesWhereADisplayIs) {
    const support::TrialFolder folder;
    OutputRequest request = request_for(folder.path());
    request.with_pictures = true;
    request.screen = {.display = "", .program = "Xvfb"};
    if (!display::Screen::find(request.screen)) {
        GTEST_SKIP() << "the package xvfb is not installed";
    }
    const auto written = write_outputs(request, support::made_up_result());
    ASSERT_TRUE(written);
    EXPECT_THAT(written->warnings, testing::IsEmpty());
    const std::string page = content_of(folder.path() / "sheet.html");
    for (const char* name :
         {"thinning.png",
          "stretch-outer-face.png",
          "stretch-mid.png",
          "springback.png",
          "edge-stretch.png",
          "section.png"}) {
        const std::string bytes = content_of(folder.path() / "pictures" / name);
        ASSERT_GT(bytes.size(), 24U) << name;
        EXPECT_EQ(bytes.substr(1, 3), "PNG") << name;
        EXPECT_EQ(bytes.substr(16, 8), std::string("\0\0\x06\x40\0\0\x03\xe8", 8))
            << name << " is not 1600 by 1000";
        // Title and footer on an empty sheet pack to 35 kB (measured), a chart to 58 kB.
        constexpr std::size_t more_than_text = 45000;
        EXPECT_GT(bytes.size(), more_than_text) << name << " shows nothing";
        EXPECT_TRUE(is_picture_name(name));
    }
    EXPECT_THAT(page, HasSubstr("data:image/png;base64,iVBOR"));
}

TEST(RunFolder, DropsLeftoversOfALongerRunButNotTheUsersFiles) {
    const support::TrialFolder folder;
    process::JobResult result = support::made_up_result();
    ASSERT_TRUE(write_outputs(request_for(folder.path()), result));
    fs::create_directories(folder.path() / "pictures");
    std::ofstream(folder.path() / "pictures" / "section.png") << "old";
    std::ofstream(folder.path() / "pictures" / "bench.png") << "the user's";
    std::ofstream(folder.path() / "steps" / "notes.txt") << "the user's";
    result.steps.pop_back();
    result.history.resize(3);
    ASSERT_TRUE(write_outputs(request_for(folder.path()), result));
    const std::set<std::string> names = files_in(folder.path());
    EXPECT_FALSE(names.contains("steps/2-release.vtu"));
    EXPECT_FALSE(names.contains("history/0004.vtu"));
    EXPECT_FALSE(names.contains("pictures/section.png"));
    EXPECT_TRUE(names.contains("history/0003.vtu"));
    EXPECT_TRUE(names.contains("pictures/bench.png"));
    EXPECT_TRUE(names.contains("steps/notes.txt"));
}

TEST(RunFolder, OfARunThatNeverFinishedAStepIsStillWhole) {
    const support::TrialFolder folder;
    process::JobResult result = support::made_up_result();
    result.steps.clear();
    result.history.clear();
    result.reason = process::StopReason::stop_requested;
    const auto written = write_outputs(request_for(folder.path()), result);
    ASSERT_TRUE(written);
    EXPECT_THAT(content_of(folder.path() / "sheet.html"), HasSubstr("stopped by the user"));
}

TEST(RunFolder, WhereAFileStandsIsRefused) {
    const support::TrialFolder folder;
    std::ofstream(folder.path() / "out") << "text";
    const auto written =
        write_outputs(request_for(folder.path() / "out"), support::made_up_result());
    ASSERT_FALSE(written);
    EXPECT_THAT(written.error().remedy, HasSubstr("a file stands where a folder is needed"));
}

TEST(RunFolder, OnADiskThatFillsUpLeavesOnlyWholeFilesAndNoSummary) {
    const support::TrialFolder folder;
    if (::mount("tmpfs", folder.path().c_str(), "tmpfs", 0, "size=800k") != 0) {
        GTEST_SKIP() << "mounting a small disk needs root";
    }
    const auto written = write_outputs(request_for(folder.path()), support::made_up_result());
    const std::set<std::string> names = files_in(folder.path());
    ::umount2(folder.path().c_str(), MNT_DETACH);
    ASSERT_FALSE(written);
    EXPECT_EQ(written.error().remedy, "the disk is full: free some space, or give another folder");
    EXPECT_FALSE(names.contains("summary.json"));
    EXPECT_TRUE(names.contains("steps/1-bend-down.vtu"));
    for (const std::string& name : names) {
        EXPECT_THAT(name, testing::Not(HasSubstr(".part")));
    }
}

TEST(RunFolder, FieldFilesAgreeWithTheTablesForAnotherReader) {
    const support::TrialFolder folder;
    ASSERT_TRUE(write_outputs(request_for(folder.path()), support::made_up_result()));
    const std::string command = "/usr/bin/python3 '" FLANGEWRIGHT_SOURCE_DIR
                                "/tests/io/vtk/check_fields.py' '"
        + folder.path().string() + "'";
    constexpr int no_reader = 77;
    const int status = std::system(command.c_str());
    ASSERT_TRUE(WIFEXITED(status));
    if (WEXITSTATUS(status) == no_reader || WEXITSTATUS(status) == 127) {
        GTEST_SKIP() << "the package python3-vtk9 is not installed";
    }
    EXPECT_EQ(WEXITSTATUS(status), 0);
}

} // namespace
} // namespace flangewright::run_folder
