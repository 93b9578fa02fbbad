# Installs everything to a fresh place, builds and runs the example program for readers on it, and
# looks for what a user's package must hold.
# Run: cmake -D BINARY=<build folder> -D SOURCE=<top folder> -P tests/structure/consumer.cmake
set(place "${BINARY}/consumer")
file(REMOVE_RECURSE "${place}")

function(run)
    execute_process(COMMAND ${ARGN} RESULT_VARIABLE code OUTPUT_VARIABLE text ERROR_VARIABLE text)
    if(NOT code EQUAL 0)
        list(JOIN ARGN " " command)
        message(FATAL_ERROR "${command}\n${text}")
    endif()
    set(text "${text}" PARENT_SCOPE)
endfunction()

run("${CMAKE_COMMAND}" --install "${BINARY}" --prefix "${place}/prefix")
foreach(file bin/flangewright share/man/man1/flangewright.1.gz
        share/bash-completion/completions/flangewright share/doc/flangewright/copyright
        share/doc/flangewright/docs/case-file.md share/doc/flangewright/docs/tutorial.md
        share/doc/flangewright/examples/demo/case.toml
        share/doc/flangewright-dev/example/springback.cpp)
    if(NOT EXISTS "${place}/prefix/${file}")
        message(FATAL_ERROR "not installed: ${file}")
    endif()
endforeach()
run("${CMAKE_COMMAND}" -S "${place}/prefix/share/doc/flangewright-dev/example" -B "${place}/build"
    -G Ninja "-DCMAKE_PREFIX_PATH=${place}/prefix" "-DCMAKE_CXX_FLAGS=${FLAGS}")
run("${CMAKE_COMMAND}" --build "${place}/build")
run("${place}/build/springback")
message(STATUS "an outside program builds and runs on the installed libraries: ${text}")
