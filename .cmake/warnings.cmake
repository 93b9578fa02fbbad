# A build of everything, as the tests need it, takes less than half the time with what most files
# include read once per library and once for all tests, and with ten files compiled as one. Off
# otherwise: a missing include is seen, and one changed file is compiled alone.
option(FLANGEWRIGHT_FAST_BUILD "Read often included headers once, compile ten files as one" OFF)

# Warnings for our own code only; never passed on to those who link us.
add_library(flangewright_warnings INTERFACE)
target_compile_options(flangewright_warnings INTERFACE
    -Wall -Wextra -Wpedantic -Wfloat-conversion
    # Of files compiled as one, what is hidden in one is no shadow on another.
    $<$<NOT:$<BOOL:${FLANGEWRIGHT_FAST_BUILD}>>:-Wshadow>
    # GCC 12 warns falsely on "text" + std::string (its bug 105651).
    "$<$<CXX_COMPILER_ID:GNU>:-Wno-unknown-warning-option;-Wno-restrict;-Wno-stringop-overflow;-Wno-stringop-overread>"
    $<$<BOOL:${FLANGEWRIGHT_WARNINGS_AS_ERRORS}>:-Werror>)

if(FLANGEWRIGHT_SANITIZE)
    add_compile_options(-fsanitize=${FLANGEWRIGHT_SANITIZE} -fno-omit-frame-pointer -fno-sanitize-recover=undefined)
    add_link_options(-fsanitize=${FLANGEWRIGHT_SANITIZE})
    add_compile_definitions(_GLIBCXX_ASSERTIONS)
endif()

# Ten files of one folder at a time, so that a new file moves no other folder's; folders of up to three
# files share a group. Names in one group must differ, else one of the files goes into alone.txt.
file(STRINGS "${CMAKE_CURRENT_LIST_DIR}/alone.txt" flangewright_alone REGEX "^[^#]")
function(flangewright_compile_together target)
    set_target_properties(${target} PROPERTIES UNITY_BUILD ON UNITY_BUILD_MODE GROUP)
    get_target_property(sources ${target} SOURCES)
    set(folders "")
    foreach(source IN LISTS sources)
        get_filename_component(path "${source}" ABSOLUTE)
        file(RELATIVE_PATH place "${PROJECT_SOURCE_DIR}" "${path}")
        if(place IN_LIST flangewright_alone)
            continue() # in no group
        endif()
        get_filename_component(folder "${place}" DIRECTORY)
        string(MAKE_C_IDENTIFIER "${folder}" folder)
        list(APPEND folders ${folder})
        list(APPEND files_${folder} "${source}")
    endforeach()
    list(REMOVE_DUPLICATES folders)
    set(n_small 0)
    foreach(folder IN LISTS folders)
        set(n_files 0)
        list(LENGTH files_${folder} n_all)
        foreach(source IN LISTS files_${folder})
            if(n_all LESS 4)
                math(EXPR number "${n_small} / 10")
                math(EXPR n_small "${n_small} + 1")
                set(group "small_${number}")
            else()
                math(EXPR number "${n_files} / 10")
                math(EXPR n_files "${n_files} + 1")
                set(group "${folder}_${number}")
            endif()
            set_source_files_properties("${source}" PROPERTIES UNITY_GROUP "${group}")
        endforeach()
    endforeach()
endfunction()

function(flangewright_precompile target)
    if(FLANGEWRIGHT_FAST_BUILD)
        target_precompile_headers(${target} PRIVATE
            <Eigen/Core> <algorithm> <array> <cmath> <functional> <map> <memory> <optional> <span>
            <string> <vector> ${ARGN})
        flangewright_precompiled_warnings(${target})
        flangewright_compile_together(${target})
    endif()
endfunction()

# The first test program reads the headers, the others take them over.
function(flangewright_precompile_tests target)
    if(NOT FLANGEWRIGHT_FAST_BUILD)
        return()
    endif()
    get_property(first GLOBAL PROPERTY flangewright_precompiled_tests)
    if(first)
        target_precompile_headers(${target} REUSE_FROM ${first})
        flangewright_precompiled_warnings(${target})
        flangewright_compile_together(${target})
    else()
        flangewright_precompile(${target} ${ARGN})
        set_property(GLOBAL PROPERTY flangewright_precompiled_tests ${target})
    endif()
endfunction()

# With precompiled headers GCC 12 tells its false alarm about "text" + std::string (bug 105651) in
# other words.
function(flangewright_precompiled_warnings target)
    target_compile_options(${target} PRIVATE "$<$<CXX_COMPILER_ID:GNU>:-Wno-array-bounds>")
endfunction()

# Adds a library of one top folder from all sources below it; what follows the name are headers worth
# reading once.
function(flangewright_folder name)
    file(GLOB_RECURSE sources CONFIGURE_DEPENDS "${CMAKE_CURRENT_SOURCE_DIR}/*.cpp")
    file(GLOB_RECURSE headers CONFIGURE_DEPENDS "${CMAKE_CURRENT_SOURCE_DIR}/*.hpp")
    list(FILTER sources EXCLUDE REGEX "/main\\.cpp$")
    add_library(flangewright_${name} STATIC ${sources})
    add_library(flangewright::${name} ALIAS flangewright_${name})
    set_target_properties(flangewright_${name} PROPERTIES EXPORT_NAME ${name})
    target_sources(flangewright_${name} PUBLIC FILE_SET HEADERS
        BASE_DIRS "${PROJECT_SOURCE_DIR}" FILES ${headers})
    target_include_directories(flangewright_${name} PUBLIC
        $<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}> $<INSTALL_INTERFACE:include/flangewright>)
    target_compile_features(flangewright_${name} PUBLIC cxx_std_20)
    target_link_libraries(flangewright_${name} PRIVATE $<BUILD_INTERFACE:flangewright_warnings>)
    flangewright_precompile(flangewright_${name} ${ARGN})
endfunction()
