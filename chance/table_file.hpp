#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <span>
#include <string_view>

#include "rules/result.hpp"

namespace pointwright {

/// What a table file holds. The numbers stand in files and never change their meaning.
enum class TableKind : std::uint32_t {
  two_sided = 1,      ///< TwoSidedEntry<float>, [waiting][on roll]
  three_checker = 2,  ///< float win chances, then ThreeCheckerCube, [on roll][waiting]
};

/// The first 64 bytes of a table file; the numbers follow. All are little-endian, as on every
/// machine that this program is built for.
struct TableHeader {
  std::array<char, 8> magic{'P', 'W', 't', 'a', 'b', 'l', 'e', '\n'};
  std::uint32_t version = 1;
  std::uint32_t kind = 0;
  std::uint32_t checkers = 0;    ///< most checkers a side
  std::uint32_t positions = 0;   ///< of one side
  std::uint64_t body_bytes = 0;  ///< how many bytes follow
  std::uint64_t body_checksum = 0;
  std::uint64_t reserved = 0;
  std::uint64_t unused = 0;
  std::uint64_t header_checksum = 0;  ///< of the 56 bytes before it

  friend bool operator==(const TableHeader&, const TableHeader&) = default;
};
static_assert(sizeof(TableHeader) == 64);

/// Why a table file is not used. Each kind of damage has its own answer.
enum class TableDamage {
  too_short,         ///< not even a header
  not_a_table,       ///< another kind of file
  header_damaged,    ///< the header's checksum is wrong
  other_version,     ///< made by another version of the program
  other_kind,        ///< a table, but of something else
  other_dimensions,  ///< a table of another size
  truncated,         ///< the body ends too early
  trailing_bytes,    ///< something follows the body
  body_damaged,      ///< the body's checksum is wrong
};

constexpr std::string_view explain(TableDamage damage) {
  switch (damage) {
    case TableDamage::too_short:
      return "the file is shorter than the header of a table";
    case TableDamage::not_a_table:
      return "the file is no table: it does not begin like one";
    case TableDamage::header_damaged:
      return "the header is damaged: its checksum does not agree";
    case TableDamage::other_version:
      return "the table was made by another version of Pointwright";
    case TableDamage::other_kind:
      return "the file holds another kind of table";
    case TableDamage::other_dimensions:
      return "the table is of another size than was asked for";
    case TableDamage::truncated:
      return "the table ends before its last number";
    case TableDamage::trailing_bytes:
      return "something follows the last number of the table";
    case TableDamage::body_damaged:
      return "the numbers are damaged: their checksum does not agree";
  }
  return "the table is damaged";
}

/// A 64-bit checksum that reads 32 bytes at a time on four lanes. It detects damage, not intent:
/// multiply and rotate each word, as common non-cryptographic hashes do. Bytes may come in any
/// number of pieces of any length.
class TableChecksum {
 public:
  void add(std::span<const std::byte> bytes) {
    length_ += bytes.size();
    while (!bytes.empty()) {
      if (held_ == 0 && bytes.size() >= block) {
        mix_block(bytes.data());
        bytes = bytes.subspan(block);
        continue;
      }
      buffer_[held_++] = bytes.front();
      bytes = bytes.subspan(1);
      if (held_ == block) {
        mix_block(buffer_.data());
        held_ = 0;
      }
    }
  }

  [[nodiscard]] std::uint64_t value() const {
    TableChecksum all = *this;
    std::fill(all.buffer_.begin() + static_cast<std::ptrdiff_t>(held_), all.buffer_.end(),
              std::byte{0});
    all.mix_block(all.buffer_.data());
    std::uint64_t value = length_;
    for (const std::uint64_t lane : all.lanes_) mix(value, lane);
    return value ^ (value >> 29);
  }

 private:
  static constexpr std::size_t block = 32;

  void mix_block(const std::byte* bytes) {
    for (std::size_t lane = 0; lane < lanes_.size(); ++lane) {
      std::uint64_t word = 0;
      std::memcpy(&word, bytes + 8 * lane, sizeof word);
      mix(lanes_[lane], word);
    }
  }
  static void mix(std::uint64_t& lane, std::uint64_t word) {
    lane ^= word;
    lane *= 0x9E3779B97F4A7C15U;  // 2^64 over the golden ratio, odd: no information is lost
    lane = (lane << 31) | (lane >> 33);
  }

  std::array<std::uint64_t, 4> lanes_{1, 2, 3, 4};
  std::array<std::byte, block> buffer_{};
  std::size_t held_ = 0;
  std::uint64_t length_ = 0;
};

inline std::uint64_t table_checksum(std::span<const std::byte> bytes) {
  TableChecksum checksum;
  checksum.add(bytes);
  return checksum.value();
}

/// Sets the header's own checksum. Precondition: everything else is set.
inline void seal(TableHeader& header) {
  header.header_checksum =
      table_checksum(std::as_bytes(std::span(&header, 1)).first(sizeof header - 8));
}

/// What a table file must be to be used.
struct TableWanted {
  TableKind kind;
  std::uint32_t checkers;
  std::uint32_t positions;
  std::uint64_t body_bytes;
};

/// The numbers of a table file, or what is wrong with it. Reads every byte once.
inline Result<std::span<const std::byte>, TableDamage> table_body(std::span<const std::byte> file,
                                                                  const TableWanted& wanted) {
  TableHeader header;
  if (file.size() < sizeof header) return TableDamage::too_short;
  std::memcpy(&header, file.data(), sizeof header);
  if (header.magic != TableHeader{}.magic) return TableDamage::not_a_table;
  TableHeader sealed = header;
  seal(sealed);
  if (sealed != header) return TableDamage::header_damaged;
  if (header.version != TableHeader{}.version) return TableDamage::other_version;
  if (header.kind != static_cast<std::uint32_t>(wanted.kind)) return TableDamage::other_kind;
  if (header.checkers != wanted.checkers || header.positions != wanted.positions ||
      header.body_bytes != wanted.body_bytes) {
    return TableDamage::other_dimensions;
  }
  const auto body = file.subspan(sizeof header);
  if (body.size() < header.body_bytes) return TableDamage::truncated;
  if (body.size() > header.body_bytes) return TableDamage::trailing_bytes;
  if (table_checksum(body) != header.body_checksum) return TableDamage::body_damaged;
  return body;
}

}  // namespace pointwright
