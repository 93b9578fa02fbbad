// Turns one written value into the program's unit, and values and ranges back into words.
#pragma once

#include "io/key_file/table_reader.hpp"
#include "io/units/written_number.hpp"

namespace flangewright::key_file {

/// Angles stay in degrees here, since their limits are; the caller converts once.
[[nodiscard]] units::Written measured(const Node& node, Measure measure, units::LengthUnit unit);

/// The value as the user wrote it, a bare length with the file's unit behind it.
[[nodiscard]] std::string as_written(const Node& node, Measure measure, units::LengthUnit unit);

/// "length", "angle in degrees".
[[nodiscard]] std::string word_for(Measure measure);

/// "0.1 mm to 6 mm (thinner tears)".
[[nodiscard]] std::string range_text(const ValueRule& rule, units::LengthUnit unit);

} // namespace flangewright::key_file
