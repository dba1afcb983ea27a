#include "judge/evaluator.hpp"

#include <algorithm>

#include "chance/bearoff.hpp"
#include "chance/two_sided.hpp"
#include "rules/score.hpp"

namespace pointwright::judge {
namespace {

bool can_lose_gammon(const Camp& camp) {
  return camp[off_place] == 0;
}

/// Whether the bear-off table answers: both sides home, and neither can lose a gammon.
bool table_answers(const Board& board) {
  for (const Side side : {Side::light, Side::dark}) {
    if (can_lose_gammon(board.of(side)) || !all_home(board, side)) return false;
  }
  return true;
}

/// The chance that the side on roll is off first, each side playing for its own mean.
float race_chance(const Board& board, Side on_roll) {
  const OneSidedTable<double>& table = home_table();
  const auto spread = [&](Side side) { return table.spread(table.family().rank(board.of(side))); };
  const RollSpread<double> mine = spread(on_roll);
  const RollSpread<double> theirs = spread(opponent(on_roll));
  double chance = 0;
  double they_need_more = 1;  // the chance that the other side needs `rolls` or more
  for (int rolls = 0; rolls <= mine.last(); ++rolls) {
    chance += mine.exactly(rolls) * they_need_more;
    they_need_more -= theirs.exactly(rolls);
  }
  return static_cast<float>(chance);
}

}  // namespace

Chances lost_game(const Board& board) {
  const auto kind = win_kind(board);
  Chances chances;
  chances.lose_gammon = kind && *kind != WinKind::single ? 1.0F : 0.0F;
  chances.lose_backgammon = kind == WinKind::backgammon ? 1.0F : 0.0F;
  return chances;
}

Evaluator::Evaluator(const WeightsByPhase& nets)
    : nets_{Net(nets[0]), Net(nets[1]), Net(nets[2]), Net(nets[3])} {}

Evaluation Evaluator::evaluate(const Board& board, Side on_roll) const {
  NetScratch scratch;
  return evaluate(board, on_roll, scratch);
}

Evaluation Evaluator::evaluate(const Board& board, Side on_roll, NetScratch& scratch) const {
  if (has_won(board, opponent(on_roll))) return {lost_game(board), Origin::game_over};
  const Phase phase = phase_of(board);
  if (phase == Phase::race) return without_contact(board, on_roll, scratch);
  return {net_of(phase).evaluate(board, on_roll, scratch), Origin::contact_net};
}

Evaluation Evaluator::without_contact(const Board& board, Side on_roll, NetScratch& scratch) const {
  if (table_answers(board)) {
    Chances chances;
    const TwoSidedTable<double>& exact = small_races();
    const BearoffFamily& family = exact.family();
    const Camp& mine = board.of(on_roll);
    const Camp& theirs = board.of(opponent(on_roll));
    if (family.contains(mine) && family.contains(theirs)) {
      chances.win = static_cast<float>(exact.values(family.rank(mine), family.rank(theirs)).win);
      return {chances, Origin::exact_table};
    }
    chances.win = race_chance(board, on_roll);
    return {chances, Origin::table};
  }
  return {net_of(Phase::race).evaluate(board, on_roll, scratch), Origin::race_net};
}

/// Positions that wait until there are enough of them for the net to value together.
class Evaluator::Group {
 public:
  Group(const Net& net, Side on_roll, NetScratch& scratch)
      : net_(net), on_roll_(on_roll), scratch_(scratch) {}

  /// The chances go to `value` now or later.
  void add(const Board& board, Evaluation& value) {
    boards_[count_] = &board;
    values_[count_] = &value;
    if (++count_ == net_group) finish();
  }
  void finish() {
    if (count_ == 0) return;
    std::array<Chances, net_group> chances;
    net_.evaluate({boards_.data(), count_}, on_roll_, scratch_, chances.data());
    for (std::size_t i = 0; i < count_; ++i) *values_[i] = {chances[i], Origin::contact_net};
    count_ = 0;
  }

 private:
  const Net& net_;
  Side on_roll_;
  NetScratch& scratch_;
  std::array<const Board*, net_group> boards_;
  std::array<Evaluation*, net_group> values_;
  std::size_t count_ = 0;
};

void Evaluator::evaluate(std::span<const LegalPlay> plays, Side on_roll, NetScratch& scratch,
                         Evaluation* values) const {
  std::array<Group, contact_phases> groups{Group(net_of(Phase::open), on_roll, scratch),
                                           Group(net_of(Phase::blockade), on_roll, scratch),
                                           Group(net_of(Phase::bear_in), on_roll, scratch)};
  for (std::size_t i = 0; i < plays.size(); ++i) {
    const Board& board = plays[i].after;
    if (has_won(board, opponent(on_roll))) {
      values[i] = {lost_game(board), Origin::game_over};
      continue;
    }
    const Phase phase = phase_of(board);
    if (phase == Phase::race)
      values[i] = without_contact(board, on_roll, scratch);
    else
      groups[static_cast<std::size_t>(phase)].add(board, values[i]);
  }
  for (Group& group : groups) group.finish();
}

std::size_t Evaluator::best_play(const std::vector<LegalPlay>& plays, Side side) const {
  NetScratch scratch;
  std::vector<Evaluation> values(plays.size());
  evaluate(plays, opponent(side), scratch, values.data());
  // The other side is on roll after the play: the less it expects, the better.
  const auto best =
      std::min_element(values.begin(), values.end(), [](const Evaluation& a, const Evaluation& b) {
        return a.chances.equity() < b.chances.equity();
      });
  return static_cast<std::size_t>(best - values.begin());
}

}  // namespace pointwright::judge
