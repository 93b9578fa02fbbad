#include "io/compare/study.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/command_line/temporary_folder.hpp"

#include <gmock/gmock.h>

namespace flangewright::compare {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

class Study : public command_line::WithFolder {
protected:
    StudyRequest request(const std::vector<std::string>& words) {
        StudyRequest asked;
        asked.cases = {write("rib.toml", case_file::good_case)};
        asked.variations = *read_variations(words);
        asked.folder = folder_ / "study";
        asked.options.program_version = "9.8.7";
        return asked;
    }
    std::string refusal(const std::vector<std::string>& words) {
        const auto planned = plan_study(request(words));
        if (planned) {
            return "planned";
        }
        std::string text;
        for (const key_file::InputProblem& problem : planned.error()) {
            text += key_file::line_for(problem) + "\n";
        }
        return text;
    }
};

TEST_F(Study, GivesEachVariantItsJobNameAndLabel) {
    const auto planned = plan_study(
        request({"block.nose_radius=3mm,1/8 in", "run.accuracy=quick", "block.friction=0,0.1"})
    );
    ASSERT_TRUE(planned);
    ASSERT_EQ(planned->size(), 4u);
    const Variant& last = planned->back();
    EXPECT_EQ(last.name, "block.nose_radius-1_8in_run.accuracy-quick_block.friction-0.1");
    EXPECT_EQ(last.label, "block.nose_radius = 1/8 in, block.friction = 0.1");
    EXPECT_DOUBLE_EQ(last.file.job.block.nose_radius, 25.4 / 8);
    EXPECT_DOUBLE_EQ(last.file.job.block.friction, 0.1);
    EXPECT_EQ(last.file.job.accuracy, job::Accuracy::quick);
    EXPECT_EQ(last.run_folder, folder_ / "study" / "runs" / last.name);
    EXPECT_FALSE(std::filesystem::exists(folder_ / "study")) << "a plan writes nothing";
}

TEST_F(Study, MarksDifferWithJobVersionAndOptionsOnly) {
    StudyRequest asked = request({"block.nose_radius=3mm,4mm"});
    const auto one = plan_study(asked);
    const auto again = plan_study(asked);
    asked.options.with_remedies = false;
    const auto other = plan_study(asked);
    ASSERT_TRUE(one && again && other);
    EXPECT_EQ((*one)[0].run_mark, (*again)[0].run_mark);
    EXPECT_NE((*one)[0].run_mark, (*one)[1].run_mark);
    EXPECT_NE((*one)[0].run_mark, (*other)[0].run_mark);
}

TEST_F(Study, ComparesSeveralCaseFiles) {
    StudyRequest asked = request({});
    std::filesystem::create_directory(folder_ / "b");
    asked.cases.push_back(write("b/case.toml", case_file::good_case));
    const auto planned = plan_study(asked);
    ASSERT_TRUE(planned);
    EXPECT_EQ((*planned)[0].label, "rib");
    EXPECT_EQ((*planned)[1].label, "b");
    asked.cases[1] = folder_ / "b" / ".." / "rib.toml";
    const auto twice = plan_study(asked);
    ASSERT_FALSE(twice);
    EXPECT_THAT(twice.error()[0].found, HasSubstr("twice"));
}

TEST_F(Study, AnUnknownKeyIsToldWithTheNearestOne) {
    EXPECT_THAT(
        refusal({"block.nose_radios=3mm,4mm"}),
        AllOf(
            HasSubstr("block.nose_radios: found an unknown key"),
            HasSubstr("write nose_radius"),
            Not(HasSubstr("delete"))
        )
    );
    EXPECT_THAT(refusal({"nose_radius=3mm,4mm"}), HasSubstr("write --vary block.nose_radius=..."));
    EXPECT_THAT(refusal({"blok.nose_radius=3mm,4mm"}), HasSubstr("blok"));
}

TEST_F(Study, ABadValueIsToldWithItsRange) {
    EXPECT_THAT(
        refusal({"block.nose_radius=3mm,300mm"}),
        AllOf(
            HasSubstr("rib.toml with block.nose_radius-300mm"),
            HasSubstr("found \"300mm\", allowed 0.05 mm to 200 mm")
        )
    );
    EXPECT_THAT(refusal({"block.nose_radius=3mm,soft"}), HasSubstr("block.nose_radius: found"));
    EXPECT_THAT(refusal({"run.steps=trim,release"}), HasSubstr("a list of values"));
}

TEST_F(Study, OneVariantAndFarTooManyAreRefused) {
    EXPECT_THAT(refusal({}), HasSubstr("found one variant"));
    EXPECT_THAT(refusal({"block.nose_radius=3mm"}), HasSubstr("found one variant"));
    std::string many = "=1";
    for (int i = 2; i < 50; ++i) {
        many += "," + std::to_string(i);
    }
    EXPECT_THAT(refusal({"a" + many, "b" + many, "c" + many}), HasSubstr("at most 1000"));
}

TEST_F(Study, LongNamesAreCutShortAndStayUnlike) {
    const std::string long_title = "title=" + std::string(150, 'x');
    const auto planned = plan_study(request({long_title, "block.nose_radius=3mm,4mm"}));
    ASSERT_TRUE(planned);
    EXPECT_NE((*planned)[0].name, (*planned)[1].name);
    EXPECT_LE((*planned)[1].name.size(), 110u);
}

TEST_F(Study, ADrawingGoesAlong) {
    StudyRequest asked;
    asked.cases = {FLANGEWRIGHT_SOURCE_DIR "/cases/drawn/case.toml"};
    asked.variations = *read_variations({"block.nose_radius=3mm,4mm"});
    asked.folder = folder_ / "study";
    const auto planned = plan_study(asked);
    ASSERT_TRUE(planned);
    const Variant& first = planned->front();
    ASSERT_EQ(first.copies.size(), 1u);
    EXPECT_EQ(first.copies[0].to.filename(), "block.nose_radius-3mm-part.dxf");
    EXPECT_EQ(text_at(first.case_text, "bend_line.file"), "block.nose_radius-3mm-part.dxf");
    EXPECT_TRUE(std::filesystem::exists(first.copies[0].from));
}

TEST(StudyWords, SayWhatAllVariantsShare) {
    EXPECT_EQ(common_settings({{"a", {"1"}}, {"b", {"1", "2"}}, {"c", {"x"}}}), "a = 1, c = x");
    EXPECT_EQ(common_settings({}), "");
}

} // namespace
} // namespace flangewright::compare
