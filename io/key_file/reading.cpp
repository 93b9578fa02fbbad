#include "io/key_file/reading.hpp"

#include "io/key_file/excerpt.hpp"
#include "io/key_file/nearest_word.hpp"

#include <algorithm>

namespace flangewright::key_file {

namespace {

std::string path_of(const SectionKey& key) {
    const std::string shown = excerpt(key.key);
    return key.section.empty() ? shown : key.section + "." + shown;
}

std::string place_name(const std::string& section) {
    return section.empty() ? "the top of the file, before the first [section]"
                           : "[" + section + "]";
}

std::vector<std::string> keys_of(const std::vector<SectionKey>& known, const std::string& section) {
    std::vector<std::string> keys;
    for (const SectionKey& candidate : known) {
        if (candidate.section == section) {
            keys.push_back(candidate.key);
        }
    }
    return keys;
}

std::string remedy_for(const SectionKey& key, const std::vector<SectionKey>& known) {
    const auto elsewhere =
        std::find_if(known.begin(), known.end(), [&key](const SectionKey& other) {
            return other.key == key.key;
        });
    if (elsewhere != known.end()) {
        return "move it to " + place_name(elsewhere->section);
    }
    if (const auto nearest = nearest_word(key.key, keys_of(known, key.section))) {
        return "write " + *nearest + " if that is meant, or delete it";
    }
    for (const SectionKey& other : known) {
        if (nearest_word(key.key, std::vector<std::string>{other.key})) {
            return "write " + other.key + " in " + place_name(other.section)
                + " if that is meant, or delete it";
        }
    }
    return "delete it";
}

} // namespace

void Reading::add(
    Place place, std::string key, std::string found, std::string allowed, std::string remedy
) {
    problems_.push_back(
        {file_,
         place.line,
         place.column,
         std::move(key),
         std::move(found),
         std::move(allowed),
         std::move(remedy)}
    );
}

void Reading::report_unknown() {
    for (const SectionKey& key : unknown_) {
        const std::vector<std::string> keys = keys_of(known_, key.section);
        add(key.place, path_of(key), "an unknown key", listed(keys), remedy_for(key, known_));
    }
    unknown_.clear();
}

std::vector<InputProblem> Reading::sorted_problems() const {
    std::vector<InputProblem> problems = problems_;
    sort_by_place(problems);
    return problems;
}

} // namespace flangewright::key_file
