#include "solver/findings/edge_limit.hpp"

namespace flangewright::findings {

namespace {

material::Sourced screened(const material::Sourced& elongation, material::EdgeFinish finish) {
    const bool is_smooth =
        finish == material::EdgeFinish::filed || finish == material::EdgeFinish::polished;
    if (!elongation.value) {
        return {};
    }
    return {
        *elongation.value * (is_smooth ? 0.8 : 0.5),
        material::DataGrade::assumed,
        is_smooth ? "0.8 of the total elongation (common practice, no source)"
                  : "0.5 of the total elongation (common practice, no source)"};
}

} // namespace

EdgeLimit
edge_limit(const material::SheetMaterial& sheet, std::optional<material::EdgeFinish> finish) {
    if (!finish) {
        return {sheet.uniform_elongation, "uniform elongation"};
    }
    const auto known = sheet.edge_limits.find(*finish);
    const bool is_known = known != sheet.edge_limits.end() && known->second.value;
    return {
        is_known ? known->second : screened(sheet.total_elongation, *finish),
        "a " + material::word_for(*finish) + " edge"};
}

} // namespace flangewright::findings
