# Installs the libraries to a fresh place and builds and runs an outside program on them.
# Run: cmake -D BINARY=<build folder> -D SOURCE=<top folder> -P tests/structure/consumer.cmake
set(place "${BINARY}/consumer")
file(REMOVE_RECURSE "${place}")

function(run)
    execute_process(COMMAND ${ARGN} RESULT_VARIABLE code OUTPUT_VARIABLE text ERROR_VARIABLE text)
    if(NOT code EQUAL 0)
        list(JOIN ARGN " " command)
        message(FATAL_ERROR "${command}\n${text}")
    endif()
endfunction()

run("${CMAKE_COMMAND}" --install "${BINARY}" --prefix "${place}/prefix")
run("${CMAKE_COMMAND}" -S "${SOURCE}/tests/structure/consumer" -B "${place}/build" -G Ninja
    "-DCMAKE_PREFIX_PATH=${place}/prefix" "-DCMAKE_CXX_FLAGS=${FLAGS}")
run("${CMAKE_COMMAND}" --build "${place}/build")
run("${place}/build/consumer")
message(STATUS "an outside program builds and runs on the installed libraries")
