#include "io/vtk/field_file.hpp"
#include "tests/support/formed_flange.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

namespace flangewright::vtk {
namespace {

using testing::HasSubstr;
using testing::Not;

// What the arrays hold is compared with the tables by another reader: RunFolder.FieldFiles...

TEST(FieldFile, NamesTheArraysThatTheDocsPromise) {
    const process::JobResult result = support::made_up_result();
    const std::string text = step_file(support::made_up_job(), result, 1).bytes;
    for (const char* name :
         {"displacement",
          "thickness",
          "thinning",
          "plastic_strain",
          "major_strain_mid",
          "major_strain_block_face",
          "major_strain_outer_face",
          "minor_strain_mid",
          "minor_strain_block_face",
          "minor_strain_outer_face",
          "share_used",
          "springback",
          "block_gap",
          "stress_block_face",
          "stress_outer_face",
          "region"}) {
        EXPECT_THAT(text, HasSubstr(fmt::format("Name=\"{}\"", name)));
    }
    EXPECT_THAT(edge_file(result, 0).bytes, HasSubstr("Name=\"edge_strain\""));
}

// Readers on top of Debian's present expat fail on data appended at the end.
TEST(FieldFile, HoldsItsDataInline) {
    const process::JobResult result = support::made_up_result();
    const std::string text = step_file(support::made_up_job(), result, 1).bytes;
    EXPECT_THAT(text, HasSubstr("format=\"binary\""));
    EXPECT_THAT(text, Not(HasSubstr("AppendedData")));
}

TEST(FieldFile, HasSpringbackOnlyInARelease) {
    const process::JobResult result = support::made_up_result();
    EXPECT_THAT(
        step_file(support::made_up_job(), result, 0).bytes, Not(HasSubstr("Name=\"springback\""))
    );
}

TEST(FieldFile, LeavesOutFieldsTheRunDidNotFill) {
    process::JobResult result = support::made_up_result();
    result.history.front().fields.plastic_strain.resize(0);
    const std::string text = frame_file(support::made_up_job(), result, 0).bytes;
    EXPECT_THAT(text, Not(HasSubstr("Name=\"plastic_strain\"")));
    EXPECT_THAT(text, HasSubstr("Name=\"thickness\""));
}

TEST(FieldFile, CountsAndReplacesWhatIsNoNumber) {
    process::JobResult result = support::made_up_result();
    EXPECT_EQ(step_file(support::made_up_job(), result, 0).n_not_finite, 0);
    result.steps[0].fields.plastic_strain(5) = std::numeric_limits<double>::quiet_NaN();
    result.steps[0].fields.stress_outer_face(1, 7) = std::numeric_limits<double>::infinity();
    const FieldFile file = step_file(support::made_up_job(), result, 0);
    EXPECT_EQ(file.n_not_finite, 2);
    EXPECT_THAT(file.bytes, Not(HasSubstr("nan")));
}

} // namespace
} // namespace flangewright::vtk
