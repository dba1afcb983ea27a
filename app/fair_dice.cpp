#include "app/fair_dice.hpp"

#include <fmt/format.h>

#include <random>

#include "studio/digest.hpp"

namespace pointwright::app {
namespace {

std::string hexadecimal(std::string_view bytes) {
  std::string result;
  for (const char byte : bytes) {
    result += fmt::format("{:02x}", static_cast<unsigned>(static_cast<unsigned char>(byte)));
  }
  return result;
}

}  // namespace

std::string FairDice::commitment() const {
  return hexadecimal(sha256_bytes(seed_));
}

int FairDice::next() {
  constexpr int largest_even_share = 252;  // a multiple of 6
  while (true) {
    if (at_ == block_.size()) {
      block_ = sha256_bytes(fmt::format("{}:{}", seed_, blocks_));
      ++blocks_;
      at_ = 0;
    }
    const int byte = static_cast<unsigned char>(block_[at_]);
    ++at_;
    if (byte < largest_even_share) return 1 + byte % 6;
  }
}

std::uint64_t FairDice::number_for(std::string_view use) const {
  std::uint64_t number = 0;
  for (const char byte : sha256_bytes(fmt::format("{}:{}", seed_, use)).substr(0, sizeof number)) {
    number = number << 8U | static_cast<unsigned char>(byte);
  }
  return number;
}

std::string new_seed() {
  std::random_device source;
  std::string seed;
  for (int i = 0; i < 4; ++i) seed += fmt::format("{:08x}", source());
  return seed;
}

}  // namespace pointwright::app
