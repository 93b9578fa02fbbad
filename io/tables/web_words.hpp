// Whether the web of the free part sits flat, as far as its error bar lets one say.
#pragma once

#include "io/units/length.hpp"
#include "solver/process/job_result.hpp"

#include <optional>
#include <string>

namespace flangewright::tables {

/// How the web sits on the flat block, against a feeler of 0.010 in.
enum class WebSeat {
    flat, ///< the feeler does not go under it, whatever the error bar leaves open
    lifts, ///< it does
    unsure, ///< the error bar reaches to both sides
};

/// Of the part after its last step; the bar is that of mesh and scatter and a third of the lift for
/// the model. Units: none. Source: the feeler: common practice, no source; the third:
/// solid-section-reference.
/// Fails: empty where that step holds the part on the block, and where the mesh's error of the
/// lift is not known.
[[nodiscard]] std::optional<WebSeat> web_seat_of(const process::JobResult& result);

/// "flat", "lifts", "can't tell". Units, source: none needed. Fails: never.
[[nodiscard]] std::string word_for(WebSeat seat);

/// The answer in a sentence or two, with the lift and its bar; empty where there is none.
/// Units: the user's own. Source, fails: as web_seat_of().
[[nodiscard]] std::string web_sentence(const process::JobResult& result, units::LengthUnit unit);

/// A caution to what would bring the web flat when the bar of the lift reaches below what is worth
/// that work; else empty. Units: none. Source: as web_seat_of(). Fails: never.
[[nodiscard]] std::string cure_doubt(const process::JobResult& result);

} // namespace flangewright::tables
