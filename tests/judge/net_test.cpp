#include "judge/net.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "judge/kernels.hpp"
#include "judge/shipped.hpp"
#include "tests/rules/random_positions.hpp"

namespace pointwright::judge {
namespace {

Weights shipped() {
  return shipped_weights()[0];
}

/// How far the integers of the first layers may lie from the weights, even on boards that no game
/// would reach.
constexpr double quantised = 2e-3;

/// The same net written out plainly in double precision, unit by unit, with nothing added up
/// beforehand.
std::array<double, output_count> plain(const Weights& w, const Board& board, Side on_roll) {
  std::vector<double> inputs;
  for (const Side side : {on_roll, opponent(on_roll)}) {
    for (int place = 0; place < places_per_side; ++place) {
      for (const float unit : units(place, board.count(side, static_cast<Place>(place))))
        inputs.push_back(static_cast<double>(unit));
    }
  }
  Measures measures;
  measure(board, on_roll, measures);
  for (const float value : measures) inputs.push_back(static_cast<double>(value));

  const auto layer = [](const std::vector<double>& in, const std::vector<float>& matrix,
                        const std::vector<float>& bias) {
    std::vector<double> out(bias.begin(), bias.end());
    for (std::size_t i = 0; i < in.size(); ++i) {
      for (std::size_t j = 0; j < out.size(); ++j)
        out[j] += in[i] * static_cast<double>(matrix[i * out.size() + j]);
    }
    return out;
  };
  const auto rectified = [](std::vector<double> values) {
    for (double& value : values) value = std::max(value, 0.0);
    return values;
  };
  const auto out = layer(
      rectified(layer(rectified(layer(inputs, w.first, w.first_bias)), w.second, w.second_bias)),
      w.third, w.third_bias);
  std::array<double, output_count> chances{};
  for (std::size_t k = 0; k < output_count; ++k) chances[k] = 1 / (1 + std::exp(-out[k]));
  return chances;
}

TEST(Net, AgreesWithItsPlainDefinition) {
  const Weights weights = shipped();
  const Net net(weights);
  std::mt19937_64 random(1);
  for (int i = 0; i < 500; ++i) {
    const Board board = pointwright::testing::random_board(random);
    const Chances fast = net.evaluate(board, Side::dark);
    const auto slow = plain(weights, board, Side::dark);
    ASSERT_NEAR(static_cast<double>(fast.win), slow[0], quantised) << to_text(board);
    if (board.count(Side::light, off_place) == 0)
      ASSERT_NEAR(static_cast<double>(fast.win_gammon), std::min(slow[1], slow[0]), quantised);
    else
      ASSERT_EQ(fast.win_gammon, 0.0F);
  }
}

/// Any numbers of about the size that nets have.
Weights random_weights(int hidden, std::mt19937_64& random) {
  Weights weights(hidden);
  for (std::vector<float>* matrix : {&weights.first, &weights.first_bias, &weights.second,
                                     &weights.second_bias, &weights.third, &weights.third_bias}) {
    for (float& value : *matrix)
      value = static_cast<float>(static_cast<int>(random() % 2001) - 1000) / 2000;
  }
  return weights;
}

// Integers add up to the same with any vectors, the last layer adds in a fixed order, and neither
// what was kept from the position before nor the positions beside change anything.
TEST(Net, GivesTheSameNumbersWithEveryKernel) {
  std::mt19937_64 random(3);
  const WeightsByPhase all = shipped_weights();
  std::vector<Weights> nets(all.begin(), all.end());
  // Widths that fill no wide vectors, or some of them only.
  for (const int hidden : {16, 48, 144, 272}) nets.push_back(random_weights(hidden, random));
  for (const Weights& weights : nets) {
    const Net plain_one(weights, plain_kernels());
    for (const Kernels* kernels : all_kernels()) {
      const Net net(weights, *kernels);
      NetScratch scratch;
      for (int i = 0; i < 1500; ++i) {
        std::array<Board, net_group> boards;
        std::array<const Board*, net_group> asked{};
        const std::size_t count = 1 + random() % net_group;
        for (std::size_t p = 0; p < count; ++p) {
          boards[p] = pointwright::testing::random_board(random);
          // As often as not the side on roll stays as it is: what is kept for it is used.
          if (p > 0 && random() % 2 == 0) boards[p].of(Side::light) = boards[p - 1].of(Side::light);
          asked[p] = &boards[p];
        }
        std::array<Chances, net_group> chances;
        net.evaluate({asked.data(), count}, Side::light, scratch, chances.data());
        for (std::size_t p = 0; p < count; ++p)
          ASSERT_EQ(chances[p], plain_one.evaluate(boards[p], Side::light))
              << kernels->name << ", " << weights.hidden << " hidden: " << to_text(boards[p]);
        ASSERT_EQ(net.evaluate(boards[0], Side::light), chances[0]);
      }
    }
  }
}

TEST(Net, KnowsThePlainKernelsAndTakesTheLast) {
  EXPECT_EQ(all_kernels().front(), &plain_kernels());
  EXPECT_EQ(all_kernels().back(), &best_kernels());
}

TEST(Net, ChancesAreInOrder) {
  const Net net(shipped());
  std::mt19937_64 random(2);
  for (int i = 0; i < 2000; ++i) {
    const Chances c = net.evaluate(pointwright::testing::random_board(random), Side::light);
    ASSERT_LE(c.win_backgammon, c.win_gammon);
    ASSERT_LE(c.win_gammon, c.win);
    ASSERT_LE(c.lose_backgammon, c.lose_gammon);
    ASSERT_LE(c.lose_gammon, 1 - c.win);
    ASSERT_NEAR(c.reversed().reversed().equity(), c.equity(), 1e-5);
    ASSERT_NEAR(c.reversed().equity(), -c.equity(), 1e-5);
  }
}

TEST(NetFile, GoesThroughBytes) {
  const Weights weights = shipped();
  const auto again = weights_from_bytes(to_bytes(weights));
  ASSERT_TRUE(again);
  EXPECT_EQ(to_bytes(*again), to_bytes(weights));
}

TEST(NetFile, EachDamageHasItsName) {
  const auto whole = to_bytes(Weights(16));
  const auto id = [](std::vector<std::uint8_t> bytes) {
    const auto weights = weights_from_bytes(bytes);
    return weights ? std::string_view("fine") : weights.error().id;
  };
  const auto changed = [&](std::size_t at, std::uint8_t to) {
    auto bytes = whole;
    bytes[at] = to;
    return bytes;
  };
  EXPECT_EQ(id(whole), "fine");
  EXPECT_EQ(id({}), "net-not-a-net");
  EXPECT_EQ(id(changed(0, 'X')), "net-not-a-net");
  EXPECT_EQ(id(changed(8, 9)), "net-version");
  EXPECT_EQ(id(changed(16, 17)), "net-size");
  EXPECT_EQ(id(changed(16, 32)), "net-size");
  EXPECT_EQ(id(changed(100, 77)), "net-damaged");
  auto cut = whole;
  cut.pop_back();
  EXPECT_EQ(id(cut), "net-size");
  auto longer = whole;
  longer.push_back(0);
  EXPECT_EQ(id(longer), "net-size");
}

}  // namespace
}  // namespace pointwright::judge
