# The folder is the list: every <stem>.cpp of a folder defines `<stem>_entry`, and this writes the
# function that returns them all. A file without its entry fails when linking.
function(flangewright_entries target folder)
    cmake_parse_arguments(arg "" "ENTRY_TYPE;ENTRY_HEADER;NAMESPACE;LIST_FUNCTION" "" ${ARGN})
    file(GLOB files CONFIGURE_DEPENDS "${CMAKE_CURRENT_SOURCE_DIR}/${folder}/*.cpp")
    set(declarations "")
    set(calls "")
    foreach(file IN LISTS files)
        get_filename_component(stem "${file}" NAME_WE)
        string(APPEND declarations "${arg_ENTRY_TYPE} ${stem}_entry();\n")
        string(APPEND calls "        ${stem}_entry(),\n")
    endforeach()
    set(generated "${CMAKE_CURRENT_BINARY_DIR}/${arg_LIST_FUNCTION}.cpp")
    file(CONFIGURE OUTPUT "${generated}" @ONLY CONTENT [[
// Written by .cmake/entries.cmake from the files of one folder.
#include "@arg_ENTRY_HEADER@"

namespace @arg_NAMESPACE@ {

@declarations@
std::span<const @arg_ENTRY_TYPE@> @arg_LIST_FUNCTION@() {
    static const std::vector<@arg_ENTRY_TYPE@> entries{
@calls@    };
    return entries;
}

} // namespace @arg_NAMESPACE@
]])
    target_sources(${target} PRIVATE "${generated}")
endfunction()
