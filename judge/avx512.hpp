#pragma once

#if defined(__x86_64__)
#include <immintrin.h>

/// What the kernels for AVX-512 may use: everything that has come with VNNI on every processor so
/// far.
#define POINTWRIGHT_AVX512                                                            \
  __attribute__((                                                                     \
      target("avx512f,avx512bw,avx512cd,avx512dq,avx512vl,avx512vnni,bmi,bmi2,lzcnt," \
             "popcnt")))
#endif
