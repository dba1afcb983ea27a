// The program's dice: the digest against OpenSSL's, and whether every face comes up equally often.
#include "web/sealed_dice.hpp"

#include <gtest/gtest.h>
#include <openssl/sha.h>

#include <random>

namespace pointwright::web {
namespace {

TEST(SealedDice, TheDigestIsSha256AtEveryLengthAroundABlock) {
  std::mt19937_64 random(1);
  for (std::size_t length = 0; length < 300; ++length) {
    std::string bytes(length, '\0');
    for (char& byte : bytes) byte = static_cast<char>(random());
    Digest expected{};
    SHA256(reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(), expected.data());
    ASSERT_EQ(sha256(bytes), expected) << length;
  }
}

TEST(SealedDice, TheDigestOfAbc) {
  // NIST, FIPS 180-2, appendix B.1.
  EXPECT_EQ(commitment("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST(SealedDice, FollowFromSeedWordsAndNumberAlone) {
  EXPECT_EQ(sealed_throw("seed", "words", 3), sealed_throw("seed", "words", 3));
  int different = 0;
  for (int number = 0; number < 100; ++number) {
    const auto dice = sealed_throw("seed", "words", number);
    if (dice != sealed_throw("seed", "other words", number)) ++different;
    for (const int die : dice) {
      EXPECT_GE(die, 1);
      EXPECT_LE(die, 6);
    }
  }
  EXPECT_GT(different, 80);
}

// The derivation as web/sealed_dice.hpp states it, worked out again with OpenSSL's digest.
TEST(SealedDice, FollowAsDescribed) {
  for (int number = 0; number < 2000; ++number) {
    std::vector<int> dice;
    for (int part = 0; dice.size() < 2; ++part) {
      const std::string message =
          "a seed|some words|" + std::to_string(number) + "|" + std::to_string(part);
      Digest digest{};
      SHA256(reinterpret_cast<const unsigned char*>(message.data()), message.size(), digest.data());
      for (const int byte : digest) {
        if (byte < 252 && dice.size() < 2) dice.push_back(byte % 6 + 1);
      }
    }
    ASSERT_EQ(sealed_throw("a seed", "some words", number), (std::array{dice[0], dice[1]}));
  }
}

TEST(SealedDice, EachOfThe36ThrowsComesUpEquallyOften) {
  constexpr int throws = 36'000;
  std::array<int, 36> seen{};
  for (int number = 0; number < throws; ++number) {
    const auto dice = sealed_throw("a seed", "", number);
    ++seen[static_cast<std::size_t>(6 * (dice[0] - 1) + dice[1] - 1)];
  }
  double chi_squared = 0;
  for (const int count : seen) {
    const double off = count - throws / 36.0;
    chi_squared += off * off / (throws / 36.0);
  }
  // The 99.9% point of chi-squared with 35 degrees of freedom (tables of the distribution). The
  // seed is fixed, so the test gives the same answer every time.
  EXPECT_LT(chi_squared, 66.6);
}

}  // namespace
}  // namespace pointwright::web
