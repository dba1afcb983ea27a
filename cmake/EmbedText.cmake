# pointwright_embed(TARGET NAMESPACE FILE...): makes each text file a constant of the target.
#
# Writes embedded/FILE_EXT.cpp with `extern const std::string_view name_ext` in the namespace; the
# header that declares them is written by hand, beside the code that uses it.

set(POINTWRIGHT_EMBED_SCRIPT ${CMAKE_CURRENT_LIST_FILE})

function(pointwright_embed target namespace)
  foreach(file ${ARGN})
    get_filename_component(name ${file} NAME)
    string(MAKE_C_IDENTIFIER ${name} identifier)
    set(output ${CMAKE_CURRENT_BINARY_DIR}/embedded/${identifier}.cpp)
    add_custom_command(
      OUTPUT ${output}
      COMMAND ${CMAKE_COMMAND} -DINPUT=${CMAKE_CURRENT_SOURCE_DIR}/${file} -DOUTPUT=${output}
              -DIDENTIFIER=${identifier} -DNAMESPACE=${namespace} -P ${POINTWRIGHT_EMBED_SCRIPT}
      DEPENDS ${file} ${POINTWRIGHT_EMBED_SCRIPT}
      VERBATIM)
    target_sources(${target} PRIVATE ${output})
  endforeach()
endfunction()

if(CMAKE_SCRIPT_MODE_FILE STREQUAL CMAKE_CURRENT_LIST_FILE)
  # Raw strings may be at most 64 KiB long in some compilers: the text goes in as several pieces.
  # Hexadecimal, so that CMake's own quoting cannot touch it.
  file(READ ${INPUT} hex HEX)
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "\\\\x\\1" escaped "${hex}")
  string(REGEX MATCHALL "................................................................................" lines "${escaped}")
  string(LENGTH "${escaped}" length)
  math(EXPR rest "${length} % 80")
  math(EXPR start "${length} - ${rest}")
  string(SUBSTRING "${escaped}" ${start} ${rest} tail)
  string(REPLACE ";" "\"\n    \"" body "${lines}")
  file(WRITE ${OUTPUT}
    "// Made from ${INPUT} by cmake/EmbedText.cmake.\n#include <string_view>\n\n"
    "namespace ${NAMESPACE} {\n"
    "extern const std::string_view ${IDENTIFIER};\n"
    "const std::string_view ${IDENTIFIER} =\n    \"${body}\"\n    \"${tail}\";\n"
    "}  // namespace ${NAMESPACE}\n")
endif()
