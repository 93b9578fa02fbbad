# Installs headers below include/flangewright, the libraries, the program, and a CMake package.
# Component `io` is apart: only who asks for it needs VTK to link.
include(CMakePackageConfigHelpers)

set(package_folder "${CMAKE_INSTALL_LIBDIR}/cmake/flangewright")
set(header_folder "${CMAKE_INSTALL_INCLUDEDIR}/flangewright")

install(TARGETS flangewright_mesh flangewright_solver
    EXPORT flangewrightTargets COMPONENT development
    ARCHIVE COMPONENT development
    FILE_SET HEADERS DESTINATION "${header_folder}" COMPONENT development)
install(TARGETS flangewright_io
    EXPORT flangewrightIoTargets COMPONENT development
    ARCHIVE COMPONENT development
    FILE_SET HEADERS DESTINATION "${header_folder}" COMPONENT development)
foreach(set flangewrightTargets flangewrightIoTargets)
    install(EXPORT ${set} NAMESPACE flangewright:: DESTINATION "${package_folder}"
        COMPONENT development)
endforeach()
if(TARGET flangewright)
    install(TARGETS flangewright RUNTIME COMPONENT program)
endif()

configure_package_config_file(
    "${CMAKE_CURRENT_LIST_DIR}/flangewrightConfig.cmake.in"
    "${PROJECT_BINARY_DIR}/flangewrightConfig.cmake"
    INSTALL_DESTINATION "${package_folder}")
write_basic_package_version_file("${PROJECT_BINARY_DIR}/flangewrightConfigVersion.cmake"
    COMPATIBILITY SameMinorVersion)
install(FILES
    "${PROJECT_BINARY_DIR}/flangewrightConfig.cmake"
    "${PROJECT_BINARY_DIR}/flangewrightConfigVersion.cmake"
    DESTINATION "${package_folder}" COMPONENT development)
