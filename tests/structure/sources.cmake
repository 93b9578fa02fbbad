# Public headers of the mechanics say units and sources, and every source key they or the code name
# stands in docs/sources.md. Run: cmake -D SOURCE=<top folder> -P tests/structure/sources.cmake
include("${CMAKE_CURRENT_LIST_DIR}/faults.cmake")

# 1. A header with a documented function has `Units:` and `Source:` in its doc comments.
file(GLOB_RECURSE headers RELATIVE "${SOURCE}"
    "${SOURCE}/solver/material/*.hpp"
    "${SOURCE}/solver/limits/*.hpp"
    "${SOURCE}/solver/shell/*.hpp"
    "${SOURCE}/solver/tooling/surface/*.hpp"
    "${SOURCE}/solver/findings/*.hpp")
set(n_with_functions 0)
foreach(header IN LISTS headers)
    file(READ "${SOURCE}/${header}" text)
    # A declaration of a function: a line, not a comment, that calls a parameter list and ends it.
    string(REGEX REPLACE "//[^\n]*" "" code "${text}")
    if(NOT code MATCHES "[a-z0-9_]+\\([^;{}]*\\)[ a-z\n]*(= 0)?[;{]")
        continue()
    endif()
    math(EXPR n_with_functions "${n_with_functions} + 1")
    foreach(word Units Source)
        if(NOT text MATCHES "///[^\n]*${word}:")
            fault("${header} declares functions, but no doc comment has `${word}:`")
        endif()
    endforeach()
endforeach()
if(n_with_functions EQUAL 0)
    fault("no header with functions found: the check looks in the wrong place")
endif()

# 2. Keys of the form author-author-year exist in docs/sources.md.
set(key_pattern "[a-z]+(-[a-z]+)*-(18|19|20)[0-9][0-9][a-z]?")
set(known "")
if(EXISTS "${SOURCE}/docs/sources.md")
    file(READ "${SOURCE}/docs/sources.md" known)
else()
    fault("docs/sources.md is missing")
endif()
file(GLOB_RECURSE files RELATIVE "${SOURCE}"
    "${SOURCE}/mesh/*.?pp" "${SOURCE}/solver/*.?pp" "${SOURCE}/io/*.?pp" "${SOURCE}/tests/*.?pp")
set(n_keys 0)
foreach(file IN LISTS files)
    file(STRINGS "${SOURCE}/${file}" lines REGEX "//.*${key_pattern}")
    foreach(line IN LISTS lines)
        string(REGEX REPLACE "^.*//" "" comment "${line}")
        string(REGEX MATCHALL "${key_pattern}" keys "${comment}")
        foreach(key IN LISTS keys)
            math(EXPR n_keys "${n_keys} + 1")
            string(FIND "${known}" "${key}" place)
            if(place EQUAL -1)
                fault("${file} names the source ${key}, which docs/sources.md does not have")
            endif()
        endforeach()
    endforeach()
endforeach()
if(n_keys EQUAL 0)
    fault("no source key found: the check looks for the wrong thing")
endif()
report_faults("${n_with_functions} headers say units and sources; ${n_keys} keys are known")
