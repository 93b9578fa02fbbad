#include "io/part_view/part_view.hpp"
#include "io/part_view/view_data.hpp"
#include "io/sheet_page/sheet_page.hpp"
#include "tests/support/formed_flange.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <cstdlib>
#include <fstream>

namespace flangewright::part_view {
namespace {

using testing::HasSubstr;
using testing::Not;

nlohmann::json read_back(const process::JobResult& result, units::LengthUnit unit) {
    return nlohmann::json::parse(
        view_data(result, view_states(support::made_up_job(), result, 0), unit)
    );
}

TEST(PartView, DataAreJsonWithAFieldForEachFigureThatIsKnown) {
    const process::JobResult result = support::made_up_result();
    const nlohmann::json data = read_back(result, units::LengthUnit::millimetre);
    EXPECT_EQ(data.at("meshes").size(), 1U);
    EXPECT_EQ(data.at("meshes")[0].at("nodes"), result.mesh.n_nodes());
    EXPECT_EQ(data.at("states").size(), 2U);
    bool has_thinning = false;
    for (const nlohmann::json& field : data.at("fields")) {
        EXPECT_LT(field.at("low").get<double>(), field.at("top").get<double>());
        has_thinning = has_thinning || field.at("key") == "thinning";
    }
    EXPECT_TRUE(has_thinning);
    // 6 bytes a node, 4 letters for 3 bytes.
    EXPECT_EQ(
        data.at("states")[0].at("points").get<std::string>().size(),
        static_cast<std::size_t>(8 * result.mesh.n_nodes())
    );
}

TEST(PartView, ShowsFirstWhatThePageBeginsWith) {
    const process::JobResult result = support::made_up_result();
    std::vector<ViewState> states = view_states(support::made_up_job(), result, 0);
    const auto first = [&result, &states] {
        return nlohmann::json::parse(view_data(result, states, units::LengthUnit::millimetre))
            .at("first");
    };
    const auto figures_of = [](ViewState& state, Field field) -> Eigen::VectorXd& {
        return state.figures[static_cast<std::size_t>(field)];
    };
    const Eigen::VectorXd full = Eigen::VectorXd::Constant(result.mesh.n_nodes(), 80);
    for (ViewState& state : states) {
        figures_of(state, Field::share_used) = full;
        figures_of(state, Field::thinning) = 0.1 * full;
    }
    EXPECT_EQ(first(), "share");
    // Heat treated: what the sheet bears is nearly whole again.
    figures_of(states.back(), Field::share_used) = 0.1 * full;
    EXPECT_EQ(first(), "thinning");
}

TEST(PartView, MarksOfAScaleAreRoundAndZeroIsOneOfThem) {
    const process::JobResult result = support::made_up_result();
    std::vector<ViewState> states = view_states(support::made_up_job(), result, 0);
    Eigen::VectorXd figures = Eigen::VectorXd::Zero(result.mesh.n_nodes());
    figures[0] = 7.8;
    figures[1] = -2.3; // it thickens there
    states.back().figures[static_cast<std::size_t>(Field::thinning)] = figures;
    states.front().figures[static_cast<std::size_t>(Field::thinning)] = 0 * figures;
    const auto data =
        nlohmann::json::parse(view_data(result, states, units::LengthUnit::millimetre));
    for (const nlohmann::json& field : data.at("fields")) {
        if (field.at("key") == "thinning") {
            EXPECT_EQ(field.at("low"), -4);
            EXPECT_EQ(field.at("top"), 8);
            EXPECT_EQ(field.at("steps"), 6); // -4, -2, 0 ... 8
            EXPECT_EQ(field.at("decimals"), 0);
        }
    }
}

TEST(PartView, LengthsAreInTheUsersUnit) {
    const process::JobResult result = support::made_up_result();
    const auto top_of = [&result](units::LengthUnit unit) {
        const nlohmann::json data = read_back(result, unit);
        for (const nlohmann::json& field : data.at("fields")) {
            if (field.at("key") == "movement") {
                EXPECT_EQ(field.at("unit"), unit == units::LengthUnit::inch ? "in" : "mm");
                return field.at("top").get<double>();
            }
        }
        return 0.0;
    };
    const double in_mm = top_of(units::LengthUnit::millimetre);
    EXPECT_GT(in_mm, 10 * top_of(units::LengthUnit::inch));
}

TEST(PartView, HoldsLibraryLicenceAndTheWayOutAndReachesOutForNothing) {
    const std::string view =
        part_view(support::made_up_job(), support::made_up_result(), units::LengthUnit::millimetre);
    EXPECT_THAT(view, HasSubstr("Permission is hereby granted, free of charge"));
    EXPECT_THAT(view, HasSubstr("OrbitControls"));
    EXPECT_THAT(view, HasSubstr("needs a browser that runs"));
    EXPECT_THAT(view, HasSubstr("not approved data"));
    EXPECT_THAT(view, Not(HasSubstr("<script src")));
    EXPECT_THAT(view, Not(HasSubstr("<link")));
    EXPECT_LT(view.size(), 1'800'000U);
}

TEST(PartView, IsNothingWithoutAShape) {
    EXPECT_EQ(part_view(support::made_up_job(), {}, units::LengthUnit::millimetre), "");
}

// For in_browser.py, which turns it; elsewhere only that it can be written.
TEST(PartView, WritesAPageToLookAt) {
    const char* path = std::getenv("FLANGEWRIGHT_PAGE");
    const job::Job job = support::made_up_job();
    const process::JobResult result = support::made_up_result();
    const std::string page = sheet_page::sheet_page(
        {}, job, result, {}, part_view(job, result, units::LengthUnit::millimetre)
    );
    EXPECT_THAT(page, HasSubstr("id=\"part-view-data\""));
    if (path != nullptr) {
        std::ofstream(path) << page;
    }
}

} // namespace
} // namespace flangewright::part_view
