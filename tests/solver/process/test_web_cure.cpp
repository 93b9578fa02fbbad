// A formed and released part is told how to work its edge, and lies flatter for it.
#include "solver/process/cure_search.hpp"
#include "solver/process/release.hpp"
#include "solver/process/web_cure.hpp"
#include "solver/process/web_reading.hpp"
#include "tests/support/flat_web_part.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::process {
namespace {

using job::EndKind;
using job::StepKind;
using outline::BendLine;
using outline::Curve;

const CureChoice any_lift{.smallest_lift = 0.01};

Workpiece sprung_part(EndKind start, EndKind end) {
    Workpiece piece = support::small_workpiece(
        support::small_flange(BendLine::arc(40, 0.7, Curve::concave), start, end), 9
    );
    EXPECT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    EXPECT_EQ(release(piece, {}, {}).reason, StopReason::done);
    return piece;
}

TEST(WebCure, BringsTheWebOfASprungPartFlat) {
    for (const EndKind start : {EndKind::free, EndKind::continues}) {
        Workpiece piece = sprung_part(start, EndKind::continues);
        const double lift = read_web(piece).lift;
        ASSERT_GT(lift, 0.02);
        const shell::SheetState before = piece.state;
        const auto cure = find_web_cure(piece, any_lift, {});
        ASSERT_TRUE(cure);
        EXPECT_EQ(cure->lift_before, lift);
        EXPECT_TRUE(cure->helps());
        EXPECT_LE(cure->lift_after, 0.3 * lift);
        EXPECT_NE(cure->angle_change, 0);
        ASSERT_FALSE(cure->zones.empty());
        for (const CureZone& zone : cure->zones) {
            EXPECT_LT(zone.from, zone.to);
            EXPECT_GE(std::abs(zone.stretch), any_lift.least_named);
            EXPECT_LE(std::abs(zone.put_in), any_lift.most);
            EXPECT_GT(zone.stretch * zone.put_in, 0);
        }
        EXPECT_EQ(piece.state.positions, before.positions); // the part itself is not touched
        EXPECT_EQ(piece.state.points[0].equivalent, before.points[0].equivalent);
    }
}

// What is named is what was worked in: put into the part again, it does the same.
TEST(WebCure, HoldsWhatItPromises) {
    Workpiece piece = sprung_part(EndKind::free, EndKind::continues);
    const auto cure = find_web_cure(piece, any_lift, {});
    ASSERT_TRUE(cure);
    const std::vector<EdgeZone> zones = edge_zones(piece);
    const Eigen::MatrixXd shares = edge_shares(piece, zones);
    Eigen::VectorXd amounts = Eigen::VectorXd::Zero(shares.cols());
    for (const CureZone& named : cure->zones) {
        for (std::size_t i = 0; i < zones.size(); ++i) {
            if (zones[i].from == named.from) {
                amounts[static_cast<Eigen::Index>(i)] = named.put_in;
            }
        }
    }
    ASSERT_TRUE(work_edge({piece, shares, {}}, amounts));
    EXPECT_NEAR(read_web(piece).lift, cure->lift_after, 1e-9);
    // The wrong way round it gets worse.
    Workpiece other = sprung_part(EndKind::free, EndKind::continues);
    ASSERT_TRUE(work_edge({other, shares, {}}, -amounts));
    EXPECT_GT(read_web(other).lift, 1.3 * cure->lift_before);
}

// The mid-plane of the part stays one: nothing leaves it.
TEST(WebCure, KeepsPlanesOfSymmetry) {
    Workpiece piece = sprung_part(EndKind::free, EndKind::continues);
    const Eigen::MatrixXd shares = edge_shares(piece, edge_zones(piece));
    const auto off_plane = [&piece] {
        const outline::LineFrame frame = piece.job.blank.line.frame(piece.job.blank.line.length());
        double most = 0;
        for (const int node : piece.mesh.far_end) {
            const Eigen::Vector3d at = piece.state.positions.col(node);
            most = std::max(most, std::abs((at - frame.point).dot(frame.tangent)));
        }
        return most;
    };
    ASSERT_TRUE(work_edge({piece, shares, {}}, Eigen::VectorXd::Constant(shares.cols(), 0.01)));
    EXPECT_LT(off_plane(), 1e-9);
}

TEST(WebCure, OfAFlatWebIsNone) {
    Workpiece piece = support::flat_web_part(
        support::small_flange(BendLine::straight(20), EndKind::free, EndKind::free), 4
    );
    EXPECT_FALSE(find_web_cure(piece, any_lift, {}));
    Workpiece sprung = sprung_part(EndKind::free, EndKind::continues);
    ASSERT_LT(read_web(sprung).lift, CureChoice{}.smallest_lift);
    EXPECT_FALSE(find_web_cure(sprung, {}, {}));
}

TEST(WebCure, SaysWhenItDoesNotHelp) {
    Workpiece piece = sprung_part(EndKind::free, EndKind::continues);
    const auto cure = find_web_cure(piece, {.smallest_lift = 0.01, .most = 0.001}, {});
    ASSERT_TRUE(cure);
    EXPECT_FALSE(cure->helps());
    EXPECT_LT(cure->lift_after, cure->lift_before);
    EXPECT_LT(cure->share_gone(), 0.7);
    for (const CureZone& zone : cure->zones) {
        EXPECT_LE(std::abs(zone.put_in), 0.001);
    }
}

TEST(WebCure, HelpsFromSevenTenthsOfTheLiftOn) {
    WebCure cure{.zones = {{0, 10, 0.01, 0.02}}, .lift_before = 1, .lift_after = 0.31};
    EXPECT_FALSE(cure.helps());
    cure.lift_after = 0.29;
    EXPECT_TRUE(cure.helps());
    cure.zones.clear();
    EXPECT_FALSE(cure.helps());
}

TEST(WebCure, StopsWhenAskedAndLeavesThePartAsItWas) {
    Workpiece piece = sprung_part(EndKind::free, EndKind::continues);
    const shell::SheetState before = piece.state;
    for (const int n_reports : {0, 1, 2, 3}) {
        std::stop_source source;
        int n = 0;
        Monitor monitor;
        monitor.stop = source.get_token();
        monitor.on_progress = [&](const Progress& progress) {
            EXPECT_EQ(progress.step, "web cure");
            if (++n == n_reports) {
                source.request_stop();
            }
        };
        if (n_reports == 0) {
            source.request_stop();
        }
        EXPECT_FALSE(find_web_cure(piece, any_lift, monitor));
        EXPECT_EQ(piece.state.positions, before.positions);
        EXPECT_EQ(piece.held_by.on_positions.norm(), 0);
    }
}

TEST(WebCure, IsForTheLastFreePartBeforeALipOrHeatTreatment) {
    using enum StepKind;
    EXPECT_FALSE(workable_step({bend_down}));
    EXPECT_EQ(workable_step({bend_down, release}), 1U);
    EXPECT_EQ(workable_step({bend_down, release, trim}), 2U);
    EXPECT_EQ(workable_step({bend_down, release, set_on_block}), 1U);
    EXPECT_EQ(workable_step({bend_down, release, trim, heat_treat}), 2U);
    EXPECT_EQ(
        workable_step({bend_down, release, anneal, set_on_block, return_bend, release, trim}), 2U
    );
    EXPECT_FALSE(workable_step({bend_down, return_bend, release}));
}

} // namespace
} // namespace flangewright::process
