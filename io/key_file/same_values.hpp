// Compares two files of keys by what they say.
#pragma once

#include "io/key_file/document.hpp"

namespace flangewright::key_file {

/// Whether keys and values are the same, in the same order, wherever they stand.
[[nodiscard]] bool is_same(const Node& a, const Node& b);

} // namespace flangewright::key_file
