// judge: the nets beside the same nets as dense matrices in OpenBLAS, on one thread. The dense way
// is given its inputs ready; ours starts from the board and so counts the measures as well.

#include <cblas.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "bench/self_play.hpp"
#include "bench/timing.hpp"

namespace {

using namespace pointwright;
using bench::fastest;
using judge::input_count;
using judge::output_count;
using judge::second_layer;

constexpr int tries = 7;
constexpr std::size_t batch = 256;

struct Asked {
  Board board;
  Side on_roll;
};

/// The plays of decisions, siblings one after the other.
std::vector<Asked> positions(std::size_t count) {
  std::vector<Asked> all;
  for (const bench::Decision& decision : bench::decisions(count / 2)) {
    for (const LegalPlay& play : legal_plays(decision.board, decision.side, decision.roll)) {
      if (all.size() == count) return all;
      if (judge::phase_of(play.after) == judge::Phase::open)
        all.push_back({play.after, opponent(decision.side)});
    }
  }
  return all;
}

/// The inputs of a position as a dense row.
void write_inputs(const Asked& asked, float* row) {
  std::fill(row, row + input_count, 0.0F);
  for (std::size_t side = 0; side < 2; ++side) {
    const Camp& camp = asked.board.of(side == 0 ? asked.on_roll : opponent(asked.on_roll));
    for (std::size_t place = 0; place < judge::places_per_side; ++place) {
      const auto units = judge::units(static_cast<int>(place), camp[place]);
      std::copy(units.begin(), units.end(),
                row + (side * judge::places_per_side + place) * judge::units_per_place);
    }
  }
  judge::Measures measures;
  judge::measure(asked.board, asked.on_roll, measures);
  std::copy(measures.begin(), measures.end(), row + judge::unit_count);
}

/// One layer for a batch: out = in * weights + bias, rectified if it is not the last.
void layer(const float* in, const std::vector<float>& weights, const std::vector<float>& bias,
           int inputs, bool rectify, float* out) {
  const auto outputs = static_cast<int>(bias.size());
  for (std::size_t i = 0; i < batch; ++i)
    std::copy(bias.begin(), bias.end(), out + i * bias.size());
  cblas_sgemm(CblasRowMajor, CblasNoTrans, CblasNoTrans, static_cast<int>(batch), outputs, inputs,
              1.0F, in, inputs, weights.data(), outputs, 1.0F, out, outputs);
  if (!rectify) return;
  for (std::size_t i = 0; i < batch * bias.size(); ++i) out[i] = std::max(out[i], 0.0F);
}

}  // namespace

int main() {
  openblas_set_num_threads(1);
  const judge::Weights net = judge::shipped_weights()[0];
  const auto all = positions(batch * 200);
  std::vector<float> inputs(all.size() * input_count);
  for (std::size_t i = 0; i < all.size(); ++i) write_inputs(all[i], &inputs[i * input_count]);

  std::vector<float> first(batch * static_cast<std::size_t>(net.hidden));
  std::vector<float> second(batch * second_layer);
  std::vector<float> out(all.size() * output_count);
  const double dense = fastest(tries, [&] {
    for (std::size_t i = 0; i < all.size(); i += batch) {
      layer(&inputs[i * input_count], net.first, net.first_bias, input_count, true, first.data());
      layer(first.data(), net.second, net.second_bias, net.hidden, true, second.data());
      layer(second.data(), net.third, net.third_bias, second_layer, false, &out[i * output_count]);
      for (std::size_t k = i * output_count; k < (i + batch) * output_count; ++k)
        out[k] = 1 / (1 + std::exp(-out[k]));
    }
  });

  const judge::Evaluator& evaluator = judge::shipped_evaluator();
  judge::NetScratch scratch;
  std::vector<float> wins(all.size());
  const double ours = fastest(tries, [&] {
    for (std::size_t i = 0; i < all.size(); ++i)
      wins[i] = evaluator.evaluate(all[i].board, all[i].on_roll, scratch).chances.win;
  });

  int sum = 0;
  const double measures = fastest(tries, [&] {
    judge::Counts counts;
    for (const Asked& asked : all) {
      judge::count_measures(asked.board, asked.on_roll, counts);
      sum += counts[6];
    }
  });

  float apart = 0;
  for (std::size_t i = 0; i < all.size(); ++i)
    apart = std::max(apart, std::abs(wins[i] - out[i * output_count]));
  const auto count = static_cast<double>(all.size());
  fmt::print("{} positions, one thread, batches of {}\n", all.size(), batch);
  fmt::print("OpenBLAS, inputs given   {:>12.0f} a second\n", count / dense);
  fmt::print("ours, from the board     {:>12.0f} a second, {:.2f} times as many\n", count / ours,
             dense / ours);
  fmt::print("ours less the measures   {:>12.0f} a second, {:.2f} times as many (sum {})\n",
             count / (ours - measures), dense / (ours - measures), sum);
  fmt::print("chances to win differ by at most {:.4f}\n", static_cast<double>(apart));
  return 0;
}
