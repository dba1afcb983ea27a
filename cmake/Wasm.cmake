# Toolchain: WebAssembly with SIMD, by Debian's clang 19 with wasi-libc and libc++. No exceptions, no
# threads; arithmetic is never fused, so that numbers are those of the native build.
set(CMAKE_SYSTEM_NAME Generic)
set(CMAKE_SYSTEM_PROCESSOR wasm32)
set(CMAKE_CXX_COMPILER clang++-19)
set(CMAKE_CXX_COMPILER_TARGET wasm32-wasi)
set(CMAKE_AR llvm-ar-19 CACHE FILEPATH "archiver")
set(CMAKE_RANLIB llvm-ranlib-19 CACHE FILEPATH "archive indexer")
set(CMAKE_TRY_COMPILE_TARGET_TYPE STATIC_LIBRARY)
set(CMAKE_EXECUTABLE_SUFFIX_CXX .wasm)
set(CMAKE_CXX_FLAGS_INIT
    "-msimd128 -fno-exceptions -fno-rtti -ffp-contract=off -ffunction-sections -fdata-sections")
set(CMAKE_EXE_LINKER_FLAGS_INIT
    "-mexec-model=reactor -Wl,--strip-all -Wl,--gc-sections -Wl,-z,stack-size=1048576 -Wl,--stack-first")
