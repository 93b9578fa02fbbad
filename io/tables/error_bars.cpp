#include "io/tables/error_bars.hpp"

#include <cmath>

namespace flangewright::tables {

namespace {

std::optional<double>
together(const std::optional<double>& one, const std::optional<double>& other) {
    if (!one || !other) {
        return one ? one : other;
    }
    return std::hypot(*one, *other);
}

} // namespace

ErrorBars error_bars(const process::JobResult& result) {
    ErrorBars bars;
    if (result.mesh_error) {
        bars.springback = result.mesh_error->springback;
        bars.flange_angle = result.mesh_error->flange_angle;
        bars.edge_strain = result.mesh_error->edge_strain;
        bars.thinning = result.mesh_error->thinning;
        bars.web_lift = result.mesh_error->web_lift;
        bars.meaning = "mesh";
    }
    if (result.scatter) {
        const process::ScatterFigures& scatter = result.scatter->total;
        bars.springback = together(bars.springback, scatter.springback);
        bars.flange_angle = together(bars.flange_angle, scatter.flange_angle);
        bars.edge_strain = together(bars.edge_strain, scatter.edge_strain);
        bars.thinning = together(bars.thinning, scatter.thinning);
        bars.web_lift = together(bars.web_lift, scatter.web_lift);
        bars.meaning += bars.meaning.empty() ? "scatter" : " and scatter";
    }
    return bars;
}

} // namespace flangewright::tables
