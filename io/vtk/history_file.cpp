#include "io/vtk/history_file.hpp"

#include <fmt/format.h>

namespace flangewright::vtk {

std::string history_text(const std::vector<HistoryEntry>& entries) {
    std::string text = "<?xml version=\"1.0\"?>\n"
                       "<VTKFile type=\"Collection\" version=\"0.1\" byte_order=\"LittleEndian\">\n"
                       "  <Collection>\n";
    for (const HistoryEntry& entry : entries) {
        text += fmt::format(
            "    <DataSet timestep=\"{:.6g}\" part=\"0\" file=\"{}\"/>\n", entry.time, entry.file
        );
    }
    return text + "  </Collection>\n</VTKFile>\n";
}

} // namespace flangewright::vtk
