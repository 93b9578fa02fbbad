# Warnings for our own code only; never passed on to those who link us.
add_library(flangewright_warnings INTERFACE)
target_compile_options(flangewright_warnings INTERFACE
    -Wall -Wextra -Wpedantic -Wshadow -Wfloat-conversion
    # GCC 12 warns falsely on "text" + std::string (its bug 105651).
    "$<$<CXX_COMPILER_ID:GNU>:-Wno-unknown-warning-option;-Wno-restrict;-Wno-stringop-overflow>"
    $<$<BOOL:${FLANGEWRIGHT_WARNINGS_AS_ERRORS}>:-Werror>)

if(FLANGEWRIGHT_SANITIZE)
    add_compile_options(-fsanitize=${FLANGEWRIGHT_SANITIZE} -fno-omit-frame-pointer -fno-sanitize-recover=undefined)
    add_link_options(-fsanitize=${FLANGEWRIGHT_SANITIZE})
    add_compile_definitions(_GLIBCXX_ASSERTIONS)
endif()

# Adds a library of one top folder from all sources below it.
# A build of everything, as the tests need it, takes a third less with the libraries' headers read
# once per target. Off otherwise, so that a missing include is seen.
option(FLANGEWRIGHT_PRECOMPILED_HEADERS "Read the libraries' headers once per target" OFF)
function(flangewright_precompile target)
    if(FLANGEWRIGHT_PRECOMPILED_HEADERS)
        target_precompile_headers(${target} PRIVATE
            <Eigen/Core> <algorithm> <functional> <map> <memory> <optional> <span> <string> <vector>
            ${ARGN})
        # GCC 12 then tells its false alarm about "text" + std::string (bug 105651) in other words.
        target_compile_options(${target} PRIVATE "$<$<CXX_COMPILER_ID:GNU>:-Wno-array-bounds>")
    endif()
endfunction()

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
    flangewright_precompile(flangewright_${name})
endfunction()
