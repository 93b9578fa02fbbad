#include "solver/material/fit/tensile_test.hpp"
#include "tests/solver/material/fit/made_test.hpp"

#include <gmock/gmock.h>

namespace flangewright::material {
namespace {

using ::testing::HasSubstr;

const TensileTest good = made_test({.law = "voce", .values = voce_values});

TestProblem problem_of(const TensileTest& test) {
    const auto sound = sound_test(test);
    EXPECT_FALSE(sound.has_value());
    return sound ? TestProblem{} : sound.error();
}

TEST(TensileTest, IsLeftAsItIsWhenSound) {
    const auto sound = sound_test(good);
    ASSERT_TRUE(sound.has_value());
    EXPECT_EQ(sound->strain, good.strain);
    EXPECT_EQ(sound->stress, good.stress);
}

TEST(TensileTest, EndsAtTheBreak) {
    TensileTest broken = good;
    for (int i = 0; i < 5; ++i) { // the extensometer flies off
        broken.strain.push_back(-1.0 * i);
        broken.stress.push_back(0.1);
    }
    const auto sound = sound_test(broken);
    ASSERT_TRUE(sound.has_value());
    EXPECT_EQ(sound->strain, good.strain);
}

TEST(TensileTest, MustHaveEnoughPoints) {
    TensileTest few = good;
    few.strain.resize(n_points_least - 1);
    few.stress.resize(n_points_least - 1);
    EXPECT_EQ(problem_of(few).found, "19 points up to the break");
    EXPECT_FALSE(sound_test(TensileTest{}).has_value());
}

TEST(TensileTest, MustNotRunBack) {
    TensileTest back = good;
    back.strain[200] -= 0.002;
    EXPECT_EQ(problem_of(back).point, 200U);
    EXPECT_THAT(problem_of(back).found, HasSubstr("runs back"));
    TensileTest trembling = good;
    trembling.strain[200] -= 0.0008; // the point before lies 0.00055 away
    EXPECT_TRUE(sound_test(trembling).has_value());
}

TEST(TensileTest, MustPull) {
    TensileTest pushed = good;
    for (double& stress : pushed.stress) {
        stress = -stress;
    }
    EXPECT_THAT(problem_of(pushed).found, HasSubstr("push"));
    TensileTest dipped = good;
    dipped.stress[3] = -20;
    EXPECT_EQ(problem_of(dipped).point, 3U);
    EXPECT_THAT(problem_of(dipped).found, HasSubstr("negative load"));
    TensileTest drifted = good;
    drifted.stress[0] = -1; // a load cell's zero
    EXPECT_TRUE(sound_test(drifted).has_value());
    TensileTest idle = good;
    std::ranges::fill(idle.stress, 0.0);
    EXPECT_THAT(problem_of(idle).found, HasSubstr("no load"));
}

TEST(TensileTest, MustHaveStrainAsAPlainNumber) {
    TensileTest percent = good;
    for (double& strain : percent.strain) {
        strain *= 100;
    }
    EXPECT_THAT(problem_of(percent).remedy, HasSubstr("unit"));
}

} // namespace
} // namespace flangewright::material
