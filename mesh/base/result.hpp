// The one result type of the house: a value, or the reason why there is none.
#pragma once

#include <tl/expected.hpp>

#include <string>

namespace flangewright {

/// Something outside the program refused (a library, the disk, the display).
struct OutsideProblem {
    std::string doing; ///< what was being done, e.g. "writing the field file"
    std::string object; ///< on what, e.g. the path
    std::string remedy; ///< what the user can do
};

/// A value, or why it could not be had. To become std::expected with C++23.
template <typename T, typename E = OutsideProblem>
using Result = tl::expected<T, E>;

} // namespace flangewright
