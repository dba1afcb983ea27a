#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "chance/event.hpp"
#include "rules/obligation.hpp"
#include "rules/play.hpp"
#include "rules/position.hpp"

namespace pointwright::finder {

/// Whether something holds, as far as is known.
enum class Truth : std::uint8_t { no, unknown, yes };

constexpr Truth truth_of(bool holds) {
  return holds ? Truth::yes : Truth::no;
}
constexpr Truth opposite(Truth truth) {
  return truth == Truth::unknown ? truth : truth_of(truth == Truth::no);
}

/// What of a position has been settled while a search builds it up: a set of bits.
enum Known : std::uint8_t {
  knows_light = 1,  ///< where light's checkers are
  knows_dark = 2,   ///< where dark's checkers are
  knows_roll = 4,   ///< the dice, or that there are none
  knows_board = knows_light | knows_dark,
  knows_all = knows_board | knows_roll,
};
constexpr std::uint8_t knows(Side side) {
  return side == Side::light ? knows_light : knows_dark;
}

/// One position that is looked at, and what has been found out about it. Made once and used for
/// many positions, so that its memory is kept; whatever costs something is found out when it is
/// first asked for.
class Facts {
 public:
  explicit Facts(Side side) : side_(side) {}

  /// Looks at another position. `known` says which parts of it count.
  void look_at(const Board& board, std::optional<Roll> roll, std::uint8_t known = knows_all);
  /// Looks at another roll on the same board.
  void throw_dice(Roll roll);

  [[nodiscard]] const Board& board() const { return board_; }
  [[nodiscard]] Side side() const { return side_; }
  [[nodiscard]] bool has_roll() const { return roll_.has_value(); }
  /// Precondition: has_roll().
  [[nodiscard]] Roll roll() const { return *roll_; }
  [[nodiscard]] bool knows(std::uint8_t parts) const { return (known_ & parts) == parts; }
  [[nodiscard]] std::uint8_t known() const { return known_; }

  /// The legal plays. Precondition: has_roll().
  const std::vector<LegalPlay>& plays();
  /// How much of the roll must be played. Precondition: has_roll().
  const Obligation& duty();
  /// What each legal play is worth to the side, in points won on average, as the nets value it at
  /// once: an estimate. In the order of plays(). Precondition: has_roll().
  const std::vector<float>& worths();
  /// The position as a value: the side to play the roll, or to roll where there is none.
  [[nodiscard]] Position position() const;

  /// Counts work done, in the unit of PredicateKind::cost. Searches limit themselves by it instead
  /// of by time, so that they can be repeated.
  void spend(int work) { work_ += work; }
  [[nodiscard]] std::int64_t work() const { return work_; }

  /// How many of the 36 rolls answer a query; the roll itself is passed over.
  int ways(const chance::Query& query);

 private:
  Board board_;
  Side side_;
  std::optional<Roll> roll_;
  std::uint8_t known_ = 0;
  std::int64_t work_ = 0;
  bool has_plays_ = false;
  bool has_duty_ = false;
  std::vector<LegalPlay> plays_;
  std::vector<LegalPlay> scratch_;
  bool has_worths_ = false;
  std::vector<float> worths_;
  Obligation duty_;
};

/// Checkers of a side on points and bar.
inline int in_play(const Board& board, Side side) {
  return checkers_per_side - board.count(side, off_place);
}

/// Whether a play, or the turn passed if it is empty, answers an event.
bool answers(const chance::Event& event, const Board& before, Side side, const LegalPlay& play,
             int choices);

}  // namespace pointwright::finder
