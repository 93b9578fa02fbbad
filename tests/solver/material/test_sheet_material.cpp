#include "solver/material/sheet_material.hpp"

#include <gtest/gtest.h>

#include <set>

namespace flangewright::material {
namespace {

TEST(SheetMaterial, EveryFinishHasItsOwnWord) {
    std::set<std::string> words;
    for (const EdgeFinish finish : edge_finishes) {
        words.insert(word_for(finish));
    }
    EXPECT_EQ(words, (std::set<std::string>{"snipped", "sawn", "filed", "polished"}));
}

TEST(SheetMaterial, StartsWithNothingKnownOfItsLimits) {
    const SheetMaterial material;
    EXPECT_FALSE(material.fitted_to.has_value());
    EXPECT_FALSE(material.r_values.has_value());
    EXPECT_TRUE(material.edge_limits.empty());
    EXPECT_FALSE(material.forming_limit.has_value());
}

} // namespace
} // namespace flangewright::material
