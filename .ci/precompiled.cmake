# Library headers read once per program instead of once per file: half of a sanitizer build is
# reading Eigen. Taken in by .ci/sanitize.cmake; the other builds show what each file includes.
function(flangewright_precompile)
    foreach(target
            flangewright_solver flangewright_io flangewright_solver_tests flangewright_io_tests)
        target_precompile_headers(${target} PRIVATE
            <Eigen/Dense> <algorithm> <array> <cmath> <filesystem> <functional> <memory> <optional>
            <span> <sstream> <string> <vector> <fmt/format.h> <tl/expected.hpp>)
    endforeach()
    foreach(target flangewright_solver_tests flangewright_io_tests)
        target_precompile_headers(${target} PRIVATE <gmock/gmock.h> <gtest/gtest.h>)
    endforeach()
endfunction()
cmake_language(DEFER CALL flangewright_precompile)
