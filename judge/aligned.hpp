#pragma once

#include <cstddef>
#include <new>
#include <vector>

namespace pointwright::judge {

/// The widest vector that a kernel loads; a load across two lines of the cache costs two.
inline constexpr std::size_t vector_bytes = 64;

/// Gives memory that begins at a multiple of `vector_bytes`.
template <class Number>
struct AlignedAllocator {
  using value_type = Number;  // NOLINT(readability-identifier-naming): the standard's name

  AlignedAllocator() = default;
  template <class Other>
  explicit AlignedAllocator(const AlignedAllocator<Other>& /*other*/) {}

  Number* allocate(std::size_t count) {
    return static_cast<Number*>(
        ::operator new(count * sizeof(Number), std::align_val_t{vector_bytes}));
  }
  void deallocate(Number* memory, std::size_t /*count*/) {
    ::operator delete(memory, std::align_val_t{vector_bytes});
  }
  friend bool operator==(const AlignedAllocator&, const AlignedAllocator&) { return true; }
};

template <class Number>
using AlignedVector = std::vector<Number, AlignedAllocator<Number>>;

}  // namespace pointwright::judge
