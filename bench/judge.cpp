// judge: how many positions a core values in a second, and what decisions cost. The positions are
// the plays of random rolls in self-play games, as a search meets them.

#include <fmt/format.h>

#include <algorithm>
#include <ctime>
#include <random>
#include <vector>

#include "judge/search.hpp"
#include "judge/shipped.hpp"

namespace {

using namespace pointwright;

constexpr int repetitions = 7;  // the fastest counts: the others were disturbed

/// Processor time, which other programs on the machine disturb less than the time of day.
double seconds_now() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

template <class Work>
double fastest(const Work& work) {
  double best = 1e9;
  for (int i = 0; i < repetitions; ++i) {
    const double started = seconds_now();
    work();
    best = std::min(best, seconds_now() - started);
  }
  return best;
}

struct Decision {
  Board board;
  Side side;
  Roll roll;
};

/// Decisions with contact from games that the shipped nets play against themselves.
std::vector<Decision> decisions(std::size_t count) {
  std::mt19937_64 random(1);
  const auto die = [&] { return 1 + static_cast<int>(random() % 6); };
  std::vector<Decision> all;
  const judge::Evaluator& evaluator = judge::shipped_evaluator();
  std::vector<LegalPlay> plays;
  while (all.size() < count) {
    Board board = starting_board();
    Side side = Side::light;
    while (has_contact(board) && all.size() < count) {
      const Roll roll(die(), die());
      legal_plays(board, side, roll, plays);
      if (plays.size() > 1) all.push_back({board, side, roll});
      if (!plays.empty()) board = plays[evaluator.best_play(plays, side)].after;
      side = opponent(side);
    }
  }
  return all;
}

}  // namespace

int main() {
  const judge::Evaluator& evaluator = judge::shipped_evaluator();
  const auto all = decisions(2000);
  std::vector<std::vector<LegalPlay>> siblings;
  std::size_t positions = 0;
  for (const Decision& decision : all) {
    siblings.push_back(legal_plays(decision.board, decision.side, decision.roll));
    positions += siblings.back().size();
  }
  const auto per_second = [&](const char* name, double seconds, std::size_t count) {
    fmt::print("{:<44}{:>10.0f} ns each{:>14.0f} a second\n", name,
               1e9 * seconds / static_cast<double>(count), static_cast<double>(count) / seconds);
  };
  float sum = 0;
  judge::NetScratch scratch;
  per_second("value at once, siblings of one roll", fastest([&] {
               for (std::size_t i = 0; i < all.size(); ++i) {
                 for (const LegalPlay& play : siblings[i])
                   sum +=
                       evaluator.evaluate(play.after, opponent(all[i].side), scratch).chances.win;
               }
             }),
             positions);
  per_second("of that: the measures", fastest([&] {
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
  per_second("legal plays, for comparison", fastest([&] {
               for (const Decision& d : all) {
                 legal_plays(d.board, d.side, d.roll, plays);
                 sum += static_cast<float>(plays.size());
               }
             }),
             positions);
  for (const int depth : {0, 1, 2}) {
    const std::size_t part = depth == 0 ? all.size() : (depth == 1 ? 300 : 20);
    const std::size_t every = all.size() / part;
    const double seconds = fastest([&] {
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
