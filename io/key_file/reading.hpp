// What the readers of one file share: its name, its unit, the problems found and the keys known.
#pragma once

#include "io/key_file/document.hpp"
#include "io/units/length.hpp"

#include <string>
#include <vector>

namespace flangewright::key_file {

/// A key, known or not, with the section it stands in ("" is the top of the file).
struct SectionKey {
    std::string section;
    std::string key;
    Place place;
};

/// A key that was asked for, and what it may hold. docs/case-file.md is checked against these.
struct AskedKey {
    std::string section; ///< "bend_line.pieces[]"; "" is the top of the file
    std::string key;
    std::string kind; ///< "length"; empty when only its being there was asked
    std::string allowed; ///< "0.1 mm to 6 mm"; empty when the kind says all
    bool is_required = false;
};

/// One reading of one file.
class Reading {
public:
    explicit Reading(std::string file) : file_(std::move(file)) {}

    units::LengthUnit unit = units::LengthUnit::millimetre;

    [[nodiscard]] const std::string& file() const { return file_; }
    void
    add(Place place, std::string key, std::string found, std::string allowed, std::string remedy);
    void add_known(SectionKey key) { known_.push_back(std::move(key)); }
    void add_unknown(SectionKey key) { unknown_.push_back(std::move(key)); }
    void add_asked(AskedKey key) { asked_.push_back(std::move(key)); }
    /// Turns the unknown keys into problems, each with the key that was probably meant.
    void report_unknown();

    [[nodiscard]] bool is_clean() const { return problems_.empty(); }
    [[nodiscard]] std::vector<InputProblem> sorted_problems() const;
    /// In the order of asking; keys come again when they are asked again.
    [[nodiscard]] const std::vector<AskedKey>& asked() const { return asked_; }

private:
    std::string file_;
    std::vector<InputProblem> problems_;
    std::vector<SectionKey> known_;
    std::vector<SectionKey> unknown_;
    std::vector<AskedKey> asked_;
};

} // namespace flangewright::key_file
