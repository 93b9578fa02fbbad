// How a law describes its own parameters, so that readers, pages and tests need no second list.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace flangewright::material {

/// What a parameter measures; decides the unit a user may write.
enum class Quantity { number, stress, strain };

/// One parameter of a law.
struct LawParameter {
    std::string name; ///< key in a case file
    Quantity quantity = Quantity::number;
    bool is_list = false; ///< a table column rather than one number
    double lowest = 0; ///< smallest allowed value, in MPa, - or mm/mm
    double highest = 0; ///< largest allowed value
    std::string meaning; ///< one line for the user
};

/// Checked values by parameter name; a plain number is a list of one. MPa and strain in -.
using LawValues = std::map<std::string, std::vector<double>>;

} // namespace flangewright::material
