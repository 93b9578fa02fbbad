// The list of shapes over time that ParaView plays: history.pvd.
#pragma once

#include <string>
#include <vector>

namespace flangewright::vtk {

/// One shape: where its file is, seen from the list, and when.
struct HistoryEntry {
    std::string file;
    double time = 0; ///< steps done, e.g. 1.25 is a quarter into the second
};

/// The text of the list. Units: none. Source: VTK file formats, "PVD" (ParaView's wiki), from
/// memory, to be confirmed. Fails: never.
[[nodiscard]] std::string history_text(const std::vector<HistoryEntry>& entries);

} // namespace flangewright::vtk
