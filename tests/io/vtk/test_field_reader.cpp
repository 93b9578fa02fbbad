#include "io/vtk/field_file.hpp"
#include "io/vtk/field_reader.hpp"
#include "tests/io/command_line/temporary_folder.hpp"
#include "tests/support/formed_flange.hpp"

namespace flangewright::vtk {
namespace {

class FieldReader : public command_line::WithFolder {};

TEST_F(FieldReader, ReadsBackWhatWasWritten) {
    support::FlangeShape small;
    small.n_along = 6;
    const process::JobResult result = support::made_up_result(small);
    const job::Job job = support::made_up_job(small);
    const auto file = write("1-bend-down.vtu", step_file(job, result, 0).bytes);
    const auto shape = read_shape(file, "thickness");
    ASSERT_TRUE(shape);
    ASSERT_EQ(shape->positions.cols(), result.mesh.n_nodes());
    EXPECT_EQ(shape->quads, result.mesh.quads);
    const process::StepResult& step = result.steps[0];
    EXPECT_LT((shape->positions - step.state.positions).cwiseAbs().maxCoeff(), 1e-9);
    constexpr double of_a_float = 1e-6;
    EXPECT_LT((shape->figure - step.fields.thickness).cwiseAbs().maxCoeff(), of_a_float);
}

TEST_F(FieldReader, GivesNothingForAnotherFigureAnotherFileOrNone) {
    support::FlangeShape small;
    small.n_along = 6;
    const process::JobResult result = support::made_up_result(small);
    const auto file = write("a.vtu", step_file(support::made_up_job(small), result, 0).bytes);
    EXPECT_FALSE(read_shape(file, "colour"));
    EXPECT_FALSE(read_shape(write("edge.vtu", edge_file(result, 0).bytes), "edge_strain"));
    EXPECT_FALSE(read_shape(write("b.vtu", "no such thing"), "thickness"));
    EXPECT_FALSE(read_shape(folder_ / "c.vtu", "thickness"));
    EXPECT_FALSE(read_shape(folder_, "thickness"));
}

} // namespace
} // namespace flangewright::vtk
