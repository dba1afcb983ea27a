# What the preset `wasm` builds: the rooms that a page needs, and engine.wasm made of them.
add_subdirectory(rules)
add_subdirectory(chance)
add_subdirectory(judge)

# fmt's headers alone, without locales or files; drawings alone of the studio.
file(GLOB engine_sources CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/web/*.cpp)
set(drawing_sources board_layout board_marks diagram looks svg wording)
list(TRANSFORM drawing_sources PREPEND ${PROJECT_SOURCE_DIR}/studio/)
list(TRANSFORM drawing_sources APPEND .cpp)

add_executable(engine ${engine_sources} ${drawing_sources})
target_compile_definitions(engine PRIVATE FMT_HEADER_ONLY FMT_STATIC_THOUSANDS_SEPARATOR=',')
target_include_directories(engine SYSTEM PRIVATE ${PROJECT_BINARY_DIR}/outside)
target_link_libraries(engine PRIVATE pointwright_options pointwright::rules pointwright::chance
                                     pointwright::judge)

# The host's include folder would shadow wasi-libc's, so fmt's headers are reached by a link.
file(MAKE_DIRECTORY ${PROJECT_BINARY_DIR}/outside)
file(CREATE_LINK /usr/include/fmt ${PROJECT_BINARY_DIR}/outside/fmt SYMBOLIC)
