# The top folder holds what it should and nothing else.
# Run: cmake -D SOURCE=<top folder> -P tests/structure/top_level.cmake
include("${CMAKE_CURRENT_LIST_DIR}/faults.cmake")

set(wanted
    .ci .clang-format .clang-tidy .cmake .gitignore
    CMakeLists.txt DEVELOPERS.md LICENSE README.md
    cases docs io mesh solver tests)
# Not in the repository: git itself and what .gitignore names.
set(ignored "^([.]git|[.]build.*|build.*|out|[.]cache|.*[.]swp)$")

file(GLOB found RELATIVE "${SOURCE}" "${SOURCE}/*" "${SOURCE}/.*")
foreach(name IN LISTS found)
    if(NOT name IN_LIST wanted AND NOT name MATCHES "${ignored}")
        fault("${name} does not belong in the top folder")
    endif()
endforeach()
foreach(name IN LISTS wanted)
    if(NOT EXISTS "${SOURCE}/${name}")
        fault("${name} is missing")
    endif()
endforeach()
report_faults("the top folder is as it should be")
