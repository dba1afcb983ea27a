# pointwright_room(NAME [NEEDS room...] [USES target...])
#
# Declares the static library of one room of the house from the sources beside its CMakeLists.txt.
# NEEDS are the rooms that it may include from; USES are libraries from outside.

option(POINTWRIGHT_WARNINGS_AS_ERRORS "Treat compiler warnings as errors" ON)

add_library(pointwright_options INTERFACE)
target_include_directories(pointwright_options INTERFACE $<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}>
                                                         $<BUILD_INTERFACE:${PROJECT_BINARY_DIR}>)
# libstdc++ 12 calls its own deprecated std::get_temporary_buffer in std::stable_sort, and clang
# reports it where we call that: hence -Wno-deprecated-declarations.
target_compile_options(pointwright_options INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wnon-virtual-dtor -Wold-style-cast
  -Wno-deprecated-declarations
  $<$<BOOL:${POINTWRIGHT_WARNINGS_AS_ERRORS}>:-Werror>)

function(pointwright_room name)
  cmake_parse_arguments(ROOM "" "" "NEEDS;USES" ${ARGN})
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*.cpp)
  add_library(pointwright_${name} STATIC ${sources})
  add_library(pointwright::${name} ALIAS pointwright_${name})
  target_link_libraries(pointwright_${name} PRIVATE $<BUILD_INTERFACE:pointwright_options>)
  foreach(room ${ROOM_NEEDS})
    target_link_libraries(pointwright_${name} PUBLIC pointwright_${room})
  endforeach()
  target_link_libraries(pointwright_${name} PRIVATE ${ROOM_USES})
  # For those who use the installed libraries: see cmake/Install.cmake.
  target_compile_features(pointwright_${name} PUBLIC cxx_std_20)
  target_include_directories(pointwright_${name}
    INTERFACE $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}/pointwright>)
  set_target_properties(pointwright_${name} PROPERTIES EXPORT_NAME ${name})
  set_property(GLOBAL APPEND PROPERTY POINTWRIGHT_ROOMS ${name})
endfunction()
