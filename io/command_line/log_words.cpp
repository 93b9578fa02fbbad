#include "io/command_line/log_words.hpp"

#include "io/command_line/words.hpp"
#include "io/key_file/nearest_word.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace flangewright::command_line {

namespace {

std::string missing_words(const LoggedPart& part) {
    std::string text = part.readings.not_measured.empty()
        ? std::string()
        : "Not measured: " + key_file::listed(part.readings.not_measured) + ".";
    const auto n_read = std::ranges::count_if(part.readings.rows, &build_log::Reading::has_marks);
    const auto n_set = std::ranges::count(
        part.compared, build_log::Figure::edge_stretch, &build_log::Compared::figure
    );
    if (n_read > n_set) {
        text += text.empty() ? "" : " ";
        text += fmt::format(
            "Pairs of marks that reach past an end of the bend line and are not compared: {}.",
            n_read - n_set
        );
    }
    return text;
}

std::string edge_words(const LoggedPart& part) {
    return part.witness.n_pairs == 0 ? std::string()
                                     : "What the edge says of its limit: " + part.witness.because;
}

} // namespace

std::vector<std::string>
log_notes(const LoggedPart& part, const std::vector<std::string>& experience) {
    std::vector<std::string> all{fmt::format(
        "Measured: {}, read on {}{}{}. Predicted by the run of {}. Between stations the "
        "prediction is taken straight; between edge marks it is the mean.",
        part.arguments.measured_file->filename().string(),
        part.around.date,
        part.lot.empty() ? std::string() : ", lot " + part.lot,
        part.part.empty() ? std::string() : ", part " + part.part,
        part.run.prediction.date
    )};
    for (const std::string& text : {missing_words(part), edge_words(part)}) {
        if (!text.empty()) {
            all.push_back(text);
        }
    }
    all.insert(all.end(), experience.begin(), experience.end());
    return all;
}

std::string log_text(
    const LoggedPart& part,
    const std::vector<sheet_page::MeasuredRow>& table,
    const std::vector<std::string>& experience
) {
    std::vector<std::vector<std::string>> rows{
        {"step", "figure", "predicted", "measured", "difference"}};
    for (const sheet_page::MeasuredRow& each : table) {
        rows.push_back({each.step, each.what, each.predicted, each.measured, each.difference});
    }
    std::array<std::size_t, 5> widths{};
    for (const auto& row : rows) {
        for (std::size_t i = 0; i < widths.size(); ++i) {
            widths[i] = std::max(widths[i], row[i].size() + 2);
        }
    }
    std::string text = part.file.job.title + ": predicted and measured\n";
    for (const auto& row : rows) {
        std::string line = "  ";
        for (std::size_t i = 0; i < widths.size(); ++i) {
            line += fmt::format("{:<{}}", row[i], i + 1 < widths.size() ? widths[i] : 0);
        }
        text += line + "\n";
    }
    text += "Difference: predicted less measured.\n";
    for (const std::string& words : {missing_words(part), edge_words(part)}) {
        text += words.empty() ? words : as_lines(words);
    }
    for (const std::string& sentence : experience) {
        text += as_lines(sentence);
    }
    return text;
}

} // namespace flangewright::command_line
