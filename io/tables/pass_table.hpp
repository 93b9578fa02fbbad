// The passes of a drive as the page and the terminal show them.
#pragma once

#include "io/units/length.hpp"
#include "solver/process/job_result.hpp"

#include <string>
#include <vector>

namespace flangewright::tables {

/// One row: a head, then a cell each for the drive as driven and for the even one. The latter is
/// empty where there is none.
struct PassRow {
    std::string head;
    std::string as_driven;
    std::string even;
};

/// The strain largest in size over the whole edge and the whole way, and where.
struct EdgeOnTheWay {
    double strain = 0; ///< log
    double station = 0; ///< mm
};

/// Of a record with at least one node. Units: mm. Source: none needed. Fails: never.
[[nodiscard]] EdgeOnTheWay most_stretched(const process::DriveRecord& record);
[[nodiscard]] EdgeOnTheWay most_shrunk(const process::DriveRecord& record);

/// "from both ends to the middle, in 3 passes"; "evenly, in 2 passes". Units: none. Source: design
/// words. Fails: never.
[[nodiscard]] std::string pass_words(const job::Drive& drive);

/// Angle and edge after each pass, then the edge on the way. Units: shown in `unit`, degrees and
/// per cent of length. Source: docs/outputs.md. Fails: never.
[[nodiscard]] std::vector<PassRow>
pass_rows(const process::PassResult& passes, units::LengthUnit unit);

} // namespace flangewright::tables
