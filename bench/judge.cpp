// judge: how many positions a core values in a second, and what decisions cost. The positions are
// the plays of random rolls in self-play games, as a search meets them.

#include <fmt/format.h>

#include <vector>

#include "bench/self_play.hpp"
#include "bench/timing.hpp"
#include "judge/kernels.hpp"
#include "judge/search.hpp"
#include "judge/shipped.hpp"

namespace {

using namespace pointwright;
using bench::fastest;

constexpr int tries = 7;

}  // namespace

int main() {
  const judge::Evaluator& evaluator = judge::shipped_evaluator();
  const auto all = bench::decisions(2000);
  std::vector<std::vector<LegalPlay>> siblings;
  std::size_t positions = 0;
  for (const bench::Decision& decision : all) {
    siblings.push_back(legal_plays(decision.board, decision.side, decision.roll));
    positions += siblings.back().size();
  }
  const auto per_second = [&](const char* name, double seconds, std::size_t count) {
    fmt::print("{:<44}{:>10.0f} ns each{:>14.0f} a second\n", name,
               1e9 * seconds / static_cast<double>(count), static_cast<double>(count) / seconds);
  };
  float sum = 0;
  judge::NetScratch scratch;
  fmt::print("kernels: {}\n", judge::best_kernels().name);
  std::vector<judge::Evaluation> values;
  per_second("plays of one roll valued together",
             fastest(tries,
                     [&] {
                       for (std::size_t i = 0; i < all.size(); ++i) {
                         values.resize(siblings[i].size());
                         evaluator.evaluate(siblings[i], opponent(all[i].side), scratch,
                                            values.data());
                         sum += values.back().chances.win;
                       }
                     }),
             positions);
  per_second(
      "the same one by one",
      fastest(tries,
              [&] {
                for (std::size_t i = 0; i < all.size(); ++i) {
                  for (const LegalPlay& play : siblings[i])
                    sum +=
                        evaluator.evaluate(play.after, opponent(all[i].side), scratch).chances.win;
                }
              }),
      positions);
  per_second("of that: the measures",
             fastest(tries,
                     [&] {
                       judge::Counts counts;
                       for (std::size_t i = 0; i < all.size(); ++i) {
                         for (const LegalPlay& play : siblings[i]) {
                           judge::count_measures(play.after, opponent(all[i].side), counts);
                           sum += counts[6];
                         }
                       }
                     }),
             positions);
  std::vector<LegalPlay> plays;
  per_second("legal plays, for comparison",
             fastest(tries,
                     [&] {
                       for (const bench::Decision& d : all) {
                         legal_plays(d.board, d.side, d.roll, plays);
                         sum += static_cast<float>(plays.size());
                       }
                     }),
             positions);
  for (const int depth : {0, 1, 2}) {
    const std::size_t part = depth == 0 ? all.size() : (depth == 1 ? 300 : 20);
    const std::size_t every = all.size() / part;
    const double seconds = fastest(tries, [&] {
      judge::Search search(evaluator);
      for (std::size_t i = 0; i < all.size(); i += every)
        sum += search.best_after(all[i].board, all[i].side, all[i].roll, depth).camps[0][1];
    });
    fmt::print("a decision at depth {}: {:.4f} ms\n", depth,
               1000 * seconds / static_cast<double>((all.size() + every - 1) / every));
  }
  fmt::print("(sum {})\n", sum);
  return 0;
}
