// The walls along a made-up part whose angle is a formula of wall and station.
#include "solver/process/even_angle.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::process {
namespace {

constexpr double tolerance = 0.3;

findings::StationFindings at(double station, double angle) {
    findings::StationFindings findings;
    findings.station = station;
    findings.flange_angle = angle;
    return findings;
}

class EvenAngle : public ::testing::Test {
protected:
    EvenAngle() {
        search_.stations = {0, 20, 40, 60};
        search_.wanted = outline::Profile({{0, 90}});
        search_.walls = {93, 93, 93, 93};
        search_.tolerance = tolerance;
        search_.least_wall = 80;
        search_.most_wall = 120;
        works_.job_at =
            [this](const std::vector<double>& stations, const std::vector<double>& walls) {
                stations_ = stations;
                walls_ = walls;
                return std::optional<job::Job>(job::Job{});
            };
        works_.run_job = [this](const job::Job&, const RunOptions&, const Monitor&) {
            ++n_runs_;
            return Result<JobResult>(dips_ ? dipped_part() : part_of(walls_));
        };
        works_.rounded = [](double value) { return std::round(100 * value) / 100; };
    }

    // A station feels its neighbours' walls a little, as a stiff flange does.
    JobResult part_of(const std::vector<double>& walls) const {
        JobResult result;
        result.reason = fails_ ? StopReason::no_equilibrium : StopReason::done;
        StepResult released;
        released.kind = job::StepKind::release;
        for (std::size_t i = 0; i < walls.size(); ++i) {
            const double before = walls[i == 0 ? 0 : i - 1];
            const double after = walls[std::min(i + 1, walls.size() - 1)];
            const double wall = (1 - 2 * shared_) * walls[i] + shared_ * (before + after);
            released.findings.stations.push_back(
                at(search_.stations[i], wall - 3 - 0.5 * std::sin(static_cast<double>(i)) * spread_)
            );
        }
        result.steps.push_back(released);
        return result;
    }

    // An angle 1 deg too small in the middle between two stations, whatever these do; it is felt
    // over some 8 mm.
    JobResult dipped_part() const {
        JobResult result;
        StepResult released;
        released.kind = job::StepKind::release;
        std::vector<outline::ProfilePoint> points;
        for (std::size_t i = 0; i < walls_.size(); ++i) {
            points.push_back({stations_[i], walls_[i]});
        }
        const outline::Profile wall(points);
        for (int i = 0; i <= 30; ++i) {
            const double station = 2.0 * i;
            const double dip = std::max(0.0, 1 - std::abs(station - 30) / 8);
            released.findings.stations.push_back(at(station, wall.at(station) - 3 - dip));
        }
        result.steps.push_back(released);
        return result;
    }

    AlongSearch search_;
    AlongWorks works_;
    std::vector<double> stations_;
    std::vector<double> walls_;
    bool dips_ = false;
    double shared_ = 0.1;
    double spread_ = 4;
    bool fails_ = false;
    int n_runs_ = 0;
};

TEST_F(EvenAngle, BringsEveryStationWithinTheTolerance) {
    const AlongFound found = find_walls(search_, works_, {});
    ASSERT_EQ(found.end, AlongEnd::found);
    const std::vector<double> angles = angles_at(part_of(found.nearest->walls), search_.stations);
    for (const double angle : angles) {
        EXPECT_NEAR(angle, 90, tolerance);
    }
    EXPECT_EQ(angles, found.nearest->angles);
    EXPECT_GT(std::abs(found.nearest->walls[1] - found.nearest->walls[3]), 0.5); // they differ
    EXPECT_LE(n_runs_, 5);
    EXPECT_TRUE(found.check);
}

TEST_F(EvenAngle, MeetsAnAngleThatVaries) {
    search_.wanted = outline::Profile({{0, 80}, {60, 92}});
    const AlongFound found = find_walls(search_, works_, {});
    ASSERT_EQ(found.end, AlongEnd::found);
    EXPECT_NEAR(found.nearest->angles.front(), 80, tolerance);
    EXPECT_NEAR(found.nearest->angles.back(), 92, tolerance);
}

TEST_F(EvenAngle, PutsAStationInWhereTheAngleIsOffBetweenTwo) {
    dips_ = true;
    const AlongFound found = find_walls(search_, works_, {});
    ASSERT_EQ(found.end, AlongEnd::found);
    EXPECT_GT(found.nearest->stations.size(), 4U);
    EXPECT_TRUE(std::ranges::binary_search(found.nearest->stations, 30));
    EXPECT_EQ(found.nearest->stations.size(), found.nearest->walls.size());
    for (const findings::StationFindings& there : found.check->steps.back().findings.stations) {
        EXPECT_NEAR(there.flange_angle, 90, tolerance) << there.station;
    }
    search_.least_apart = 15; // no room for another one
    EXPECT_EQ(find_walls(search_, works_, {}).end, AlongEnd::not_near);
}

TEST_F(EvenAngle, BeginsWithTheRunThatIsThere) {
    works_.first = std::make_shared<const JobResult>(part_of(search_.walls));
    const AlongFound found = find_walls(search_, works_, {});
    EXPECT_EQ(found.end, AlongEnd::found);
    EXPECT_EQ(found.runs.size(), static_cast<std::size_t>(n_runs_)); // the first is no new one
    spread_ = 0;
    n_runs_ = 0;
    works_.first = std::make_shared<const JobResult>(part_of(search_.walls));
    EXPECT_EQ(find_walls(search_, works_, {}).end, AlongEnd::found);
    EXPECT_EQ(n_runs_, 0);
}

TEST_F(EvenAngle, StaysWithinTheBoundsAndSaysSo) {
    search_.most_wall = 93.2;
    const AlongFound found = find_walls(search_, works_, {});
    EXPECT_EQ(found.end, AlongEnd::not_near);
    EXPECT_LE(std::ranges::max(found.nearest->walls), 93.2);
    EXPECT_GT(found.nearest->most_off, tolerance);
}

TEST_F(EvenAngle, KeepsTheNearestWhereNeighboursDecideMore) {
    shared_ = 0.45; // the walls hardly tell the angle
    const AlongFound found = find_walls(search_, works_, {});
    ASSERT_TRUE(found.nearest);
    for (const AlongRun& run : found.runs) {
        EXPECT_GE(run.most_off, found.nearest->most_off);
    }
    EXPECT_EQ(found.end == AlongEnd::found, found.nearest->most_off <= tolerance);
}

TEST_F(EvenAngle, SaysThatThereIsNoBalance) {
    fails_ = true;
    const AlongFound found = find_walls(search_, works_, {});
    EXPECT_EQ(found.end, AlongEnd::no_balance);
    EXPECT_FALSE(found.nearest);
}

TEST_F(EvenAngle, KeepsWhatWasFoundWhenStopped) {
    std::stop_source stop;
    Monitor monitor;
    monitor.stop = stop.get_token();
    works_.on_run = [&](const AlongRun&) { stop.request_stop(); };
    const AlongFound found = find_walls(search_, works_, monitor);
    EXPECT_EQ(found.end, AlongEnd::stopped);
    EXPECT_EQ(found.runs.size(), 1U);
    EXPECT_TRUE(found.nearest && found.check);
}

TEST(AnglesAt, GoStraightFromStationToStation) {
    JobResult run;
    StepResult released;
    released.kind = job::StepKind::release;
    released.findings.stations = {at(1, 1.0), at(3, 2.0)};
    StepResult held = released;
    held.kind = job::StepKind::set_on_block;
    held.findings.stations.front().flange_angle = 9;
    run.steps = {released, held}; // of the last step off the block
    const std::vector<double> expected{1, 1.5, 2, 2};
    EXPECT_EQ(angles_at(run, {0, 2, 3, 9}), expected);
    run.steps = {held};
    EXPECT_TRUE(angles_at(run, {0}).empty());
}

} // namespace
} // namespace flangewright::process
