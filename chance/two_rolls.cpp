#include "chance/two_rolls.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <unordered_map>
#include <utility>

#include "chance/next_roll.hpp"

namespace pointwright::chance {
namespace {

struct BoardHash {
  std::size_t operator()(const Board& board) const { return static_cast<std::size_t>(hash(board)); }
};

/// The rolls in the order in which they are tried: those that count twice first, so that a count is
/// soon high enough, or has soon no way to become so.
const std::array<Roll, 21>& in_order() {
  static const std::array<Roll, 21> rolls = [] {
    std::array<Roll, 21> result = all_rolls();
    std::stable_sort(result.begin(), result.end(),
                     [](Roll a, Roll b) { return a.ways() > b.ways(); });
    return result;
  }();
  return rolls;
}

/// Chances out of 36 and out of 36 * 36, remembered: many plays and replies meet in one board. Most
/// counts out of 36 are only ever compared with another, and stop as soon as that is settled.
class Enumeration {
 public:
  Enumeration(Side side, const Event& event, const Chooser& reply)
      : side_(side), other_(opponent(side)), event_(event), reply_(reply) {}

  /// No less than the chance for `side` (`least`, out of 36 * 36) after the other side's roll and
  /// worst reply: for each roll one reply is tried, the one that was worst when last all were.
  std::int64_t at_most(const Board& board) {
    if (const auto known = least_.find(board); known != least_.end()) return known->second;
    return guess(board).sum;
  }

  /// The chance for `side` after the other side's roll and worst reply, out of 36 * 36. Nothing if
  /// it is certainly under `need`, as is seen long before all replies are tried.
  std::optional<std::int64_t> least(const Board& board, std::int64_t need) {
    if (const auto known = least_.find(board); known != least_.end()) return known->second;
    std::int64_t chance = 0;
    if (!has_won(board, side_)) {
      Guess& guessed = guess(board);
      for (std::size_t roll = 0; roll < all_rolls().size(); ++roll) {
        if (guessed.sum < need) return std::nullopt;
        const std::int64_t ways = all_rolls()[roll].ways();
        const std::int64_t replied = worst_reply(board, roll, guessed.of_roll[roll]);
        chance += ways * replied;
        guessed.sum += ways * (replied - guessed.of_roll[roll]);
        guessed.of_roll[roll] = replied;
      }
    }
    least_.emplace(board, chance);
    return chance;
  }

  /// The same after its best reply for `side`.
  std::int64_t most(const Board& board) {
    const auto [entry, is_new] = most_.try_emplace(board, 0);
    if (!is_new || has_won(board, side_)) return entry->second;
    std::int64_t chance = 0;
    for (std::size_t roll = 0; roll < all_rolls().size(); ++roll)
      chance += all_rolls()[roll].ways() * best_reply(board, roll);
    return entry->second = chance;
  }

 private:
  struct Guess {
    std::int64_t sum = 0;
    std::array<std::int64_t, 21> of_roll{};  ///< each out of 36
  };

  /// How far the rolls of one board have been counted.
  struct Count {
    std::size_t tried = 0;   ///< of in_order()
    std::int64_t ways = 0;   ///< of 36 with which `side` can do it, among those
    std::int64_t left = 36;  ///< in the rolls that have not been tried
  };

  /// Counts on while `undecided(count)` and rolls are left.
  template <class Undecided>
  const Count& count(const Board& board, const Undecided& undecided) {
    const auto [entry, is_new] = counts_.try_emplace(board);
    Count& held = entry->second;
    if (is_new && !event_.possible(board, side_)) held.left = 0;
    while (held.left > 0 && undecided(held)) {
      const Roll roll = in_order()[held.tried++];
      held.left -= roll.ways();
      if (can(board, roll)) held.ways += roll.ways();
    }
    return held;
  }

  bool can(const Board& board, Roll roll) {
    legal_plays(board, side_, roll, own_plays_);
    const int choices = static_cast<int>(own_plays_.size());
    if (choices == 0) return event_.holds({board, side_, Play{}, board, 0});
    return std::any_of(own_plays_.begin(), own_plays_.end(), [&](const LegalPlay& play) {
      return event_.holds({board, side_, play.play, play.after, choices});
    });
  }

  /// Rolls of 36 with which `side` can do it from here.
  std::int64_t of_36(const Board& next) {
    if (has_won(next, other_)) return 0;
    return count(next, [](const Count&) { return true; }).ways;
  }

  /// The same, or something from `enough` on if it is that many.
  std::int64_t of_36_below(const Board& next, std::int64_t enough) {
    if (has_won(next, other_)) return 0;
    return count(next, [&](const Count& held) { return held.ways < enough; }).ways;
  }

  /// The same, or something up to `known` if it is no more.
  std::int64_t of_36_above(const Board& next, std::int64_t known) {
    if (has_won(next, other_)) return 0;
    return count(next, [&](const Count& held) { return held.ways + held.left > known; }).ways;
  }

  /// The reply to a roll that the chooser picks, or that was worst when last all were tried.
  std::int64_t guessed_reply(const Board& board, std::size_t roll) {
    legal_plays(board, other_, all_rolls()[roll], replies_);
    if (replies_.empty()) return of_36(board);
    if (reply_) return of_36(replies_[reply_(board, other_, replies_)].after);
    const auto same = std::find_if(replies_.begin(), replies_.end(), [&](const LegalPlay& play) {
      return play.play == worst_[roll];
    });
    return of_36(same == replies_.end() ? replies_.front().after : same->after);
  }

  Guess& guess(const Board& board) {
    const auto [entry, is_new] = guesses_.try_emplace(board);
    Guess& guessed = entry->second;
    if (!is_new || has_won(board, side_)) return guessed;
    for (std::size_t roll = 0; roll < all_rolls().size(); ++roll) {
      guessed.of_roll[roll] = guessed_reply(board, roll);
      guessed.sum += all_rolls()[roll].ways() * guessed.of_roll[roll];
    }
    return guessed;
  }

  /// The chance, out of 36, after the worst reply to a roll. One reply is known to leave `guessed`.
  std::int64_t worst_reply(const Board& board, std::size_t roll, std::int64_t guessed) {
    if (reply_ || guessed == 0) return guessed;
    legal_plays(board, other_, all_rolls()[roll], replies_);
    std::int64_t least = guessed;
    for (const LegalPlay& play : replies_) {
      const std::int64_t ways = of_36_below(play.after, least);
      if (ways < least) {
        least = ways;
        worst_[roll] = play.play;
      }
      if (least == 0) break;
    }
    return least;
  }

  /// The chance, out of 36, after the best reply to a roll.
  std::int64_t best_reply(const Board& board, std::size_t roll) {
    legal_plays(board, other_, all_rolls()[roll], replies_);
    if (replies_.empty()) return of_36(board);
    if (reply_) return of_36(replies_[reply_(board, other_, replies_)].after);
    std::int64_t most = 0;
    for (const LegalPlay& play : replies_) {
      most = std::max(most, of_36_above(play.after, most));
      if (most == 36) break;
    }
    return most;
  }

  Side side_;
  Side other_;
  const Event& event_;
  const Chooser& reply_;
  std::unordered_map<Board, Count, BoardHash> counts_;
  std::unordered_map<Board, Guess, BoardHash> guesses_;
  std::unordered_map<Board, std::int64_t, BoardHash> least_;
  std::unordered_map<Board, std::int64_t, BoardHash> most_;
  std::array<Play, 21> worst_;  ///< the reply to each roll that was worst for `side` last time
  std::vector<LegalPlay> own_plays_;
  std::vector<LegalPlay> replies_;
};

/// The best of the boards that a roll leads to: the highest `least`, then the highest `most`.
ThreeRollChance best_of(const std::vector<Board>& boards, Enumeration& enumeration) {
  std::vector<std::pair<std::int64_t, const Board*>> order;
  order.reserve(boards.size());
  for (const Board& board : boards) order.emplace_back(enumeration.at_most(board), &board);
  // The most promising first: most of the others are then out before all their replies are tried.
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::int64_t best = -1;
  std::vector<const Board*> equal;
  for (const auto& [at_most, board] : order) {
    if (at_most < best) break;
    const auto least = enumeration.least(*board, best);
    if (!least || *least < best) continue;
    if (*least > best) equal.clear();
    best = *least;
    equal.push_back(board);
  }
  ThreeRollChance chance{best, -1};
  for (const Board* board : equal) chance.most = std::max(chance.most, enumeration.most(*board));
  return chance;
}

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
    } else {
      std::vector<Board> boards;
      for (const LegalPlay& play : roll.plays) boards.push_back(play.after);
      if (boards.empty()) boards.push_back(board);
      best = best_of(boards, enumeration);
    }
    chance.least += roll.roll.ways() * best.least;
    chance.most += roll.roll.ways() * best.most;
  }
  return chance;
}

}  // namespace pointwright::chance
