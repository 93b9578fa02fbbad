#include "io/tables/station_table.hpp"

#include "io/tables/cut_edge.hpp"
#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <cmath>
#include <initializer_list>

namespace flangewright::tables {

namespace {

std::string cell(double value) {
    return std::isfinite(value) ? fmt::format("{:.7g}", value) : std::string();
}

void add_row(
    std::string& table, const std::string& name, std::initializer_list<std::string> cells
) {
    table += name;
    for (const std::string& text : cells) {
        table += ',';
        table += text;
    }
    table += '\n';
}

} // namespace

std::string stations_csv(const job::Job& job, const process::JobResult& result) {
    std::string table = "step,station_mm,flange_angle_deg,springback_deg,edge_strain_log,"
                        "edge_stretch_percent,edge_thickness_mm,least_thickness_mm,"
                        "thinning_percent,flange_depth_mm,web_gap_mm,lip_angle_deg,lip_depth_mm\n";
    for (const process::StepResult& step : result.steps) {
        for (const findings::StationFindings& at : step.findings.stations) {
            add_row(
                table,
                process::name_of(step.kind),
                {cell(at.station),
                 cell(units::degrees(at.flange_angle)),
                 at.springback ? cell(units::degrees(*at.springback)) : std::string(),
                 cell(at.edge_strain),
                 cell(stretch_percent(at.edge_strain)),
                 cell(at.edge_thickness),
                 cell(at.least_thickness),
                 cell(100 * (1 - at.least_thickness / job.sheet.thickness)),
                 cell(at.flange_depth),
                 cell(at.web_gap),
                 at.lip_angle ? cell(units::degrees(*at.lip_angle)) : std::string(),
                 at.lip_depth ? cell(*at.lip_depth) : std::string()}
            );
        }
    }
    return table;
}

std::string edge_csv(const process::JobResult& result) {
    std::string table = "step,station_mm,x_mm,y_mm,z_mm,edge_strain_log,edge_stretch_percent,"
                        "edge_thickness_mm,edge\n";
    for (std::size_t i = 0; i < result.steps.size(); ++i) {
        const process::StepResult& step = result.steps[i];
        for (const CutEdgeNode& each : cut_edge(result, i).nodes) {
            const Eigen::Vector3d at = step.state.positions.col(each.node);
            add_row(
                table,
                process::name_of(step.kind),
                {cell(each.station),
                 cell(at.x()),
                 cell(at.y()),
                 cell(at.z()),
                 cell(each.strain),
                 cell(stretch_percent(each.strain)),
                 cell(each.thickness),
                 each.edge}
            );
        }
    }
    return table;
}

} // namespace flangewright::tables
