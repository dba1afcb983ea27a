#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "judge/net.hpp"
#include "judge/phase.hpp"
#include "rules/play.hpp"

namespace pointwright::judge {

/// Where an evaluation comes from.
enum class Origin : std::uint8_t {
  game_over,    ///< exact: somebody has won
  exact_table,  ///< exact: from a table of both sides
  table,        ///< exact up to the play of the two sides as if alone: from the bear-off table
  race_net,     ///< estimated by the net for positions without contact
  contact_net,  ///< estimated by the net for positions with contact
};

/// Whether the rules or a table have the last word, so that no search would tell more.
constexpr bool is_final(Origin origin) {
  return origin != Origin::race_net && origin != Origin::contact_net;
}

struct Evaluation {
  Chances chances;
  Origin origin = Origin::contact_net;
};

/// The weights of a net for each phase, in the order of all_phases.
using WeightsByPhase = std::array<Weights, all_phases.size()>;

/// Values positions at once: by the rules where the game is over, by a table where one answers,
/// else by the net of its phase.
class Evaluator {
 public:
  explicit Evaluator(const WeightsByPhase& nets);

  /// Chances of the side on roll, before it rolls.
  [[nodiscard]] Evaluation evaluate(const Board& board, Side on_roll) const;
  /// The same, faster where one side stays as it is: see NetScratch. One for each thread.
  [[nodiscard]] Evaluation evaluate(const Board& board, Side on_roll, NetScratch& scratch) const;

  /// The same for the boards that the plays of one roll lead to, `values` having a place for each:
  /// faster than one after the other.
  void evaluate(std::span<const LegalPlay> plays, Side on_roll, NetScratch& scratch,
                Evaluation* values) const;

  /// The best play at once for money without a cube: an index into `plays`, which is not empty.
  [[nodiscard]] std::size_t best_play(const std::vector<LegalPlay>& plays, Side side) const;

 private:
  class Group;
  [[nodiscard]] Evaluation without_contact(const Board& board, Side on_roll,
                                           NetScratch& scratch) const;
  [[nodiscard]] const Net& net_of(Phase phase) const {
    return nets_[static_cast<std::size_t>(phase)];
  }

  std::array<Net, all_phases.size()> nets_;
};

/// The chances of the side on roll when the other side has just borne off its last checker.
Chances lost_game(const Board& board);

}  // namespace pointwright::judge
