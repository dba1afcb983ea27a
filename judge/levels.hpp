#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "judge/random.hpp"
#include "judge/search.hpp"

namespace pointwright::judge {

/// Which hits of the other side a level reckons with.
enum class Sight : std::uint8_t {
  all,     ///< every one
  direct,  ///< only those of blots within six pips of an opposing checker
  none,    ///< it does not look
};

/// A level of opponent: how it comes to its plays, and so how it errs.
struct Level {
  std::string_view name;
  std::string_view statement;  ///< one line for the person who chooses it
  int depth = 0;               ///< how many rolls it looks ahead
  double blur = 0;             ///< how far off it may judge a play, in points; see `Opponent`
  Sight sight = Sight::all;
  bool adapts = false;  ///< errs about as much as the other side does
};

/// The levels, weakest first, then the one that adapts. docs/levels.md gives the points a game
/// between them.
std::span<const Level> levels();

/// The level of that name, or nullptr.
const Level* find_level(std::string_view name);

/// What a player's plays have cost so far, beside the best as seen at once.
struct Losses {
  double total = 0;
  int decisions = 0;  ///< rolls with more than one play
  [[nodiscard]] double mean() const { return decisions == 0 ? 0 : total / decisions; }
};

/// Plays as a level does. Like Search, one for each thread.
///
/// Every play is valued as the level sees it: by search to its depth; or, where its sight is short,
/// one roll ahead with the other side's hits that it overlooks left out. Then each value is
/// blurred: a normal deviate times `blur`, less the clearer the play is worse than the best:
/// divided by 1 + cost / blur. So close choices are often missed and plain ones seldom, as with
/// people.
class Opponent {
 public:
  /// `seed` decides the blur; the same seed and games give the same plays.
  Opponent(const Evaluator& evaluator, const Level& level, std::uint64_t seed);

  [[nodiscard]] const Level& level() const { return level_; }
  [[nodiscard]] const Evaluator& evaluator() const { return search_.evaluator(); }

  /// The play that the level makes; the empty play where none is legal.
  LegalPlay choose(const Board& board, Side side, Roll roll,
                   const Valuation& valuation = Valuation::money());

  /// Tells the level what the other side played: a level that adapts errs by it. `after` is the
  /// board that the play left.
  void observe(const Board& board, Side side, Roll roll, const Board& after,
               const Valuation& valuation = Valuation::money());

  [[nodiscard]] const Losses& own() const { return own_; }
  [[nodiscard]] const Losses& others() const { return others_; }

 private:
  void look_short(Side side, const Valuation& valuation);
  [[nodiscard]] double blur() const;

  const Level& level_;
  Search search_;
  RandomStream random_;
  std::vector<RankedPlay> ranked_;
  std::vector<RankedPlay> at_once_;
  Losses own_;
  Losses others_;
};

/// What the roll's play to `after` costs beside the best one, both valued at once. Nothing is lost
/// where there is no choice. Precondition: `after` is the result of a legal play, or the board
/// itself where none is legal.
double cost_at_once(const std::vector<RankedPlay>& ranked, const Board& after);

/// What `side` expects from a board that it has left, the other side to roll, if only the hits
/// within its sight are reckoned with.
double worth_in_sight(const Evaluator& evaluator, const Board& after, Side side, Sight sight,
                      const Valuation& valuation);

}  // namespace pointwright::judge
