// Where an opening of the blank is written, or drawn, so that a problem lands on it.
#pragma once

#include "io/key_file/table_reader.hpp"

#include <string>

namespace flangewright::case_file {

/// Its own table in the case file, or the section that names the layer it is drawn on.
struct OpeningPlace {
    key_file::TableReader table;
    std::string layer_key = {}; ///< "hole_layer"; empty: written in the case file
    std::string name = {}; ///< of one drawn: "the circle 2F about (20, 30) mm on layer HOLES"

    [[nodiscard]] bool is_drawn() const { return !layer_key.empty(); }
    /// A problem of one of its keys; of a drawn one the key says what was measured off the drawing.
    /// Source: none needed. Fails: never.
    void object(
        const std::string& key,
        const std::string& found,
        const std::string& allowed,
        const std::string& remedy
    );
    /// By which another opening's problem calls it. Source: none needed. Fails: never.
    [[nodiscard]] std::string path_to(const std::string& key) const;
};

} // namespace flangewright::case_file
