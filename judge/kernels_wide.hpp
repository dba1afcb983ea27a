#pragma once

#include "judge/kernels.hpp"

/// Kernels for processors that have certain instructions. A precondition of calling them is that
/// the processor has them.
namespace pointwright::judge {

#if defined(__x86_64__)
bool has_avx2();
const Kernels& avx2_kernels();

bool has_avx512();
const Kernels& avx512_kernels();
void count_measures_avx512(const Board& board, Side on_roll, Counts& counts);
#endif

#if defined(__wasm_simd128__)
const Kernels& wasm_kernels();
#endif

}  // namespace pointwright::judge
