# Collects faults, then fails once with all of them.
cmake_minimum_required(VERSION 3.25) # its policies

set_property(GLOBAL PROPERTY faults "")

function(fault text)
    set_property(GLOBAL APPEND PROPERTY faults "${text}")
endfunction()

function(report_faults when_none)
    get_property(faults GLOBAL PROPERTY faults)
    if(faults)
        list(REMOVE_DUPLICATES faults)
        list(LENGTH faults n_faults)
        list(JOIN faults "\n  " text)
        message(FATAL_ERROR "${n_faults} faults:\n  ${text}")
    endif()
    message(STATUS "${when_none}")
endfunction()
