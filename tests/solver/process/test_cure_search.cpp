// Amounts are worked in and looked for on the part itself.
#include "solver/process/cure_search.hpp"
#include "solver/process/web_reading.hpp"
#include "tests/support/flat_web_part.hpp"

#include <gtest/gtest.h>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;
using outline::Curve;

Workpiece flat_part() {
    return support::flat_web_part(
        support::small_flange(
            BendLine::arc(60, 0.8, Curve::concave), EndKind::free, EndKind::continues
        ),
        12
    );
}

constexpr double known = 0.01;

// The part with one zone stretched, and how it lay before.
struct Spoilt {
    Workpiece piece = flat_part();
    Eigen::MatrixXd shares = edge_shares(piece, edge_zones(piece));
    shell::SheetState flat = piece.state;
    WebReading web = read_web(piece);

    void spoil(Eigen::Index zone) {
        piece.state = flat;
        ASSERT_TRUE(
            work_edge({piece, shares, {}}, known * Eigen::VectorXd::Unit(shares.cols(), zone))
        );
    }
};

// Without damping the zone and the amount that put the web out of flat are found again.
TEST(CureSearch, FitFindsAKnownStretchOfOneZone) {
    Spoilt part;
    ASSERT_EQ(part.shares.cols(), 4);
    for (Eigen::Index zone = 0; zone < part.shares.cols(); ++zone) {
        part.spoil(zone);
        const WebReading web = read_web(part.piece);
        FlatFit fit = fit_of(part.piece, web);
        fit.heights = web.gaps - part.web.gaps;
        fit.influence = web_influence(part.piece, web, part.shares);
        fit.amounts = Eigen::VectorXd::Zero(part.shares.cols());
        fit.damping = 1e-4;
        const Eigen::VectorXd found = flattening_amounts(fit);
        const Eigen::VectorXd undone = -known * Eigen::VectorXd::Unit(part.shares.cols(), zone);
        EXPECT_LT((found - undone).cwiseAbs().maxCoeff(), 0.1 * known);
    }
}

// With it neighbours share the work, since less of each then does as well.
TEST(CureSearch, UndoesAKnownStretchWhereItWasPutIn) {
    Spoilt part;
    for (Eigen::Index zone = 0; zone < part.shares.cols(); ++zone) {
        part.spoil(zone);
        const double lift = read_web(part.piece).lift;
        ASSERT_GT(lift, 5 * part.web.lift);
        const auto found = search_flattening({part.piece, part.shares, {}}, [](double) {});
        ASSERT_TRUE(found);
        EXPECT_LT(read_web(part.piece).lift, 0.1 * lift + part.web.lift);
        Eigen::Index strongest = 0;
        found->cwiseAbs().maxCoeff(&strongest);
        EXPECT_EQ(strongest, zone);
        EXPECT_NEAR((*found)[zone], -known, 0.4 * known);
    }
}

TEST(CureSearch, StopsWhenAsked) {
    Workpiece piece = flat_part();
    std::stop_source source;
    source.request_stop();
    const EdgeWork work{piece, edge_shares(piece, edge_zones(piece)), source.get_token()};
    EXPECT_FALSE(work_edge(work, Eigen::VectorXd::Constant(work.shares.cols(), 0.01)));
}

} // namespace
} // namespace flangewright::process
