#include "io/tables/pass_table.hpp"

#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

namespace flangewright::tables {

namespace {

using process::DriveRecord;
using process::PassFigures;

std::string at_station(const EdgeOnTheWay& edge, units::LengthUnit unit) {
    return fmt::format(
        "{} % at {}",
        shown_number(stretch_percent(edge.strain), 1),
        brief_length(edge.station, unit)
    );
}

std::string order_words(job::DriveOrder order) {
    switch (order) {
    case job::DriveOrder::from_start:
        return "from the start of the line to its end";
    case job::DriveOrder::from_end:
        return "from the end of the line to its start";
    case job::DriveOrder::ends_first:
        return "from both ends to the middle";
    case job::DriveOrder::evenly:
        break;
    }
    return "evenly";
}

template <typename Cell>
PassRow row_of(const std::string& head, const process::PassResult& passes, const Cell& cell) {
    return {head, cell(passes.as_driven), passes.even ? cell(*passes.even) : ""};
}

} // namespace

EdgeOnTheWay most_stretched(const DriveRecord& record) {
    Eigen::Index node = 0;
    const double strain = record.stretched.maxCoeff(&node);
    return {strain, record.stations[node]};
}

EdgeOnTheWay most_shrunk(const DriveRecord& record) {
    Eigen::Index node = 0;
    const double strain = record.shrunk.minCoeff(&node);
    return {strain, record.stations[node]};
}

std::string pass_words(const job::Drive& drive) {
    const std::size_t n = drive.passes.empty() ? 1 : drive.passes.size();
    const std::string count = n == 1 ? "one pass" : fmt::format("{} passes", n);
    return order_words(drive.order) + ", in " + count;
}

std::vector<PassRow> pass_rows(const process::PassResult& passes, units::LengthUnit unit) {
    std::vector<PassRow> rows;
    for (std::size_t i = 0; i < passes.as_driven.passes.size(); ++i) {
        const std::string after = fmt::format(
            "pass {}, to {} deg: ",
            i + 1,
            shown_number(units::degrees(passes.as_driven.passes[i].angle_wanted), 1)
        );
        const auto with = [i](const DriveRecord& record, const auto& cell) {
            return i < record.passes.size() ? cell(record.passes[i]) : std::string("-");
        };
        rows.push_back(row_of(after + "flange angle", passes, [&](const DriveRecord& record) {
            return with(record, [](const PassFigures& pass) {
                return shown_number(units::degrees(pass.flange_angle), 1) + " deg";
            });
        }));
        rows.push_back(row_of(after + "edge stretch", passes, [&](const DriveRecord& record) {
            return with(record, [unit](const PassFigures& pass) {
                return at_station({pass.edge_strain, pass.edge_station}, unit);
            });
        }));
    }
    rows.push_back(row_of("on the way: most stretched", passes, [unit](const DriveRecord& record) {
        return at_station(most_stretched(record), unit);
    }));
    rows.push_back(row_of("on the way: most shrunk", passes, [unit](const DriveRecord& record) {
        return at_station(most_shrunk(record), unit);
    }));
    return rows;
}

} // namespace flangewright::tables
