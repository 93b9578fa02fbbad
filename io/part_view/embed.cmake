# Puts the page's scripts into the program, so that a page needs no other file. The drawing library
# comes from Debian's package libjs-three; its licence goes with it into every page.
find_path(FLANGEWRIGHT_THREE_JS three.min.js
    PATHS /usr/share/javascript/three /usr/share/nodejs/three
    NO_DEFAULT_PATH
    DOC "Folder of the browser library three.js (Debian: libjs-three)")
if(NOT FLANGEWRIGHT_THREE_JS)
    message(FATAL_ERROR "three.min.js was not found. Install Debian's package libjs-three, or set "
        "FLANGEWRIGHT_THREE_JS to the folder that holds it.")
endif()

# A C++ text of any length: literals of one length side by side. The last one may be empty.
function(flangewright_literal file result)
    file(READ "${file}" text)
    if(text MATCHES "</script|\\)=js=\"")
        message(FATAL_ERROR "${file} can't stand inside a page")
    endif()
    string(LENGTH "${text}" length)
    set(literal "")
    set(place 0)
    while(place LESS length)
        string(SUBSTRING "${text}" ${place} 12000 piece)
        string(APPEND literal "R\"=js=(${piece})=js=\"\n")
        math(EXPR place "${place} + 12000")
    endwhile()
    set(${result} "${literal}" PARENT_SCOPE)
endfunction()

set(script_folder "${CMAKE_CURRENT_LIST_DIR}")
set(controls "${FLANGEWRIGHT_THREE_JS}/examples/js/controls/OrbitControls.js")
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS
    "${script_folder}/viewer.js" "${script_folder}/three_licence.txt"
    "${FLANGEWRIGHT_THREE_JS}/three.min.js" "${controls}")
flangewright_literal("${FLANGEWRIGHT_THREE_JS}/three.min.js" library_literal)
flangewright_literal("${controls}" controls_literal)
flangewright_literal("${script_folder}/three_licence.txt" licence_literal)
flangewright_literal("${script_folder}/viewer.js" viewer_literal)
set(generated "${CMAKE_CURRENT_BINARY_DIR}/part_view_scripts.cpp")
file(CONFIGURE OUTPUT "${generated}" @ONLY CONTENT [[
// Written by io/part_view/embed.cmake.
#include "io/part_view/scripts.hpp"

namespace flangewright::part_view {

const std::string& library_script() {
    static const std::string text = @library_literal@;
    return text;
}

const std::string& controls_script() {
    static const std::string text = @controls_literal@;
    return text;
}

const std::string& library_licence() {
    static const std::string text = @licence_literal@;
    return text;
}

const std::string& viewer_script() {
    static const std::string text = @viewer_literal@;
    return text;
}

} // namespace flangewright::part_view
]])
target_sources(flangewright_io PRIVATE "${generated}")
