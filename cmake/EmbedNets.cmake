# Writes OUTPUT, a C++ source with the bytes of FOLDER/PHASE.net for each phase of judge/phase.hpp.
set(source "#include \"judge/shipped.hpp\"\n\nnamespace pointwright::judge {\n")
set(choice "")
foreach(phase open blockade bear-in race)
  file(READ ${FOLDER}/${phase}.net hex HEX)
  string(REGEX REPLACE "(..)" "0x\\1," bytes "${hex}")
  string(REPLACE "-" "_" name ${phase})
  string(APPEND source "static const std::uint8_t ${name}_bytes[] = {${bytes}};\n")
  string(APPEND choice "    case Phase::${name}: return ${name}_bytes;\n")
endforeach()
string(APPEND source "std::span<const std::uint8_t> shipped_net(Phase phase) {\n"
                     "  switch (phase) {\n${choice}  }\n  return {};\n}\n"
                     "}  // namespace pointwright::judge\n")
file(WRITE ${OUTPUT} "${source}")
