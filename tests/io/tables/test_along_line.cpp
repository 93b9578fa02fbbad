#include "io/tables/along_line.hpp"

#include <gtest/gtest.h>

namespace flangewright::tables {
namespace {

using At = findings::StationFindings;

std::vector<At> three_stations() {
    std::vector<At> stations(3);
    stations[0].station = 0;
    stations[1].station = 10;
    stations[2].station = 30;
    stations[0].edge_strain = 1;
    stations[1].edge_strain = 3;
    stations[2].edge_strain = 2;
    return stations;
}

TEST(FigureAlongLine, IsExactAtStations) {
    for (const At& at : three_stations()) {
        EXPECT_DOUBLE_EQ(figure_at(three_stations(), at.station, &At::edge_strain), at.edge_strain);
    }
}

TEST(FigureAlongLine, RunsStraightBetweenStations) {
    EXPECT_DOUBLE_EQ(figure_at(three_stations(), 5, &At::edge_strain), 2);
    EXPECT_DOUBLE_EQ(figure_at(three_stations(), 25, &At::edge_strain), 2.25);
}

TEST(FigureAlongLine, StaysTheSameBeyondTheEnds) {
    EXPECT_DOUBLE_EQ(figure_at(three_stations(), -5, &At::edge_strain), 1);
    EXPECT_DOUBLE_EQ(figure_at(three_stations(), 99, &At::edge_strain), 2);
}

TEST(FigureAlongLine, IsZeroWithoutStations) {
    EXPECT_EQ(figure_at({}, 5, &At::edge_strain), 0);
}

} // namespace
} // namespace flangewright::tables
