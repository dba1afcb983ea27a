# Writes OUTPUT, a C++ source with the bytes of FOLDER/contact.net and FOLDER/race.net.
set(source "#include \"judge/shipped.hpp\"\n\nnamespace pointwright::judge {\n")
foreach(net contact race)
  file(READ ${FOLDER}/${net}.net hex HEX)
  string(REGEX REPLACE "(..)" "0x\\1," bytes "${hex}")
  string(APPEND source "static const std::uint8_t ${net}_bytes[] = {${bytes}};\n"
                       "std::span<const std::uint8_t> shipped_${net}_net() { return ${net}_bytes; }\n")
endforeach()
string(APPEND source "}  // namespace pointwright::judge\n")
file(WRITE ${OUTPUT} "${source}")
