// The shapes that can be looked at in the page, and what can be shown on them.
#pragma once

#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

#include <array>
#include <string>
#include <vector>

namespace flangewright::part_view {

/// What a colour can stand for.
enum class Field {
    share_used,
    thinning,
    edge_stretch,
    outer_stretch,
    mid_stretch,
    plastic_strain,
    movement,
    web_gap
};

/// All of them, in the order in which they are offered.
inline constexpr std::array fields{
    Field::share_used,
    Field::thinning,
    Field::edge_stretch,
    Field::outer_stretch,
    Field::mid_stretch,
    Field::plastic_strain,
    Field::movement,
    Field::web_gap};

/// One shape. A field has a figure per node; none at all where it is not known in this state, no
/// number where it has no meaning. Per cent, and mm for lengths.
struct ViewState {
    std::string name; ///< "2: release: released"
    std::size_t step = 0; ///< whose mesh it is on
    const Eigen::Matrix3Xd* positions = nullptr; ///< mm; of the result, which must outlive this
    std::array<Eigen::VectorXd, fields.size()> figures;

    [[nodiscard]] const Eigen::VectorXd& of(Field field) const {
        return figures[static_cast<std::size_t>(field)];
    }
};

/// The end of each step whose shape is known, in order, with shapes on the way between them as long
/// as `most_values` numbers are not passed (ends of steps are never left out). Units: see
/// ViewState. Source: docs/outputs.md, "Field files". Fails: never.
[[nodiscard]] std::vector<ViewState>
view_states(const job::Job& job, const process::JobResult& result, std::size_t most_values);

} // namespace flangewright::part_view
