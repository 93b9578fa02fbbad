#include "mesh/base/sign_change.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace flangewright {
namespace {

using Function = std::function<std::optional<double>(double)>;

/// A search that counts what it asks for.
class SignChangeSearch : public ::testing::Test {
protected:
    SignChange find(const SignSearch& search, const Function& function) {
        return find_sign_change(search, [&](const std::vector<double>& places) {
            ++n_rounds_;
            most_at_once_ = std::max(most_at_once_, places.size());
            std::vector<std::optional<double>> figures;
            for (const double at : places) {
                EXPECT_GE(at, search.from);
                EXPECT_LE(at, search.to);
                figures.push_back(function(at));
            }
            return figures;
        });
    }

    int n_rounds_ = 0;
    std::size_t most_at_once_ = 0;
};

// The two sides enclose the root and lie as near as asked: that is the promise.
void expect_encloses(const SignChange& change, double root, double tolerance) {
    ASSERT_EQ(change.end, SignEnd::found);
    ASSERT_TRUE(change.below && change.above);
    EXPECT_LE(change.below->at, root);
    EXPECT_GE(change.above->at, root);
    EXPECT_LE(change.above->at - change.below->at, tolerance);
    EXPECT_NEAR(change.at, root, tolerance);
}

TEST_F(SignChangeSearch, EnclosesTheRootsOfKnownFunctions) {
    constexpr double tolerance = 1e-6;
    struct Known {
        Function function;
        double from;
        double to;
        double root;
    };
    const std::vector<Known> all{
        {[](double x) { return x * x - 2; }, 0, 2, std::numbers::sqrt2},
        {[](double x) { return 2 - x * x; }, 0, 2, std::numbers::sqrt2}, // falling
        {[](double x) { return std::cos(x) - x; }, 0, 1, 0.7390851332151607}, // the Dottie number
        {[](double x) { return std::exp(x) - 5; }, -10, 10, std::log(5.0)},
        {[](double x) { return std::pow(x - 0.3, 9); }, 0, 1, 0.3}, // flat at its root
        {[](double x) { return std::atan(50 * (x - 0.9)); }, 0, 1, 0.9}}; // steep at its root
    for (const int n_at_once : {1, 2, 4}) {
        for (const Known& known : all) {
            n_rounds_ = 0;
            const SignSearch search{known.from, known.to, tolerance, 0, n_at_once, 60};
            expect_encloses(find(search, known.function), known.root, tolerance);
            EXPECT_LE(n_rounds_, 45); // plain halving and a secant round for each, of 2^24
        }
    }
}

TEST_F(SignChangeSearch, TakesFewRoundsWhereTheFigureIsNearlyStraight) {
    const SignSearch search{80, 120, 0.05, 0, 2};
    const auto angle = [](double wall) { return wall - 2.6 - 0.03 * (wall - 90) - 90; };
    expect_encloses(find(search, angle), 90 + 2.6 / 0.97, 0.05);
    EXPECT_LE(n_rounds_, 4);
    EXPECT_EQ(most_at_once_, 2U);
}

TEST_F(SignChangeSearch, EnclosesAStepAsIfAVerdictFlipped) {
    const SignSearch search{0, 30, 0.5, 0, 2};
    const SignChange change = find(search, [](double x) { return x < 17.3 ? -0.4 : 0.1; });
    expect_encloses(change, 17.3, 0.5);
    EXPECT_LE(*change.below->figure, 0);
    EXPECT_GT(*change.above->figure, 0);
    EXPECT_LE(n_rounds_, 8);
}

TEST_F(SignChangeSearch, StopsWhereTheFigureIsNearEnough) {
    const SignSearch search{0, 10, 1e-9, 0.1};
    const SignChange change = find(search, [](double x) { return x - 3; });
    EXPECT_EQ(change.end, SignEnd::found);
    EXPECT_NEAR(change.at, 3, 0.1);
    EXPECT_LE(n_rounds_, 3);
}

TEST_F(SignChangeSearch, FindsARootAtABound) {
    const SignChange change = find({0, 1, 1e-3, 1e-12}, [](double x) { return x; });
    EXPECT_EQ(change.end, SignEnd::found);
    EXPECT_EQ(change.at, 0);
    EXPECT_EQ(n_rounds_, 1);
}

TEST_F(SignChangeSearch, SaysThatNothingChanges) {
    const SignChange change = find({0, 1, 1e-3}, [](double x) { return x + 1; });
    EXPECT_EQ(change.end, SignEnd::no_change);
    ASSERT_EQ(change.tried.size(), 2U); // both bounds, with their figures
    EXPECT_EQ(change.tried.front().figure, 1);
    EXPECT_EQ(change.tried.back().figure, 2);
    EXPECT_FALSE(change.below || change.above);
}

TEST_F(SignChangeSearch, LooksForTheChangeShortOfABoundWithoutFigure) {
    const auto deep_flange_buckles = [](double x) {
        return x > 25 ? std::nullopt : std::optional(x - 18);
    };
    expect_encloses(find({5, 60, 0.5, 0, 2}, deep_flange_buckles), 18, 0.5);
}

TEST_F(SignChangeSearch, LooksAroundAPointWithoutFigure) {
    const auto has_hole = [](double x) {
        return std::abs(x - 5) < 0.6 ? std::nullopt : std::optional(x - 7);
    };
    expect_encloses(find({0, 10, 0.01, 0, 2}, has_hole), 7, 0.01);
}

TEST_F(SignChangeSearch, EndsWhereTheChangeLiesInTheGap) {
    const auto has_hole = [](double x) {
        return std::abs(x - 5) < 2 ? std::nullopt : std::optional(x - 5);
    };
    const SignChange change = find({0, 10, 0.1, 0, 2, 30}, has_hole);
    EXPECT_EQ(change.end, SignEnd::rounds_used);
    ASSERT_TRUE(change.below && change.above);
    EXPECT_NEAR(change.below->at, 3, 0.2);
    EXPECT_NEAR(change.above->at, 7, 0.2);
}

TEST_F(SignChangeSearch, SaysThatNoPointHasAFigure) {
    const SignChange change = find({0, 1, 1e-3}, [](double) { return std::nullopt; });
    EXPECT_EQ(change.end, SignEnd::no_figure);
    EXPECT_LE(n_rounds_, 7);
}

TEST_F(SignChangeSearch, TakesAnInfiniteFigureForNone) {
    const auto pole = [](double x) { return x == 0 ? -1 / x : x - 0.26; };
    expect_encloses(find({0, 1, 1e-3}, pole), 0.26, 1e-3);
}

TEST_F(SignChangeSearch, KeepsWhatIsKnownWhenStopped) {
    int n_asked = 0;
    const SignChange change = find_sign_change({0, 10, 1e-6}, [&](const auto& places) {
        std::vector<std::optional<double>> figures;
        if (++n_asked > 2) {
            return figures;
        }
        for (const double at : places) {
            figures.emplace_back(at - 7.7);
        }
        return figures;
    });
    EXPECT_EQ(change.end, SignEnd::stopped);
    ASSERT_TRUE(change.below && change.above);
    EXPECT_LE(change.below->at, 7.7);
    EXPECT_GE(change.above->at, 7.7);
}

TEST_F(SignChangeSearch, FollowsTheFirstOfSeveralChanges) {
    const SignChange change =
        find({0, 10, 1e-3, 0, 4}, [](double x) { return (x - 1) * (x - 4) * (x - 8); });
    ASSERT_EQ(change.end, SignEnd::found);
    EXPECT_LE(
        std::min({std::abs(change.at - 1), std::abs(change.at - 4), std::abs(change.at - 8)}), 1e-3
    );
}

} // namespace
} // namespace flangewright
