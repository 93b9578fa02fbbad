// A claim about our own code: when it does not hold, the program has a bug.
#pragma once

#include <stdexcept>
#include <string>

namespace flangewright {

/// Thrown by check(); caught once, in main, and shown as an internal error.
class InternalError : public std::logic_error {
public:
    using std::logic_error::logic_error;
};

/// Stops the program (exit code 70) when a condition that our own code guarantees does not hold.
inline void check(bool holds, const char* claim) {
    if (!holds) {
        throw InternalError(std::string("does not hold: ") + claim);
    }
}

} // namespace flangewright
