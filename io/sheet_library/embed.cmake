# Writes the data files of the sheet library into one source, so that the program is one file.
file(GLOB data_files CONFIGURE_DEPENDS "${CMAKE_CURRENT_LIST_DIR}/data/*.toml")
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${data_files})
set(data_entries "")
foreach(data_file IN LISTS data_files)
    get_filename_component(data_name "${data_file}" NAME)
    file(READ "${data_file}" data_text)
    string(APPEND data_entries "    {\"${data_name}\", R\"sheet(${data_text})sheet\"},\n")
endforeach()
list(LENGTH data_files n_data_files)
set(generated "${CMAKE_CURRENT_BINARY_DIR}/sheet_library_data.cpp")
file(CONFIGURE OUTPUT "${generated}" @ONLY CONTENT [[
// Written by io/sheet_library/embed.cmake from the files of io/sheet_library/data.
#include "io/sheet_library/sheet_library.hpp"

#include <array>

namespace flangewright::sheet_library {

namespace {

constexpr std::array<DataFile, @n_data_files@> files{{
@data_entries@}};

} // namespace

std::span<const DataFile> data_files() {
    return files;
}

} // namespace flangewright::sheet_library
]])
target_sources(flangewright_io PRIVATE "${generated}")
