// Reads the drawing as a printer would and measures it.
#include "io/coupon/template_drawing.hpp"
#include "tests/io/coupon/coupon_parts.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <cmath>
#include <numbers>
#include <regex>

namespace flangewright::coupon {
namespace {

using ::testing::ContainsRegex;
using ::testing::HasSubstr;

constexpr double digits = 2e-3; // coordinates are written to a thousandth

struct Line {
    Eigen::Vector2d a;
    Eigen::Vector2d b;
    [[nodiscard]] double length() const { return (b - a).norm(); }
};

struct Arc {
    double radius = 0;
    Eigen::Vector2d a;
    Eigen::Vector2d b;

    /// The centre to the left of the way from a to b, seen on paper (y down).
    [[nodiscard]] Eigen::Vector2d centre() const {
        const Eigen::Vector2d chord = b - a;
        const Eigen::Vector2d left(chord.y(), -chord.x());
        const double half = 0.5 * chord.norm();
        return 0.5 * (a + b) + left.normalized() * std::sqrt(radius * radius - half * half);
    }
};

class Drawing : public ::testing::Test {
protected:
    [[nodiscard]] Line line(const std::string& id) const {
        const std::regex pattern(
            "<line id=\"" + id
            + "\"[^>]* x1=\"([-0-9.]+)\" y1=\"([-0-9.]+)\" x2=\"([-0-9.]+)\" y2=\"([-0-9.]+)\""
        );
        std::smatch found;
        EXPECT_TRUE(std::regex_search(text_, found, pattern)) << id;
        const auto number = [&found](std::size_t i) { return std::stod(found[i]); };
        return {{number(1), number(2)}, {number(3), number(4)}};
    }
    [[nodiscard]] std::vector<Arc> arcs(const std::string& id) const {
        std::smatch found;
        EXPECT_TRUE(std::regex_search(
            text_, found, std::regex("<path id=\"" + id + "\"[^>]* d=\"M ([^\"]+)\"")
        )) << id;
        std::istringstream path(found[1]);
        Eigen::Vector2d at;
        path >> at.x() >> at.y();
        std::vector<Arc> arcs;
        std::string letter;
        double second = 0;
        int turn = 0;
        int large = 0;
        int sweep = 0;
        Arc arc;
        while (path >> letter >> arc.radius >> second >> turn >> large >> sweep >> arc.b.x()
               >> arc.b.y()) {
            EXPECT_EQ(letter, "A");
            EXPECT_EQ(sweep, 0); // to the left on paper
            EXPECT_EQ(large, 0);
            EXPECT_EQ(arc.radius, second);
            arc.a = at;
            at = arc.b;
            arcs.push_back(arc);
        }
        return arcs;
    }

    CouponParts parts_ = coupon_parts();
    std::string text_ = template_drawing(parts_.read.job, parts_.flange, parts_.marks);
};

TEST_F(Drawing, IsAtRealSizeWithBarsToCheckIt) {
    std::smatch size;
    ASSERT_TRUE(std::regex_search(
        text_,
        size,
        std::regex(
            "width=\"([0-9.]+)mm\" height=\"([0-9.]+)mm\" viewBox=\"0 0 ([0-9.]+) ([0-9.]+)\""
        )
    ));
    EXPECT_EQ(size[1], size[3]); // one unit is one millimetre
    EXPECT_EQ(size[2], size[4]);
    EXPECT_NEAR(line("bar-100-mm").length(), 100, digits);
    EXPECT_NEAR(line("bar-4-in").length(), 101.6, digits);
    EXPECT_THAT(text_, HasSubstr("Print at 100 %"));
    EXPECT_THAT(text_, HasSubstr("not approved data"));
}

TEST_F(Drawing, HasTheRadiiOfTheSteps) {
    const std::vector<Arc> bend = arcs("bend-line");
    const std::vector<Arc> edge = arcs("edge");
    const std::vector<Arc> block = arcs("block");
    ASSERT_EQ(bend.size(), parts_.flange.steps.size());
    ASSERT_EQ(edge.size(), bend.size());
    for (std::size_t i = 0; i < bend.size(); ++i) {
        const double radius = parts_.flange.steps[i].radius;
        EXPECT_NEAR(bend[i].radius, radius, digits);
        EXPECT_NEAR(edge[i].radius, radius - parts_.flange.flat_width, digits);
        EXPECT_NEAR(block[i].radius, radius - 2.4, digits);
        // Both about one centre: what is drawn, not what is written beside it. Half a thousandth at
        // each end of a chord moves the centre by that over the chord's half angle, twice.
        const double half_angle = std::asin(0.5 * (edge[i].b - edge[i].a).norm() / edge[i].radius);
        EXPECT_NEAR(
            (bend[i].centre() - edge[i].centre()).norm(), 0, 2 * digits / half_angle / half_angle
        );
        EXPECT_THAT(text_, HasSubstr(fmt::format("radius {:g} mm", radius)));
    }
}

TEST_F(Drawing, HasEachMarkOnTheEdgeFiveMillimetresFromTheNext) {
    const std::vector<Arc> edge = arcs("edge");
    for (std::size_t i = 0; i < parts_.marks.size(); ++i) {
        const Line mark = line(fmt::format("mark-{}", i));
        EXPECT_THAT(text_, ContainsRegex(fmt::format("\"number\"[^>]*>{}</text>", i)));
        if (i == 0 || !parts_.marks[i].step || parts_.marks[i - 1].step != parts_.marks[i].step) {
            continue;
        }
        const Arc& arc = edge[*parts_.marks[i].step];
        const Line before = line(fmt::format("mark-{}", i - 1));
        const double chord = (mark.a - before.a).norm();
        EXPECT_NEAR(2 * arc.radius * std::asin(0.5 * chord / arc.radius), 5, digits) << i;
        EXPECT_NEAR(mark.length(), 4, digits);
    }
    EXPECT_NEAR((line("mark-0").a - edge.front().a).norm(), 0, digits);
}

// Turned with the edge, from left to right along it: a number's own x axis points to the next mark.
TEST_F(Drawing, HasNumbersThatReadAlongTheEdge) {
    for (const std::size_t i : {std::size_t{3}, parts_.marks.size() - 3}) {
        std::smatch found;
        ASSERT_TRUE(std::regex_search(
            text_,
            found,
            std::regex(fmt::format("\"number\"[^>]*rotate\\(([-0-9.]+) [^>]*>{}</text>", i))
        ));
        const double turn = std::stod(found[1]) * std::numbers::pi / 180;
        const Eigen::Vector2d along =
            line(fmt::format("mark-{}", i + 1)).a - line(fmt::format("mark-{}", i - 1)).a;
        const double wanted = std::atan2(along.y(), along.x()); // y down, as the drawing's angles
        EXPECT_GT(std::abs(wanted), 0.1);
        EXPECT_NEAR(turn, wanted, 0.01);
    }
}

TEST_F(Drawing, HasWebAndFlangeAcrossItsEnds) {
    const double width = parts_.flange.web_width + parts_.flange.flat_width;
    EXPECT_NEAR(line("start-end").length(), width, digits);
    EXPECT_NEAR(line("far-end").length(), width, digits);
    EXPECT_NEAR((line("start-end").b - arcs("edge").front().a).norm(), 0, digits);
    EXPECT_NEAR((line("far-end").b - arcs("edge").back().b).norm(), 0, digits);
}

TEST_F(Drawing, LiesOnThePaper) {
    std::smatch size;
    ASSERT_TRUE(std::regex_search(text_, size, std::regex("viewBox=\"0 0 ([0-9.]+) ([0-9.]+)\"")));
    for (const char* id : {"web-edge", "bend-line", "edge"}) {
        for (const Arc& arc : arcs(id)) {
            for (const Eigen::Vector2d& at : {arc.a, arc.b}) {
                EXPECT_GT(at.x(), 5);
                EXPECT_GT(at.y(), 45);
                EXPECT_LT(at.x(), std::stod(size[1]) - 5);
                EXPECT_LT(at.y(), std::stod(size[2]) - 5);
            }
        }
    }
}

} // namespace
} // namespace flangewright::coupon
