// What is read back is what was written, and damage of any kind is told in one line.
#include "io/saved_state/state_bytes.hpp"
#include "io/saved_state/state_file.hpp"
#include "tests/support/trial_folder.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <random>

namespace flangewright::saved_state {
namespace {

using key_file::line_for;
using testing::HasSubstr;

const std::string this_case = "flangewright = 1\nsheet.thickness = 0.8\n";

shell::SheetState sheet() {
    shell::SheetState sheet;
    sheet.positions = Eigen::Matrix3Xd::Random(3, 5);
    sheet.directors = Eigen::Matrix3Xd::Random(3, 5);
    sheet.points = {{0.1, 0.2, -0.3, 0.4}, {1, 2, 3, 4}};
    sheet.fibres = {{0.9, 1e-3}};
    sheet.back_stresses = {{10, -20, 5}, {0.5, 0.25, -1}};
    return sheet;
}

process::Frame frame() {
    process::Frame frame;
    frame.step = 0;
    frame.share_done = 0.25;
    frame.positions = Eigen::Matrix3Xd::Random(3, 5);
    frame.fields.thickness = Eigen::VectorXd::Random(5);
    frame.fields.across_block_face = Eigen::VectorXd::Random(5);
    frame.fields.stress_outer_face = Eigen::Matrix3Xd::Random(3, 5);
    return frame;
}

process::RunState run_state() {
    process::RunState run;
    process::FinishedStep step;
    step.report.reason = process::StopReason::done;
    step.report.n_iterations = 77;
    step.report.angle_reached = 1.5;
    step.sheet = sheet();
    step.held_by = equilibrium::DeadLoads::none(5);
    step.held_by.moments(1, 2) = -3.25;
    run.finished = {step};
    process::StepUnderWay under_way;
    under_way.sheet = sheet();
    under_way.path.report.share_done = 0.4;
    under_way.path.report.n_cutbacks = 3;
    under_way.path.step = 0.02;
    under_way.path.last = {Eigen::Matrix3Xd::Random(3, 5), Eigen::Matrix3Xd::Random(3, 5), 0.01};
    under_way.path.friction = {
        {Eigen::Matrix3Xd::Random(3, 5),
         Eigen::Matrix3Xd::Random(3, 5),
         Eigen::VectorXd::Random(5),
         Eigen::Matrix3Xd::Random(3, 5)}};
    run.under_way = under_way;
    run.history = {frame()};
    run.drive.emplace();
    run.drive->passes = {{0.5, 0.51, 0.03, 12}, {1.5, 1.48, -0.05, 14}};
    run.drive->stations = Eigen::VectorXd::LinSpaced(3, 0, 20);
    run.drive->stretched = Eigen::VectorXd::Random(3);
    run.drive->shrunk = Eigen::VectorXd::Random(3);
    run.spent.seconds_contact = 0.125;
    return run;
}

// Two steps finished; the second is done otherwise in the case as it is now.
TEST(StateFile, KeepsTheStepsBeforeThoseThatChanged) {
    process::RunState run = run_state();
    run.finished.push_back(run.finished.front());
    run.finished.back().kind = job::StepKind::release;
    run.history.push_back(frame());
    run.history.back().step = 1;
    const std::string then = "sheet.thickness = 0.8\nrun.steps = bend-down, release\n";
    const std::string now = "sheet.thickness = 0.8\nrun.steps = bend-down, trim\n";
    const auto read = state_from(file_bytes(then, run), "f", now);
    ASSERT_TRUE(read.has_value()) << line_for(read.error());
    EXPECT_EQ(read->run.finished.size(), 1U);
    EXPECT_FALSE(read->run.under_way.has_value());
    EXPECT_EQ(read->run.history.size(), 1U);
    EXPECT_THAT(read->changed, HasSubstr("run.steps = bend-down, trim here"));
    EXPECT_TRUE(read->run.drive.has_value()) << "that of the first step stays";
    const auto whole = state_from(file_bytes(then, run), "f", then);
    EXPECT_EQ(whole->run.finished.size(), 2U);
    EXPECT_EQ(whole->changed, "");
}

TEST(StateFile, ReadsBackWhatWasWrittenToTheLastBit) {
    const process::RunState run = run_state();
    const std::string bytes = file_bytes(this_case, run);
    const auto read = state_from(bytes, "run.state", this_case);
    ASSERT_TRUE(read.has_value()) << line_for(read.error());
    EXPECT_EQ(file_bytes(this_case, read->run), bytes);
    EXPECT_EQ(read->run.finished.at(0).report.n_iterations, 77);
    EXPECT_EQ(read->run.finished.at(0).sheet.positions, run.finished.at(0).sheet.positions);
    EXPECT_EQ(read->run.finished.at(0).sheet.points.at(1).equivalent, 4);
    EXPECT_EQ(read->run.finished.at(0).sheet.fibres.at(0).slope, 1e-3);
    EXPECT_EQ(read->run.finished.at(0).sheet.back_stresses, run.finished.at(0).sheet.back_stresses);
    EXPECT_EQ(read->run.finished.at(0).held_by.moments(1, 2), -3.25);
    ASSERT_TRUE(read->run.under_way.has_value());
    EXPECT_EQ(read->run.under_way->path.last.turns, run.under_way->path.last.turns);
    EXPECT_EQ(read->run.under_way->path.report.n_cutbacks, 3);
    EXPECT_EQ(read->run.under_way->path.step, 0.02);
    EXPECT_EQ(
        read->run.under_way->path.friction.at(0).slip, run.under_way->path.friction.at(0).slip
    );
    EXPECT_EQ(
        read->run.under_way->path.friction.at(0).placement,
        run.under_way->path.friction.at(0).placement
    );
    EXPECT_EQ(read->run.history.at(0).step, 0);
    EXPECT_EQ(
        read->run.history.at(0).fields.across_block_face, run.history.at(0).fields.across_block_face
    );
    EXPECT_EQ(read->run.spent.seconds_contact, 0.125);
    ASSERT_TRUE(read->run.drive.has_value());
    EXPECT_EQ(read->run.drive->passes.at(1).edge_strain, -0.05);
    EXPECT_EQ(read->run.drive->stretched, run.drive->stretched);
}

TEST(StateFile, OfAnotherCaseIsRefusedWithTheFirstDifference) {
    const auto read = state_from(
        file_bytes(this_case, run_state()),
        "out/run.state",
        "flangewright = 1\nsheet.thickness = 1\n"
    );
    ASSERT_FALSE(read.has_value());
    EXPECT_EQ(
        line_for(read.error()),
        "out/run.state: saved state: found the state of another case: sheet.thickness = 0.8 there, "
        "sheet.thickness = 1 here, allowed a state this program saved for this case, do: run "
        "without --resume, or name the other folder with --out FOLDER"
    );
}

TEST(StateFile, OfAnotherFormIsRefused) {
    std::string bytes = file_bytes(this_case, run_state());
    bytes[bytes.find("form ") + 5] = '9';
    const auto read = state_from(bytes, "f", this_case);
    ASSERT_FALSE(read.has_value());
    EXPECT_EQ(read.error().found, "a state of another version (form 9)");
}

// Form 4 knew no passes of a drive.
TEST(StateFile, FromBeforeDrivesInPassesIsRefused) {
    std::string bytes = file_bytes(this_case, run_state());
    ASSERT_EQ(bytes[bytes.find("form ") + 5], '5');
    bytes[bytes.find("form ") + 5] = '4';
    const auto read = state_from(bytes, "run.state", this_case);
    ASSERT_FALSE(read.has_value());
    EXPECT_EQ(
        line_for(read.error()),
        "run.state: saved state: found a state of another version (form 4), allowed a state this "
        "program saved for this case, do: run again without --resume"
    );
}

TEST(StateFile, CutShortAnywhereIsRefused) {
    const std::string bytes = file_bytes(this_case, run_state());
    for (std::size_t length = 0; length < bytes.size(); ++length) {
        const auto read = state_from(bytes.substr(0, length), "f", this_case);
        ASSERT_FALSE(read.has_value()) << length;
        EXPECT_FALSE(read.error().remedy.empty());
    }
    EXPECT_FALSE(state_from(bytes + "x", "f", this_case).has_value());
}

TEST(StateFile, WithAnyByteChangedIsRefused) {
    const std::string bytes = file_bytes(this_case, run_state());
    for (std::size_t at = 0; at < bytes.size(); ++at) {
        std::string damaged = bytes;
        damaged[at] = static_cast<char>(damaged[at] ^ 0x20);
        EXPECT_FALSE(state_from(damaged, "f", this_case).has_value()) << at;
    }
}

// Behind a right checksum: what a wrong program or a wrong hand could write.
TEST(StateBody, DamagedInAnyWayIsReadOrRefusedButNeverBreaks) {
    const std::string body = body_from({this_case, run_state()});
    std::mt19937 random(5); // fixed, so that a failure can be seen again
    int n_refused = 0;
    for (int i = 0; i < 20000; ++i) {
        std::string damaged = body;
        for (int n = 0; n < 2; ++n) {
            damaged[random() % damaged.size()] = static_cast<char>(random());
        }
        n_refused += state_from_body(damaged).has_value() ? 0 : 1;
    }
    EXPECT_GT(n_refused, 1000);
    for (std::size_t length = 0; length < body.size(); ++length) {
        EXPECT_FALSE(state_from_body(std::string_view(body).substr(0, length)).has_value());
    }
}

TEST(StateBody, RefusesWhatIsNoNumber) {
    process::RunState run = run_state();
    run.finished.at(0).sheet.positions(0, 0) = std::nan("");
    const auto read = state_from_body(body_from({this_case, run}));
    ASSERT_FALSE(read.has_value());
    EXPECT_EQ(read.error(), "a value that is no number");
}

TEST(StateBody, RefusesAStepThatIsNowhere) {
    process::RunState run = run_state();
    run.under_way->path.step = 0;
    const auto read = state_from_body(body_from({this_case, run}));
    ASSERT_FALSE(read.has_value());
    EXPECT_EQ(read.error(), "a step that is nowhere on its way");
}

TEST(SavedState, IsNothingInAnEmptyFolder) {
    const support::TrialFolder folder;
    const auto read = read_state(folder.path(), this_case);
    ASSERT_TRUE(read.has_value());
    EXPECT_FALSE(read->has_value());
}

TEST(SavedState, ComesBackFromItsFolder) {
    const support::TrialFolder folder;
    ASSERT_TRUE(write_state(folder.path(), this_case, run_state()).has_value());
    const auto read = read_state(folder.path(), this_case);
    ASSERT_TRUE(read.has_value());
    ASSERT_TRUE(read->has_value());
    EXPECT_EQ((*read)->run.finished.size(), 1U);
}

TEST(SavedState, ThatIsAFolderOrOtherTextIsRefused) {
    const support::TrialFolder folder;
    std::filesystem::create_directory(folder.path() / file_name);
    EXPECT_FALSE(read_state(folder.path(), this_case).has_value());
    std::filesystem::remove(folder.path() / file_name);
    std::ofstream(folder.path() / file_name) << "my notes\n";
    const auto read = read_state(folder.path(), this_case);
    ASSERT_FALSE(read.has_value());
    EXPECT_THAT(line_for(read.error()), HasSubstr("something else than a saved state"));
}

} // namespace
} // namespace flangewright::saved_state
