#pragma once

#include <array>
#include <span>
#include <vector>

#include "judge/evaluator.hpp"
#include "judge/position_cache.hpp"
#include "judge/valuation.hpp"
#include "rules/play.hpp"

namespace pointwright::judge {

/// The deepest search: 0 values positions at once, 1 looks at the next roll, 2 at the next two.
inline constexpr int most_depth = 2;

/// Which plays go on to a deeper look: at most `most`, and none that stands more than `within`
/// equity behind the best.
struct Sieve {
  int most = 1;
  float within = 0;
};

/// How a search saves work. Two steps through these sieves lose less than 0.0001 points a decision
/// to two steps for every play, as those see it, and nothing that rollouts could find; sieves half
/// as wide lose ten times as much (docs/decisions/search.md).
struct SearchOptions {
  Sieve first{8, 0.16F};   ///< of the plays valued at once, those that one step looks at
  Sieve second{4, 0.08F};  ///< of those, the ones that two steps look at
  Sieve reply{1, 0};       ///< inside two steps: of the other side's plays at once, those looked at
  unsigned cache_bits = 16;  ///< positions remembered, as a power of two; 64 bytes each
};

/// What a position is worth to the side on roll, and how that is known: `depth` rolls were looked
/// at, and `origin` says where the numbers at the end come from. Where the rules or an exact table
/// answer, the depth is 0 and the answer stands for any depth.
struct SearchedValue {
  Chances chances;
  float equity = 0;
  int depth = 0;
  Origin origin = Origin::contact_net;
};

/// A legal play and what it leads to, seen by the side that plays.
struct RankedPlay {
  LegalPlay play;
  Chances chances;
  float equity = 0;
  int depth = 0;
  Origin origin = Origin::contact_net;
};

/// Values positions and plays by expectation over the 21 rolls, each side playing as well as it can
/// see. Keeps scratch memory and a cache, so that after the first calls nothing is allocated but
/// the answers: make one for each thread and keep it. The evaluator must outlive it.
///
/// A `Valuation` says what the game is played for, seen by the side on roll (or to play).
class Search {
 public:
  explicit Search(const Evaluator& evaluator, const SearchOptions& options = {});
  Search(const Search&) = delete;
  Search(Search&&) = default;
  Search& operator=(const Search&) = delete;
  Search& operator=(Search&&) = delete;
  virtual ~Search() = default;

  [[nodiscard]] const Evaluator& evaluator() const { return evaluator_; }
  [[nodiscard]] const SearchOptions& options() const { return options_; }

  /// Chances and equity of the side on roll, before it rolls, in a game played on without a cube.
  /// Precondition: 0 <= depth <= most_depth; the side on roll has not won.
  SearchedValue worth(const Board& board, Side on_roll, int depth,
                      const Valuation& valuation = Valuation::money());

  /// Every legal play of the roll, best first: first those that were looked at most deeply, by
  /// equity; then those that a sieve held back, with the lesser depth at which they are known.
  /// Where the roll allows no move, the one entry is the empty play. Equal plays stay in the order
  /// of `legal_plays`. Precondition: as for `worth`; the side has not won.
  std::vector<RankedPlay> rank(const Board& board, Side side, Roll roll, int depth,
                               const Valuation& valuation = Valuation::money());

  /// The same into a vector whose memory is used again.
  void rank(const Board& board, Side side, Roll roll, int depth, const Valuation& valuation,
            std::vector<RankedPlay>& ranked);

  /// The board after the best play of the roll: the same play as the first of `rank`.
  Board best_after(const Board& board, Side side, Roll roll, int depth,
                   const Valuation& valuation = Valuation::money());

  /// What each roll brings: the best play at once, for the rolls in the order of all_rolls().
  struct Look {
    std::array<Chances, 21> chances;  ///< after the play, seen by the side that rolls
    std::array<Board, 21> after;
    Chances mean;  ///< over the 36 throws: what the position is worth one step deep
  };
  void look(const Board& board, Side on_roll, const Valuation& valuation, Look& look);

  /// The part of a position's value that one roll makes: what the side's best play with it is worth
  /// to that side, if what the play leads to is looked at `depth` rolls deep.
  /// Precondition: 0 <= depth < most_depth; the side has not won.
  Evaluation after_best_play(const Board& board, Side side, Roll roll, int depth,
                             const Valuation& valuation);

  /// The stakes of a game as both sides see them.
  class Stakes {
   public:
    explicit Stakes(const Valuation& mine) : both_{mine.reversed(), mine} {}
    [[nodiscard]] const Valuation& of(bool me) const { return both_[me ? 1 : 0]; }

   private:
    std::array<Valuation, 2> both_;
  };

  /// Forgets all that was remembered. Answers do not depend on it.
  void clear_cache() { cache_.clear(); }

 protected:
  using RollParts = std::span<const Evaluation, 21>;

  /// Values of positions before their rolls, each to the side on roll, one after the other. All
  /// that takes long goes through here, so a search that shares its work out replaces this alone;
  /// its values must be the same to the last bit. Precondition: 1 <= depth <= most_depth.
  virtual void value_all(std::span<const Board> boards, Side on_roll, int depth,
                         const Valuation& valuation, std::span<Evaluation> values);

  /// A position's value from its after_best_play() with each roll, in the order of all_rolls().
  static Evaluation mean_of(RollParts parts, const Board& board);

  /// What was remembered of a position, or nullptr.
  const Evaluation* recall(const Board& board, Side on_roll, int depth, const Valuation& valuation);
  void remember(const Board& board, Side on_roll, int depth, const Valuation& valuation,
                const Evaluation& value);

 private:
  /// A play while its siblings are compared: its value to the side that plays.
  struct Candidate {
    float equity;
    std::size_t index;
  };
  static bool better(const Candidate& a, const Candidate& b);

  /// Memory of one level of the search.
  struct Level {
    std::vector<LegalPlay> plays;
    std::vector<Evaluation> values;  ///< of the plays, to the side on roll after them
    std::vector<Candidate> candidates;
  };
  void list_candidates(Level& level, const Board& board, Side side, Roll roll,
                       const Valuation& valuation);
  Evaluation value(const Board& board, Side on_roll, int depth, const Valuation& valuation);
  Evaluation expand(const Board& board, Side on_roll, int depth, const Valuation& valuation);
  void deepen(std::vector<RankedPlay>& ranked, Side side, int depth, const Sieve& sieve,
              const Valuation& valuation);
  std::uint16_t tag(int depth, const Valuation& valuation);

  const Evaluator& evaluator_;
  SearchOptions options_;
  PositionCache cache_;
  std::vector<Valuation> known_valuations_;
  std::array<Level, most_depth + 1> levels_;
  std::vector<RankedPlay> ranked_;
  std::vector<Board> asked_;
  std::vector<Evaluation> answers_;
  NetScratch scratch_;
};

}  // namespace pointwright::judge
