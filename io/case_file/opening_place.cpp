#include "io/case_file/opening_place.hpp"

namespace flangewright::case_file {

void OpeningPlace::object(
    const std::string& key,
    const std::string& found,
    const std::string& allowed,
    const std::string& remedy
) {
    if (is_drawn()) {
        table.object_found(layer_key, name + ": " + key + " " + found, allowed, remedy);
    } else {
        table.object_found(key, found, allowed, remedy);
    }
}

std::string OpeningPlace::path_to(const std::string& key) const {
    return is_drawn() ? name : table.path_to(key);
}

} // namespace flangewright::case_file
