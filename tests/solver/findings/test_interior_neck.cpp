#include "solver/findings/interior_neck.hpp"
#include "tests/support/flange_job.hpp"
#include "tests/support/flat_blank.hpp"
#include "tests/support/flow_law.hpp"
#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

namespace flangewright::findings {
namespace {

using material::DataGrade;

material::SheetMaterial made_up_sheet() {
    material::SheetMaterial material;
    material.hardening = support::swift(330, 0.0032, 0.22);
    material.curve_grade = DataGrade::typical;
    return material;
}

Eigen::VectorXd
shares_of(const MembranePaths& paths, const material::SheetMaterial& sheet, int n_threads) {
    return neck_shares(paths, sheet, limits::fit_groove(sheet), n_threads);
}

/// Paths of the blank with one strain everywhere, but for one node.
MembranePaths
paths_with(int n_nodes, const Eigen::Vector3d& strain, int node, const Eigen::Vector3d& there) {
    Eigen::Matrix3Xd all = strain.replicate(1, n_nodes);
    all.col(node) = there;
    MembranePaths paths(n_nodes);
    paths.end_step(all);
    return paths;
}

// Plane strain of this curve with a groove of 0.99 (closed form: root e + e0 of the shifted power
// law), found at 0.159 with equal steps; half of it uses half.
TEST(InteriorNeck, SharesAPathInProportion) {
    const MembranePaths paths = paths_with(3, {0.06, 0, 0}, 1, {0.12, 0, 0});
    const Eigen::VectorXd shares = shares_of(paths, made_up_sheet(), 2);
    ASSERT_EQ(shares.size(), 3);
    EXPECT_NEAR(shares[1], 2 * shares[0], 1e-6);
    EXPECT_NEAR(0.12 / shares[1], 0.159, 0.003);
}

TEST(InteriorNeck, QuickSharesGoOverIntoFullOnes) {
    const double least = 0.159;
    const MembranePaths paths = paths_with(2, {0.249 * least, 0, 0}, 1, {0.251 * least, 0, 0});
    const Eigen::VectorXd shares = shares_of(paths, made_up_sheet(), 1);
    EXPECT_NEAR(shares[1] / shares[0], 251.0 / 249, 0.01);
}

TEST(InteriorNeck, WithoutACurveIsNotLookedFor) {
    EXPECT_EQ(shares_of(MembranePaths(2), {}, 1).size(), 0);
}

TEST(InteriorNeck, IsLookedForAwayFromEdgesAndBends) {
    const support::FlatBlank blank;
    const grid::SheetMesh mesh = support::flat_blank(blank);
    const job::Job job = support::straight_job();
    const MembranePaths paths(mesh.n_nodes());
    const std::vector<int>& line = mesh.station_lines[4];
    const auto worst_with = [&](int node) {
        Eigen::VectorXd shares = Eigen::VectorXd::Constant(mesh.n_nodes(), 0.1);
        shares[node] = 0.7;
        return worst_neck(mesh, job, paths, shares, false)->share;
    };
    EXPECT_EQ(worst_with(line.back()), 0.1); // free edge
    EXPECT_EQ(worst_with(line.front()), 0.1); // web's edge
    EXPECT_EQ(worst_with(mesh.start_end[2]), 0.1); // cut end
    EXPECT_EQ(worst_with(mesh.bend_begin[4]), 0.1);
    EXPECT_EQ(worst_with(line[10]), 0.1); // in the bend
    EXPECT_EQ(worst_with(line[2]), 0.7); // web
    EXPECT_EQ(worst_with(line[line.size() - 3]), 0.7); // flange
}

TEST(InteriorNeck, IsNotLookedForOnARim) {
    grid::SheetMesh mesh = support::flat_blank({});
    const int node = mesh.station_lines[4][2];
    Eigen::VectorXd shares = Eigen::VectorXd::Constant(mesh.n_nodes(), 0.1);
    shares[node] = 0.7;
    const job::Job job = support::straight_job();
    const MembranePaths paths(mesh.n_nodes());
    EXPECT_EQ(worst_neck(mesh, job, paths, shares, false)->share, 0.7);
    mesh.rims = {{grid::Rim::Kind::hole, 0, {node}}};
    EXPECT_EQ(worst_neck(mesh, job, paths, shares, false)->share, 0.1);
}

// Equal stretch both ways necks much sooner on a surface of exponent 8 than on von Mises.
TEST(InteriorNeck, FollowsTheSheetsYieldLaw) {
    const MembranePaths paths = paths_with(1, {0.1, 0.1, 0}, 0, {0.1, 0.1, 0});
    material::SheetMaterial sheet = made_up_sheet();
    const double von_mises = shares_of(paths, sheet, 1)[0];
    sheet.yield = support::yield_set("iso_m8");
    EXPECT_GT(shares_of(paths, sheet, 1)[0], 1.3 * von_mises);
}

TEST(InteriorNeck, CountsAPlaneOfSymmetryAsInside) {
    const grid::SheetMesh mesh = support::flat_blank({});
    job::Job job = support::straight_job();
    job.blank.start = job::EndKind::continues;
    Eigen::VectorXd shares = Eigen::VectorXd::Constant(mesh.n_nodes(), 0.1);
    shares[mesh.start_end[2]] = 0.7;
    const auto worst = worst_neck(mesh, job, MembranePaths(mesh.n_nodes()), shares, false);
    ASSERT_TRUE(worst);
    EXPECT_EQ(worst->share, 0.7);
    EXPECT_EQ(worst->station, 0);
    EXPECT_LT(worst->distance, 0);
}

// The measured limit in plane strain decides, whatever the curve has: 0.12 of 0.15 is used.
TEST(InteriorNeck, StandsOnTheMeasuredFormingLimit) {
    const MembranePaths paths = paths_with(2, {0.06, 0, 0}, 1, {0.12, 0, 0});
    material::SheetMaterial sheet = made_up_sheet();
    sheet.forming_limit = material::FormingLimit{{{0, 0.14}}, DataGrade::coupon, "dome test", {}};
    const Eigen::VectorXd shares = shares_of(paths, sheet, 1);
    EXPECT_NEAR(shares[1], 0.12 / 0.14, 0.003);
    EXPECT_NEAR(shares[0], 0.5 * shares[1], 1e-6);
    sheet.forming_limit->points[0].major = 0.18;
    EXPECT_NEAR(shares_of(paths, sheet, 1)[1], 0.12 / 0.18, 0.003);
}

// Fitted near plane strain, the groove alone would promise more on the right side than was
// measured.
TEST(InteriorNeck, MeetsEveryMeasuredPointOnAStraightPath) {
    material::SheetMaterial sheet = made_up_sheet();
    sheet.forming_limit = material::FormingLimit{
        {{-0.06, 0.2}, {0, 0.14}, {0.1, 0.17}}, DataGrade::coupon, "dome test", {}};
    ASSERT_GT(limits::fit_groove(sheet).most_above(), 0.1);
    for (const material::FormingPoint& point : sheet.forming_limit->points) {
        const Eigen::Vector3d half(0.5 * point.major, 0.5 * point.minor, 0);
        EXPECT_NEAR(shares_of(paths_with(1, half, 0, half), sheet, 1)[0], 0.5, 0.003)
            << point.minor;
    }
}

// A turn of the path still counts: stretched equally both ways first, then in plane strain.
TEST(InteriorNeck, KeepsThePathWithAFittedGroove) {
    material::SheetMaterial sheet = made_up_sheet();
    sheet.forming_limit = material::FormingLimit{{{0, 0.14}}, DataGrade::coupon, "dome test", {}};
    MembranePaths turned(1);
    turned.end_step(Eigen::Vector3d(0.08, 0.08, 0));
    turned.end_step(Eigen::Vector3d(0.16, 0.08, 0));
    const MembranePaths straight = paths_with(1, {0.16, 0.08, 0}, 0, {0.16, 0.08, 0});
    const double share = shares_of(straight, sheet, 1)[0];
    EXPECT_GT(share, 0.5);
    EXPECT_GT(std::abs(shares_of(turned, sheet, 1)[0] - share), 0.1 * share);
}

TEST(InteriorNeck, IsSetBesideTheOtherCurveWhereItIsNear) {
    material::SheetMaterial sheet = made_up_sheet();
    material::OtherCurve other;
    other.law_name = "swift";
    other.law = support::swift(330, 0.0032, 0.3);
    sheet.other_curves = {other};
    const limits::GrooveFit groove = limits::fit_groove(sheet);
    const std::vector<Eigen::Vector3d> path{{0.12, 0, 0}};
    NeckFindings neck{.share = 0.75};
    set_beside(neck, path, sheet, groove);
    ASSERT_TRUE(neck.other_share);
    EXPECT_EQ(neck.other_law, "swift");
    EXPECT_LT(*neck.other_share, 0.7) << "a steeper curve necks later";
    EXPECT_GT(*neck.other_share, 0.3);
    PartFindings step;
    step.neck = neck;
    const std::string beside = use_of_interior(std::vector{step})->beside;
    EXPECT_NE(beside.find("curve (swift)"), std::string::npos) << beside;
    NeckFindings far{.share = 0.3};
    set_beside(far, path, sheet, groove);
    EXPECT_FALSE(far.other_share);
    sheet.forming_limit = material::FormingLimit{{{0, 0.14}}, DataGrade::coupon, "dome test", {}};
    NeckFindings known{.share = 0.75};
    set_beside(known, path, sheet, limits::fit_groove(sheet));
    EXPECT_FALSE(known.other_share) << "what was measured leaves nothing to bracket";
}

TEST(InteriorNeck, IsWeighedFromItsWorstStep) {
    std::vector<PartFindings> steps(3);
    EXPECT_FALSE(use_of_interior(steps));
    steps[0].neck = NeckFindings{.share = 0.6, .major_strain = 0.09};
    steps[1].neck = NeckFindings{.share = 0.4, .major_strain = 0.12};
    const std::optional<LimitUse> use = use_of_interior(steps);
    ASSERT_TRUE(use);
    EXPECT_EQ(use->share, 0.6);
    EXPECT_NEAR(use->reached, std::expm1(0.09), 1e-12);
    EXPECT_NEAR(use->allowed.value(), std::expm1(0.15), 1e-12);
    EXPECT_TRUE(use->is_needed);
    steps[0].neck->share = 0.45;
    EXPECT_FALSE(use_of_interior(steps)->is_needed);
}

} // namespace
} // namespace flangewright::findings
