#include "io/command_line/output_place.hpp"
#include "tests/io/command_line/temporary_folder.hpp"

#include <gmock/gmock.h>

namespace flangewright::command_line {
namespace {

namespace fs = std::filesystem;
using ::testing::HasSubstr;

using OutputPlace = WithFolder;

TEST_F(OutputPlace, IsNamedAfterTheCase) {
    EXPECT_EQ(default_output_folder("/a/demo/case.toml"), "/a/demo/demo-result");
    EXPECT_EQ(default_output_folder("/a/rib.toml"), "/a/rib-result");
    EXPECT_EQ(default_output_folder("rib.toml"), fs::current_path() / "rib-result");
}

TEST_F(OutputPlace, IsMadeWithItsParents) {
    ASSERT_TRUE(prepare_output_folder(folder_ / "deep" / "er").has_value());
    EXPECT_TRUE(fs::is_directory(folder_ / "deep" / "er"));
    EXPECT_TRUE(fs::is_empty(folder_ / "deep" / "er")) << "the trial file was left";
}

TEST_F(OutputPlace, MayBeAnEarlierResult) {
    write("run.log", "flangewright 0.1.0, 2020-01-01\n");
    write("summary.json", "{}");
    EXPECT_TRUE(prepare_output_folder(folder_).has_value());
}

TEST_F(OutputPlace, MayBeAnInterruptedResult) {
    write("run.log.part", "flangewright 0.1.0, 2020-01-01\n");
    EXPECT_TRUE(prepare_output_folder(folder_).has_value());
}

TEST_F(OutputPlace, IsNeverAFolderOfOthers) {
    write("summary.json", "somebody else's");
    const auto outcome = prepare_output_folder(folder_);
    ASSERT_FALSE(outcome.has_value());
    EXPECT_THAT(outcome.error().remedy, HasSubstr("will not be overwritten"));
    write("run.log", "another program's log\n");
    EXPECT_FALSE(prepare_output_folder(folder_).has_value());
}

TEST_F(OutputPlace, IsNeverAFile) {
    const auto outcome = prepare_output_folder(write("taken", "text"));
    ASSERT_FALSE(outcome.has_value());
    EXPECT_THAT(outcome.error().remedy, HasSubstr("this is a file"));
}

TEST_F(OutputPlace, MustBeWritable) {
    EXPECT_FALSE(prepare_output_folder("/proc/flangewright-result").has_value());
    EXPECT_FALSE(prepare_output_folder(write("taken", "text") / "below").has_value());
}

} // namespace
} // namespace flangewright::command_line
