// The sheet that shows variants side by side.
#pragma once

#include "io/compare/judgement.hpp"
#include "io/tables/shown_length.hpp"

#include <string>
#include <vector>

namespace flangewright::compare {

/// What stands round the figures.
struct StudyFacts {
    std::string title; ///< of the first case
    std::string program_version;
    std::string date;
    std::string command; ///< as it was asked for
    std::string common; ///< what is set in every variant; may be empty
    units::LengthUnit unit = units::LengthUnit::millimetre;
    std::string pictures; ///< of the parts, ready; may be empty
    std::string pictures_note; ///< why some are missing; may be empty
    std::vector<std::string> run_pages; ///< path of each run's own page from here
};

/// One self-contained page of HTML. Units: as the figures. Source: docs/outputs.md. Fails: never.
[[nodiscard]] std::string
compare_page(const StudyFacts& facts, const std::vector<ComparedRun>& runs);

} // namespace flangewright::compare
