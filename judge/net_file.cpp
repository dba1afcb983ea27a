#include <algorithm>
#include <cmath>
#include <cstring>

#include "judge/net.hpp"

namespace pointwright::judge {
namespace {

constexpr std::array<std::uint8_t, 8> magic{'P', 'W', 'N', 'E', 'T', '\r', '\n', 0x1a};
constexpr std::uint32_t version = 1;
constexpr std::uint32_t largest_hidden = 512;

/// CRC-32 as in ISO 3309 (the polynomial of Ethernet, reflected), bit by bit: nets are small.
std::uint32_t checksum(std::span<const std::uint8_t> bytes) {
  std::uint32_t crc = 0xffffffffU;
  for (const std::uint8_t byte : bytes) {
    crc ^= byte;
    for (int i = 0; i < 8; ++i) crc = (crc >> 1U) ^ ((crc & 1U) != 0 ? 0xedb88320U : 0U);
  }
  return ~crc;
}

void put32(std::vector<std::uint8_t>& bytes, std::uint32_t value) {
  for (unsigned shift = 0; shift < 32; shift += 8)
    bytes.push_back(static_cast<std::uint8_t>(value >> shift));
}

std::uint32_t get32(std::span<const std::uint8_t> bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (unsigned i = 0; i < 4; ++i) value |= static_cast<std::uint32_t>(bytes[at + i]) << (8 * i);
  return value;
}

std::array<std::vector<float>*, 6> matrices(Weights& weights) {
  return {&weights.first,       &weights.first_bias, &weights.second,
          &weights.second_bias, &weights.third,      &weights.third_bias};
}

void put_matrix(std::vector<std::uint8_t>& bytes, const std::vector<float>& values) {
  float largest = 0;
  for (const float value : values) largest = std::max(largest, std::abs(value));
  const float scale = largest > 0 ? largest / 32767.0F : 1.0F;
  std::uint32_t scale_bits = 0;
  std::memcpy(&scale_bits, &scale, sizeof scale);
  put32(bytes, scale_bits);
  for (const float value : values) {
    const auto rounded = static_cast<std::int16_t>(std::lround(value / scale));
    bytes.push_back(static_cast<std::uint8_t>(rounded & 0xff));
    bytes.push_back(static_cast<std::uint8_t>((rounded >> 8) & 0xff));
  }
}

}  // namespace

std::vector<std::uint8_t> to_bytes(const Weights& weights) {
  std::vector<std::uint8_t> bytes(magic.begin(), magic.end());
  put32(bytes, version);
  put32(bytes, static_cast<std::uint32_t>(input_count));
  put32(bytes, static_cast<std::uint32_t>(weights.hidden));
  Weights copy = weights;
  for (const std::vector<float>* matrix : matrices(copy)) put_matrix(bytes, *matrix);
  put32(bytes, checksum(bytes));
  return bytes;
}

Result<Weights, NetFault> weights_from_bytes(std::span<const std::uint8_t> bytes) {
  constexpr std::size_t header = magic.size() + 12;
  if (bytes.size() < header + 4 || !std::equal(magic.begin(), magic.end(), bytes.begin()))
    return NetFault{"net-not-a-net", "the file does not begin as a net does"};
  if (get32(bytes, 8) != version)
    return NetFault{"net-version", "the net has version " + std::to_string(get32(bytes, 8)) +
                                       "; this program reads version " + std::to_string(version)};
  const std::uint32_t hidden = get32(bytes, 16);
  if (get32(bytes, 12) != static_cast<std::uint32_t>(input_count) || hidden == 0 ||
      hidden > largest_hidden || hidden % 16 != 0)
    return NetFault{"net-size", "the net's dimensions are not ones that this program knows"};
  Weights weights(static_cast<int>(hidden));
  std::size_t expected = header + 4;
  for (const std::vector<float>* matrix : matrices(weights)) expected += 4 + 2 * matrix->size();
  if (bytes.size() != expected)
    return NetFault{"net-size", "the net should have " + std::to_string(expected) +
                                    " bytes and has " + std::to_string(bytes.size())};
  if (checksum(bytes.first(bytes.size() - 4)) != get32(bytes, bytes.size() - 4))
    return NetFault{"net-damaged", "the net's checksum does not agree with its contents"};
  std::size_t at = header;
  for (std::vector<float>* matrix : matrices(weights)) {
    const std::uint32_t scale_bits = get32(bytes, at);
    float scale = 0;
    std::memcpy(&scale, &scale_bits, sizeof scale);
    at += 4;
    for (float& value : *matrix) {
      const auto raw = static_cast<std::uint16_t>(bytes[at] | (bytes[at + 1] << 8U));
      value = scale * static_cast<float>(static_cast<std::int16_t>(raw));
      at += 2;
    }
  }
  return weights;
}

}  // namespace pointwright::judge
