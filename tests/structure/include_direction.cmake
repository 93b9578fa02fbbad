# A file includes only files of its own folder and of folders of lower rank; some things are allowed
# in few places only. Run: cmake -D SOURCE=<top folder> -P tests/structure/include_direction.cmake
include("${CMAKE_CURRENT_LIST_DIR}/faults.cmake")

# Folder and rank. A new folder needs a line here.
set(ranks
    mesh/base=0
    mesh/outline=1
    mesh/grid=2
    solver/material=3
    solver/tooling=3
    solver/limits=4
    solver/shell=4
    solver/job=4
    solver/equilibrium=5
    solver/findings=6
    solver/process=7
    io/units=8
    io/display=8
    io/key_file=9
    io/drawing=9
    io/sheet_library=10
    io/case_file=11
    io/tensile=11
    io/tables=12
    io/paper=9
    io/coupon=13
    io/blank_template=13
    io/vtk=13
    io/chart=14
    io/sheet_page=15
    io/part_view=16
    io/record_pdf=16
    io/run_folder=17
    io/saved_state=18
    io/build_log=19
    io/compare=20
    io/command_line=21)

# Pattern of an include and the only files that may have it.
set(only_in
    "gmsh[.]h=^mesh/grid/gmsh_session[.]cpp$"
    "dmumps_c[.]h=^solver/equilibrium/[a-z_]+[.]cpp$"
    "cholmod[.]h=^solver/equilibrium/[a-z_]+[.]cpp$"
    "vtk[A-Z].*[.]h=^io/"
    "toml(plusplus|[+][+])/.*=^io/"
    "dxflib/.*=^io/(drawing/dxf_file|paper/dxf_sheet)[.]cpp$"
    "cairo.*=^io/(paper/pdf_(pages|stream)|record_pdf/pdf_paper)[.]cpp$"
    "CLI/.*=^io/command_line/"
    "(iostream|fstream|cstdio|filesystem|print)=^(io|tests)/")

foreach(entry IN LISTS ranks)
    string(REPLACE "=" ";" pair "${entry}")
    list(GET pair 0 folder)
    list(GET pair 1 rank_of_${folder})
endforeach()

function(folder_of path result)
    string(REGEX MATCH "^[a-z_]+/[a-z_0-9]+" folder "${path}")
    set(${result} "${folder}" PARENT_SCOPE)
endfunction()

function(check_project_include file included)
    folder_of("${file}" own)
    folder_of("${included}" other)
    if(NOT EXISTS "${SOURCE}/${included}")
        fault("${file} includes ${included}, which does not exist from the top folder")
    elseif(NOT DEFINED rank_of_${other})
        fault("${file} includes ${included}: folder ${other} has no rank")
    elseif(NOT own STREQUAL other AND NOT rank_of_${other} LESS rank_of_${own})
        fault("${file} (rank ${rank_of_${own}}) includes ${included} (rank ${rank_of_${other}})")
    endif()
endfunction()

function(check_outside_include file included)
    foreach(entry IN LISTS only_in)
        string(REGEX MATCH "^(.*)=(.*)$" pair "${entry}")
        set(header "${CMAKE_MATCH_1}")
        set(allowed "${CMAKE_MATCH_2}")
        if(included MATCHES "^${header}$" AND NOT file MATCHES "${allowed}")
            fault("${file} includes <${included}>, allowed only in ${allowed}")
        endif()
    endforeach()
endfunction()

file(GLOB_RECURSE files RELATIVE "${SOURCE}"
    "${SOURCE}/mesh/*.?pp" "${SOURCE}/solver/*.?pp" "${SOURCE}/io/*.?pp")
if(NOT files)
    fault("no sources found below ${SOURCE}")
endif()
foreach(file IN LISTS files)
    folder_of("${file}" own)
    if(NOT DEFINED rank_of_${own})
        fault("${file}: folder ${own} has no rank")
        continue()
    endif()
    file(STRINGS "${SOURCE}/${file}" lines REGEX "^[ \t]*#[ \t]*include")
    foreach(line IN LISTS lines)
        if(line MATCHES "include[ \t]*\"([^\"]+)\"")
            check_project_include("${file}" "${CMAKE_MATCH_1}")
        elseif(line MATCHES "include[ \t]*<([^>]+)>")
            check_outside_include("${file}" "${CMAKE_MATCH_1}")
        endif()
    endforeach()
endforeach()
list(LENGTH files n_files)
report_faults("${n_files} files include downward only")
