#pragma once

#include <array>
#include <cstdint>
#include <random>
#include <vector>

#include "judge/evaluator.hpp"
#include "train/kinds.hpp"
#include "train/self_play.hpp"

namespace pointwright::train {

/// A position and what its net should say of it.
struct Lesson {
  Visit visit;
  judge::Chances target;
};

/// One worker's games of the evaluator against itself, as lessons. Some games begin at positions
/// of the rarer kinds, taken from earlier games: so that they are met as often as they are hard.
class Practice {
 public:
  Practice(std::uint64_t seed, double rehearsals, const SelfPlay& how = {})
      : random_(seed), rehearsals_(rehearsals), how_(how) {}

  /// Plays until there are `count` lessons or more, and shuffles them. A target is what the next
  /// position came to, seen from the other side, mixed with what the evaluator said of it:
  /// `lambda` is the weight of what came later.
  void fill(const judge::Evaluator& evaluator, float lambda, std::size_t count,
            std::vector<Lesson>& lessons);

  [[nodiscard]] std::uint64_t games() const { return games_; }
  [[nodiscard]] std::uint64_t gammons() const { return gammons_; }

 private:
  [[nodiscard]] std::optional<Visit> rehearsal();
  void remember(const Game& game);
  /// Plays on where the tables know the rest, and takes lessons from them: so that the net for
  /// races knows endings too.
  void play_out(const judge::Evaluator& evaluator, std::vector<Lesson>& lessons);

  static constexpr std::uint64_t played_out_one_in = 4;
  static constexpr std::size_t most_remembered = 1000;  // of each kind

  std::mt19937_64 random_;
  double rehearsals_;
  SelfPlay how_;
  std::array<std::vector<Visit>, all_kinds.size()> remembered_;
  Game game_;
  std::vector<LegalPlay> plays_;
  std::uint64_t games_ = 0;
  std::uint64_t gammons_ = 0;
};

}  // namespace pointwright::train
