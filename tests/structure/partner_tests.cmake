# Every law and every tool shape has a test file of its own, and no test file lies where no test
# program looks. Run: cmake -D SOURCE=<top folder> -P tests/structure/partner_tests.cmake
include("${CMAKE_CURRENT_LIST_DIR}/faults.cmake")

file(GLOB entries RELATIVE "${SOURCE}"
    "${SOURCE}/solver/material/hardening/*.cpp" "${SOURCE}/solver/material/yield/*.cpp"
    "${SOURCE}/solver/tooling/surface/*.cpp")
if(NOT entries)
    fault("no law found: the check looks in the wrong place")
endif()
foreach(entry IN LISTS entries)
    get_filename_component(folder "${entry}" DIRECTORY)
    get_filename_component(stem "${entry}" NAME_WE)
    if(NOT EXISTS "${SOURCE}/tests/${folder}/test_${stem}.cpp")
        fault("${entry} has no tests/${folder}/test_${stem}.cpp")
    endif()
endforeach()

file(GLOB_RECURSE tests RELATIVE "${SOURCE}/tests" "${SOURCE}/tests/*.cpp")
foreach(test IN LISTS tests)
    if(NOT test MATCHES "^(mesh|solver|io|published|support|bench|fuzz|soak)/")
        fault("tests/${test} belongs to no test program")
    endif()
endforeach()
list(LENGTH entries n_entries)
report_faults("${n_entries} laws and shapes have their tests")
