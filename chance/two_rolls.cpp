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

/// Chances out of 36 and out of 36 * 36, remembered: many plays and replies meet in one board.
class Enumeration {
 public:
  Enumeration(Side side, const Event& event, const Chooser& reply)
      : side_(side), other_(opponent(side)), event_(event), reply_(reply) {}

  /// No less than the chance for `side` (`least`, out of 36 * 36) after the other side's roll and
  /// worst reply: for each roll one reply is tried, the one that was worst when last all were.
  std::int64_t at_most(const Board& board) {
    if (const auto known = exact_.find(board); known != exact_.end()) return known->second.least;
    return guess(board).sum;
  }

  /// The chance for `side` after the other side's roll and reply, out of 36 * 36: worst and best.
  /// Nothing if `least` is certainly under `need`, as is seen long before all replies are tried.
  std::optional<ThreeRollChance> after_reply(const Board& board, std::int64_t need) {
    if (const auto known = exact_.find(board); known != exact_.end()) return known->second;
    ThreeRollChance chance;
    if (!has_won(board, side_)) {
      Guess& guessed = guess(board);
      for (std::size_t roll = 0; roll < all_rolls().size(); ++roll) {
        if (guessed.sum < need) return std::nullopt;
        const ThreeRollChance replied = replies(board, roll);
        const std::int64_t ways = all_rolls()[roll].ways();
        chance.least += ways * replied.least;
        chance.most += ways * replied.most;
        guessed.sum += ways * (replied.least - guessed.of_roll[roll]);
        guessed.of_roll[roll] = replied.least;
      }
    }
    exact_.emplace(board, chance);
    return chance;
  }

 private:
  struct Guess {
    std::int64_t sum = 0;
    std::array<std::int64_t, 21> of_roll{};  ///< each out of 36
  };

  /// Rolls of 36 with which `side` can do it from here.
  std::int64_t of_36(const Board& board) {
    const auto [entry, is_new] = of_36_.try_emplace(board, 0);
    if (!is_new) return entry->second;
    std::int64_t ways = 0;
    for (const Roll roll : all_rolls()) {
      legal_plays(board, side_, roll, own_plays_);
      const int choices = static_cast<int>(own_plays_.size());
      const bool can = std::any_of(own_plays_.begin(), own_plays_.end(), [&](const LegalPlay& p) {
        return event_.holds({board, side_, p.play, p.after, choices});
      });
      const bool dances_so = choices == 0 && event_.holds({board, side_, Play{}, board, 0});
      if (can || dances_so) ways += roll.ways();
    }
    return entry->second = ways;
  }

  /// The same after one reply.
  std::int64_t after_one(const Board& next) { return has_won(next, other_) ? 0 : of_36(next); }

  Guess& guess(const Board& board) {
    const auto [entry, is_new] = guesses_.try_emplace(board);
    Guess& guessed = entry->second;
    if (!is_new || has_won(board, side_)) return guessed;
    for (std::size_t roll = 0; roll < all_rolls().size(); ++roll) {
      legal_plays(board, other_, all_rolls()[roll], replies_);
      std::int64_t ways = 0;
      if (replies_.empty()) {
        ways = after_one(board);
      } else if (reply_) {
        ways = after_one(replies_[reply_(board, other_, replies_)].after);
      } else {
        const auto same =
            std::find_if(replies_.begin(), replies_.end(),
                         [&](const LegalPlay& play) { return play.play == worst_[roll]; });
        ways = after_one(same == replies_.end() ? replies_.front().after : same->after);
      }
      guessed.of_roll[roll] = ways;
      guessed.sum += all_rolls()[roll].ways() * ways;
    }
    return guessed;
  }

  /// The chance, out of 36, after the worst and the best reply to a roll.
  ThreeRollChance replies(const Board& board, std::size_t roll) {
    legal_plays(board, other_, all_rolls()[roll], replies_);
    if (replies_.empty() || reply_) {
      const std::int64_t ways =
          after_one(replies_.empty() ? board : replies_[reply_(board, other_, replies_)].after);
      return {ways, ways};
    }
    ThreeRollChance chance{36, 0};
    for (const LegalPlay& play : replies_) {
      const std::int64_t ways = after_one(play.after);
      if (ways < chance.least) worst_[roll] = play.play;
      chance.least = std::min(chance.least, ways);
      chance.most = std::max(chance.most, ways);
    }
    return chance;
  }

  Side side_;
  Side other_;
  const Event& event_;
  const Chooser& reply_;
  std::unordered_map<Board, std::int64_t, BoardHash> of_36_;
  std::unordered_map<Board, Guess, BoardHash> guesses_;
  std::unordered_map<Board, ThreeRollChance, BoardHash> exact_;
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
  ThreeRollChance best{-1, -1};
  for (const auto& [at_most, board] : order) {
    if (at_most < best.least) break;
    const auto later = enumeration.after_reply(*board, best.least);
    if (!later) continue;
    if (later->least > best.least || (later->least == best.least && later->most > best.most)) {
      best = *later;
    }
  }
  return best;
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
