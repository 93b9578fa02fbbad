// What of a drawing exchange file concerns a bend line, as a small file of its own.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace flangewright::drawing {

/// The unit of the header, and the lines, arcs, circles, polylines, splines, ellipses, inserted
/// blocks and points of the entities section. The library that reads it trusts counts written in
/// the file, and never sees those it can't bear. Source: format of pairs of lines, code and value,
/// from memory. Fails: nothing when the text is no such file, or a count in it can't be true.
[[nodiscard]] std::optional<std::string> extract_of(std::string_view text);

} // namespace flangewright::drawing
