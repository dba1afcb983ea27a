#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <cstdlib>
#include <string>

#include "judge/contest.hpp"
#include "judge/shipped.hpp"

/// Plays the levels of opponent against each other and prints the tables of docs/levels.md.
/// Usage: bench_levels [SECONDS [LEVEL AGAINST]], the time for each pair of levels.
namespace pointwright::judge {
namespace {

/// A mean and its standard error, one number at a time.
class Mean {
 public:
  void add(double value) {
    ++count_;
    const double delta = value - mean_;
    mean_ += delta / count_;
    squares_ += delta * (value - mean_);
  }
  [[nodiscard]] double mean() const { return mean_; }
  [[nodiscard]] double error() const { return std::sqrt(squares_ / (count_ - 1) / count_); }
  [[nodiscard]] int count() const { return count_; }

 private:
  int count_ = 0;
  double mean_ = 0;
  double squares_ = 0;
};

struct Result {
  Mean points;  ///< of the first level, a game; each entry is the mean of two games with one dice
  std::array<Losses, 2> losses{};
};

/// Pairs of games with the same dice, each level once on each side.
Result play(const Level& first, const Level& second, double seconds) {
  Result result;
  const auto begin = std::chrono::steady_clock::now();
  const auto elapsed = [&] {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  };
  for (std::uint64_t game = 1; game <= 2 || elapsed() < seconds; ++game) {
    Opponent a(shipped_evaluator(), first, 2 * game);
    Opponent b(shipped_evaluator(), second, 2 * game + 1);
    const ContestGame one = play_game(a, b, game);
    Opponent c(shipped_evaluator(), first, 2 * game);
    Opponent d(shipped_evaluator(), second, 2 * game + 1);
    const ContestGame two = play_game(d, c, game);
    result.points.add((one.adjusted - two.adjusted) / 2);
    for (const auto& [to, from] : {std::pair{0, one.losses[0]}, std::pair{0, two.losses[1]},
                                   std::pair{1, one.losses[1]}, std::pair{1, two.losses[0]}}) {
      result.losses[static_cast<std::size_t>(to)].total += from.total;
      result.losses[static_cast<std::size_t>(to)].decisions += from.decisions;
    }
  }
  return result;
}

void print(const Level& level, const Level& against, double seconds) {
  const Result result = play(level, against, seconds);
  fmt::print("| {} | {} | {:+.3f} +- {:.3f} | {} | {:.4f} | {:.4f} |\n", level.name, against.name,
             result.points.mean(), result.points.error(), 2 * result.points.count(),
             result.losses[0].mean(), result.losses[1].mean());
  std::fflush(stdout);
}

void print_all(double seconds) {
  fmt::print("| level | against | points a game | games | loses a decision | the other |\n");
  fmt::print("| --- | --- | --- | --- | --- | --- |\n");
  for (std::size_t i = 0; i < levels().size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) print(levels()[i], levels()[j], seconds);
  }
}

}  // namespace
}  // namespace pointwright::judge

int main(int argc, char** argv) {
  using namespace pointwright::judge;
  const double seconds = argc > 1 ? std::atof(argv[1]) : 10;
  if (argc < 4) {
    print_all(seconds);
    return 0;
  }
  const Level* level = find_level(argv[2]);
  const Level* against = find_level(argv[3]);
  if (level == nullptr || against == nullptr) {
    fmt::print(stderr, "there is no such level\n");
    return 2;
  }
  print(*level, *against, seconds);
}
