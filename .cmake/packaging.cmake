# What a package has beside the program: manual page, completion, documents and examples; and the
# packages themselves: cpack -G DEB, or TGZ. `flangewright` is for users, `flangewright-dev` for those
# who write programs on the libraries.
set(document_folder "${CMAKE_INSTALL_DATADIR}/doc/flangewright")

if(TARGET flangewright)
    find_program(GZIP_PROGRAM gzip REQUIRED)
    set(manual "${PROJECT_BINARY_DIR}/flangewright.1")
    add_custom_command(OUTPUT "${manual}.gz"
        COMMAND flangewright --man-page > "${manual}"
        COMMAND "${GZIP_PROGRAM}" -9nkf "${manual}" # no name, no time: the same bytes each time
        DEPENDS flangewright VERBATIM)
    add_custom_target(flangewright_manual ALL DEPENDS "${manual}.gz")
    install(FILES "${manual}.gz" DESTINATION "${CMAKE_INSTALL_MANDIR}/man1" COMPONENT program)
    install(FILES "${PROJECT_SOURCE_DIR}/io/command_line/shell/flangewright.bash"
        DESTINATION "${CMAKE_INSTALL_DATADIR}/bash-completion/completions"
        RENAME flangewright COMPONENT program)
endif()
install(FILES "${PROJECT_SOURCE_DIR}/LICENSE"
    DESTINATION "${document_folder}" RENAME copyright COMPONENT program)
install(FILES "${PROJECT_SOURCE_DIR}/README.md" DESTINATION "${document_folder}" COMPONENT program)
install(DIRECTORY "${PROJECT_SOURCE_DIR}/docs" DESTINATION "${document_folder}" COMPONENT program
    PATTERN "*.in.md" EXCLUDE PATTERN "example" EXCLUDE)
install(DIRECTORY "${PROJECT_SOURCE_DIR}/cases/" DESTINATION "${document_folder}/examples"
    COMPONENT program FILES_MATCHING PATTERN "*.toml" PATTERN "*.dxf")
install(DIRECTORY "${PROJECT_SOURCE_DIR}/docs/example"
    DESTINATION "${CMAKE_INSTALL_DATADIR}/doc/flangewright-dev" COMPONENT development)
install(FILES "${PROJECT_SOURCE_DIR}/LICENSE"
    DESTINATION "${CMAKE_INSTALL_DATADIR}/doc/flangewright-dev"
    RENAME copyright COMPONENT development)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME flangewright)
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "${PROJECT_DESCRIPTION}")
set(CPACK_PACKAGE_VENDOR flangewright)
set(CPACK_PACKAGE_CONTACT "the flangewright project <flangewright@localhost>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program development)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME flangewright)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
# Run, not linked: pictures need a display, if only one that nobody sees.
set(CPACK_DEBIAN_PROGRAM_PACKAGE_RECOMMENDS xvfb)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SUGGESTS "paraview, bash-completion, flangewright-dev")
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION
    "Reads a job in shop sizes, bends and releases the sheet on the computer, and writes a page\n\
for the build log: does the edge split, how far does the flange spring back, does the web stay\n\
flat. A forming estimate, not approved data.")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME flangewright-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
# What the package file asks for; component io wants what it recommends, too.
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS
    "libeigen3-dev, libexpected-dev, libfmt-dev, libtbb-dev, libgmsh-dev, libmumps-seq-dev, \
libsuitesparse-dev, libopenblas-dev")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_RECOMMENDS
    "libtomlplusplus-dev, libcli11-dev, libdxflib-dev, nlohmann-json3-dev, libvtk9-dev")
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION
    "Static libraries, headers and a CMake package: sheet meshes, forming mechanics, findings,\n\
and with component io the readers and writers of flangewright.")
if(PROJECT_IS_TOP_LEVEL)
    include(CPack)
endif()
