// A screen for off-screen pictures: the user's own X display, or a virtual one for this run.
#pragma once

#include "mesh/base/result.hpp"

#include <sys/types.h>

#include <string>

namespace flangewright::display {

/// What may be used to find a screen. Tests give their own.
struct ScreenSearch {
    std::string display; ///< an X display to try first, e.g. ":0"; empty: none
    std::string program = "Xvfb"; ///< name or path of the virtual display's program
    int patience_ms = 15000; ///< how long the virtual display may take to start
};

/// An X display that answers. A virtual one ends with this object, or with the program if that
/// dies first.
class Screen {
public:
    /// Tries the given display, then starts a virtual one. Never touches the picture library.
    /// Units: none. Source: X Window System, X(7) and Xvfb(1). Fails: when neither can be had.
    [[nodiscard]] static Result<Screen> find(const ScreenSearch& search);
    /// The search a user's surroundings ask for: DISPLAY, then Xvfb.
    [[nodiscard]] static ScreenSearch from_surroundings();

    Screen(Screen&& other) noexcept;
    Screen& operator=(Screen&& other) noexcept;
    Screen(const Screen&) = delete;
    Screen& operator=(const Screen&) = delete;
    ~Screen();

    /// As DISPLAY wants it, e.g. ":99".
    [[nodiscard]] const std::string& name() const { return name_; }
    /// Process of the virtual display; 0 for the user's own.
    [[nodiscard]] pid_t process() const { return process_; }

private:
    Screen(std::string name, pid_t process);

    std::string name_;
    pid_t process_ = 0;
};

} // namespace flangewright::display
