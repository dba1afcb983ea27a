# What is installed and packaged: the program with its manual page, completions and demo course
# (component "program"), and the rooms as libraries with their headers and a CMake package
# (component "development"). `find_package(pointwright)` then gives targets such as
# pointwright::rules.

include(CMakePackageConfigHelpers)

# The program.
install(TARGETS pointwright RUNTIME COMPONENT program)
install(FILES ${PROJECT_BINARY_DIR}/shell/pointwright.1
        DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT program)
install(FILES ${PROJECT_BINARY_DIR}/shell/pointwright.bash RENAME pointwright
        DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions COMPONENT program)
install(FILES ${PROJECT_BINARY_DIR}/shell/_pointwright
        DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions COMPONENT program)
install(FILES ${PROJECT_BINARY_DIR}/shell/pointwright.fish
        DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d COMPONENT program)
install(DIRECTORY ${PROJECT_SOURCE_DIR}/lessons
        DESTINATION ${CMAKE_INSTALL_DATADIR}/pointwright COMPONENT program)

# The libraries.
get_property(rooms GLOBAL PROPERTY POINTWRIGHT_ROOMS)
set(package_folder ${CMAKE_INSTALL_LIBDIR}/cmake/pointwright)
foreach(room ${rooms})
  install(TARGETS pointwright_${room} EXPORT pointwrightTargets
          ARCHIVE COMPONENT development)
  install(DIRECTORY ${PROJECT_SOURCE_DIR}/${room}
          DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/pointwright COMPONENT development
          FILES_MATCHING PATTERN "*.hpp")
endforeach()
install(EXPORT pointwrightTargets NAMESPACE pointwright::
        DESTINATION ${package_folder} COMPONENT development)
configure_package_config_file(${PROJECT_SOURCE_DIR}/cmake/pointwrightConfig.cmake.in
  ${PROJECT_BINARY_DIR}/pointwrightConfig.cmake INSTALL_DESTINATION ${package_folder})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/pointwrightConfigVersion.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/pointwrightConfig.cmake
              ${PROJECT_BINARY_DIR}/pointwrightConfigVersion.cmake
        DESTINATION ${package_folder} COMPONENT development)

# The Debian packages: `cpack --config build/release/CPackConfig.cmake`.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME pointwright)
set(CPACK_PACKAGE_VENDOR "The Pointwright maintainers")
set(CPACK_PACKAGE_CONTACT "The Pointwright maintainers <maintainers@pointwright.invalid>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program development)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION games)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME pointwright)
# Programs and type that no library names: clips and printed pages.
set(CPACK_DEBIAN_PROGRAM_PACKAGE_DEPENDS "fonts-inter")
set(CPACK_DEBIAN_PROGRAM_PACKAGE_RECOMMENDS "ffmpeg")
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SUGGESTS "espeak-ng")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libpointwright-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS
  "libfmt-dev, nlohmann-json3-dev, libyaml-cpp-dev, libcmark-gfm-dev, libcmark-gfm-extensions-dev, libssl-dev, libcpp-httplib-dev, libpango1.0-dev, libcairo2-dev, pkg-config")
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION
  "workbench for people who teach backgammon
 Proves the claims in a backgammon lesson and makes from the proved text
 everything that the learners see; lists legal plays and rules on any play.")
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION
  "libraries of Pointwright for other programs
 Rules of backgammon, lessons and pages as static C++20 libraries, with headers
 and a CMake package.")
include(CPack)
