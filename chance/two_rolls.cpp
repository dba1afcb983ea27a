#include "chance/two_rolls.hpp"

#include <algorithm>
#include <unordered_map>

#include "chance/next_roll.hpp"

namespace pointwright::chance {
namespace {

struct BoardHash {
  std::size_t operator()(const Board& board) const { return static_cast<std::size_t>(hash(board)); }
};

/// Chances out of 36 and out of 36 * 36, remembered: many plays and replies meet in one board.
class Enumeration {
 public:
  Enumeration(Side side, const Event& event, const Chooser& reply)
      : side_(side), query_{Query::Mode::can, event}, reply_(reply) {}

  /// Rolls of 36 with which `side` can do it from here.
  std::int64_t of_36(const Board& board) {
    const auto [entry, is_new] = of_36_.try_emplace(board, 0);
    if (is_new) {
      const std::int64_t ways = count(NextRoll(board, side_), query_).ways;
      entry->second = ways;
      return ways;
    }
    return entry->second;
  }

  /// The same after the other side's roll and reply, out of 36 * 36: worst and best for `side`.
  ThreeRollChance after_reply(const Board& board) {
    if (const auto known = after_reply_.find(board); known != after_reply_.end())
      return known->second;
    const Side other = opponent(side_);
    ThreeRollChance chance;
    if (!has_won(board, side_)) {
      for (const Roll roll : all_rolls()) {
        const std::vector<LegalPlay> plays = legal_plays(board, other, roll);
        std::int64_t least = 36;
        std::int64_t most = 0;
        const auto consider = [&](const Board& next) {
          const std::int64_t ways = has_won(next, other) ? 0 : of_36(next);
          least = std::min(least, ways);
          most = std::max(most, ways);
        };
        if (plays.empty())
          consider(board);
        else if (reply_)
          consider(plays[reply_(board, other, plays)].after);
        else
          for (const LegalPlay& play : plays) consider(play.after);
        chance.least += roll.ways() * least;
        chance.most += roll.ways() * most;
      }
    }
    after_reply_.emplace(board, chance);
    return chance;
  }

 private:
  Side side_;
  Query query_;
  const Chooser& reply_;
  std::unordered_map<Board, std::int64_t, BoardHash> of_36_;
  std::unordered_map<Board, ThreeRollChance, BoardHash> after_reply_;
};

}  // namespace

std::size_t best_by_pips(const Board& /*before*/, Side side, const std::vector<LegalPlay>& plays) {
  const auto lead = [&](const LegalPlay& play) {
    return pip_count(play.after, opponent(side)) - pip_count(play.after, side);
  };
  const auto best =
      std::max_element(plays.begin(), plays.end(),
                       [&](const LegalPlay& a, const LegalPlay& b) { return lead(a) < lead(b); });
  return static_cast<std::size_t>(best - plays.begin());
}

ThreeRollChance now_or_next(const Board& board, Side side, const Event& event,
                            const Chooser& reply) {
  Enumeration enumeration(side, event, reply);
  const NextRoll next(board, side);
  const Query query{Query::Mode::can, event};
  ThreeRollChance chance;
  for (const NextRoll::OfRoll& roll : next.rolls()) {
    ThreeRollChance best{-1, -1};
    if (next.answers(query, roll)) {
      constexpr std::int64_t certain = std::int64_t{36} * 36;
      best = {certain, certain};
    } else if (roll.plays.empty()) {
      best = enumeration.after_reply(board);
    } else {
      for (const LegalPlay& play : roll.plays) {
        const ThreeRollChance later = enumeration.after_reply(play.after);
        if (later.least > best.least || (later.least == best.least && later.most > best.most))
          best = later;
      }
    }
    chance.least += roll.roll.ways() * best.least;
    chance.most += roll.roll.ways() * best.most;
  }
  return chance;
}

}  // namespace pointwright::chance
