#pragma once

#include <array>
#include <cstdint>
#include <cstring>
#include <vector>

#include "judge/evaluator.hpp"

namespace pointwright::judge {

/// Remembers what positions are worth to the side on roll. Of fixed size: a new entry takes the
/// place of an old one. Never gives an answer for another position, since the whole position is
/// stored, and not only a hash.
class PositionCache {
 public:
  /// The checkers, four bits for each place, the side on roll first; the last bytes are a tag for
  /// what else the value depends on (depth, stakes).
  using Key = std::array<std::uint64_t, 4>;

  static Key key(const Board& board, Side on_roll, std::uint16_t tag) {
    std::array<std::uint8_t, 32> bytes{};
    std::size_t at = 0;
    for (const Side side : {on_roll, opponent(on_roll)}) {
      const Camp& camp = board.of(side);
      for (std::size_t place = 0; place < camp.size(); place += 2)
        bytes[at++] = static_cast<std::uint8_t>(camp[place] | (camp[place + 1] << 4U));
    }
    std::memcpy(&bytes[at], &tag, sizeof tag);
    Key key;
    std::memcpy(key.data(), bytes.data(), sizeof key);
    return key;
  }

  /// Room for 2^bits positions of 64 bytes each.
  explicit PositionCache(unsigned bits) : mask_((std::size_t{1} << bits) - 1), slots_(mask_ + 1) {}

  /// What was stored for this key, or nullptr.
  [[nodiscard]] const Evaluation* find(const Key& key) const {
    const Slot& slot = slots_[place(key)];
    return slot.used && slot.key == key ? &slot.value : nullptr;
  }
  void store(const Key& key, const Evaluation& value) { slots_[place(key)] = {key, value, true}; }
  void clear() { slots_.assign(slots_.size(), Slot{}); }

 private:
  struct alignas(64) Slot {
    Key key{};
    Evaluation value;
    bool used = false;
  };

  [[nodiscard]] std::size_t place(const Key& key) const {
    std::uint64_t mixed = 0;
    for (const std::uint64_t word : key) {
      mixed = (mixed ^ word) * 0x9E3779B97F4A7C15ULL;
      mixed ^= mixed >> 29U;
    }
    return static_cast<std::size_t>(mixed) & mask_;
  }

  std::size_t mask_;
  std::vector<Slot> slots_;
};

}  // namespace pointwright::judge
