#include "io/vtk/history_file.hpp"

#include <fmt/format.h>

namespace flangewright::vtk {

namespace {

// What the list says of it; times that read alike are one moment.
std::string time_text(double time) {
    return fmt::format("{:.6g}", time);
}

} // namespace

std::vector<std::size_t> played_frames(const std::vector<process::Frame>& frames) {
    std::vector<std::size_t> played;
    for (std::size_t i = 0; i < frames.size(); ++i) {
        const process::Frame* last = played.empty() ? nullptr : &frames[played.back()];
        if (last == nullptr || time_text(time_of(*last)) != time_text(time_of(frames[i]))) {
            played.push_back(i);
        } else if (last->step == frames[i].step) {
            played.back() = i;
        }
    }
    return played;
}

double time_of(const process::Frame& frame) {
    return frame.step + frame.share_done;
}

std::string history_text(const std::vector<HistoryEntry>& entries) {
    std::string text = "<?xml version=\"1.0\"?>\n"
                       "<VTKFile type=\"Collection\" version=\"0.1\" byte_order=\"LittleEndian\">\n"
                       "  <Collection>\n";
    for (const HistoryEntry& entry : entries) {
        text += fmt::format(
            "    <DataSet timestep=\"{}\" part=\"0\" file=\"{}\"/>\n",
            time_text(entry.time),
            entry.file
        );
    }
    return text + "  </Collection>\n</VTKFile>\n";
}

} // namespace flangewright::vtk
