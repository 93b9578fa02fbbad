// Whether the return lip fits steps, flange, block and bend line.
#pragma once

#include "io/case_file/geometry_check.hpp"

namespace flangewright::case_file {

/// Checks that need only what is written: section and step go together, the flange is given by its
/// depth, the nose is no sharper than shell theory bears.
void check_lip_written(ReadCase& parts);

/// Checks of the finished job with a return bend: flange between the bends, lip past its bend,
/// metal left on a curve. False when a problem was found, since the flat width means nothing then.
[[nodiscard]] bool lip_fits(ReadCase& parts, const job::Job& job);

} // namespace flangewright::case_file
