// The list of shapes over time that ParaView plays: history.pvd.
#pragma once

#include "solver/process/job_result.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace flangewright::vtk {

/// One shape: where its file is, seen from the list, and when.
struct HistoryEntry {
    std::string file;
    double time = 0; ///< steps done, e.g. 1.25 is a quarter into the second
};

/// Places of the frames that are played: one for each moment, else a player would show two shapes
/// at once. Of a step's frames at one time its last, and not the begin of a step that stands for
/// the end of the one before. Units, source: none needed. Fails: never.
[[nodiscard]] std::vector<std::size_t> played_frames(const std::vector<process::Frame>& frames);

/// When a frame was, as HistoryEntry has it. Units: steps. Source: none needed. Fails: never.
[[nodiscard]] double time_of(const process::Frame& frame);

/// The text of the list. Units: none. Source: VTK file formats, "PVD" (ParaView's wiki), from
/// memory, to be confirmed. Fails: never.
[[nodiscard]] std::string history_text(const std::vector<HistoryEntry>& entries);

} // namespace flangewright::vtk
