#include "web/sealed_dice.hpp"

#include <bit>
#include <cstddef>

namespace pointwright::web {
namespace {

constexpr std::size_t block_size = 64;

// The first 32 bits of the fractional parts of the cube roots of the first 64 primes (FIPS 180-4,
// section 4.2.2).
constexpr std::array<std::uint32_t, 64> round_constants{
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

// The same of the square roots of the first eight primes (section 5.3.3).
using State = std::array<std::uint32_t, 8>;
constexpr State initial{0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                        0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};

std::uint32_t word_at(std::string_view block, std::size_t i) {
  std::uint32_t word = 0;
  for (std::size_t b = 0; b < 4; ++b)
    word = (word << 8U) | static_cast<unsigned char>(block[4 * i + b]);
  return word;
}

void add_block(State& state, std::string_view block) {
  std::array<std::uint32_t, 64> w{};
  for (std::size_t t = 0; t < 16; ++t) w[t] = word_at(block, t);
  for (std::size_t t = 16; t < 64; ++t) {
    const std::uint32_t s0 = std::rotr(w[t - 15], 7) ^ std::rotr(w[t - 15], 18) ^ (w[t - 15] >> 3U);
    const std::uint32_t s1 = std::rotr(w[t - 2], 17) ^ std::rotr(w[t - 2], 19) ^ (w[t - 2] >> 10U);
    w[t] = w[t - 16] + s0 + w[t - 7] + s1;
  }
  auto [a, b, c, d, e, f, g, h] = state;
  for (std::size_t t = 0; t < 64; ++t) {
    const std::uint32_t s1 = std::rotr(e, 6) ^ std::rotr(e, 11) ^ std::rotr(e, 25);
    const std::uint32_t choice = (e & f) ^ (~e & g);
    const std::uint32_t t1 = h + s1 + choice + round_constants[t] + w[t];
    const std::uint32_t s0 = std::rotr(a, 2) ^ std::rotr(a, 13) ^ std::rotr(a, 22);
    const std::uint32_t majority = (a & b) ^ (a & c) ^ (b & c);
    h = g;
    g = f;
    f = e;
    e = d + t1;
    d = c;
    c = b;
    b = a;
    a = t1 + s0 + majority;
  }
  const State sum{a, b, c, d, e, f, g, h};
  for (std::size_t i = 0; i < sum.size(); ++i) state[i] += sum[i];
}

}  // namespace

Digest sha256(std::string_view bytes) {
  State state = initial;
  std::string_view rest = bytes;
  for (; rest.size() >= block_size; rest.remove_prefix(block_size))
    add_block(state, rest.substr(0, block_size));
  // The message is closed by a one bit, zeros, and its length in bits.
  std::string tail(rest);
  tail += '\x80';
  while (tail.size() % block_size != block_size - 8) tail += '\0';
  const std::uint64_t bits = std::uint64_t{bytes.size()} * 8;
  for (unsigned shift = 64; shift > 0; shift -= 8)
    tail += static_cast<char>((bits >> (shift - 8)) & 0xFFU);
  for (std::size_t at = 0; at < tail.size(); at += block_size)
    add_block(state, std::string_view(tail).substr(at, block_size));
  Digest digest{};
  for (std::size_t i = 0; i < digest.size(); ++i)
    digest[i] = static_cast<std::uint8_t>(state[i / 4] >> (24 - 8 * (i % 4)));
  return digest;
}

std::string hex(const Digest& digest) {
  std::string text;
  for (const std::uint8_t byte : digest) {
    text += "0123456789abcdef"[byte >> 4U];
    text += "0123456789abcdef"[byte & 15U];
  }
  return text;
}

std::string commitment(std::string_view seed) {
  return hex(sha256(seed));
}

std::uint64_t SealedDice::number_for(std::string_view use) const {
  const Digest digest = sha256(seed_ + ':' + std::string(use));
  std::uint64_t number = 0;
  for (std::size_t i = 0; i < sizeof number; ++i) number = number << 8U | digest[i];
  return number;
}

std::array<int, 2> sealed_throw(std::string_view seed, std::string_view words, int number) {
  constexpr int fair_limit = 252;  // the largest multiple of 6 that a byte holds
  std::array<int, 2> dice{};
  std::size_t found = 0;
  for (int part = 0; found < dice.size(); ++part) {
    const std::string message = std::string(seed) + '|' + std::string(words) + '|' +
                                std::to_string(number) + '|' + std::to_string(part);
    for (const std::uint8_t byte : sha256(message)) {
      if (byte < fair_limit && found < dice.size()) dice[found++] = byte % 6 + 1;
    }
  }
  return dice;
}

}  // namespace pointwright::web
