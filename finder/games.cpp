#include "finder/games.hpp"

#include <algorithm>

#include "rules/play.hpp"

namespace pointwright::finder {
namespace {

constexpr int longest_game = 400;  // turns; games by these habits end far sooner
constexpr int odd_play_in = 12;    // one play in so many is any play at all

// What the players like, in points of a scale of their own.
constexpr int for_a_hit = 30;
constexpr int for_a_point = 12;
constexpr int for_a_home_point = 10;
constexpr int for_a_blot_in_reach = -9;
constexpr int for_a_checker_off = 40;
constexpr int for_chance = 10;

/// Opposing checkers, the bar included, that stand 1 to 11 pips in front of a blot.
int in_reach(const Board& board, Side side, int blot) {
  int count = 0;
  for (int place = blot - 1; place >= 0 && place > blot - 12; --place)
    count += board.count(opponent(side), static_cast<Place>(bar_place - place)) > 0 ? 1 : 0;
  return count;
}

int liking(const LegalPlay& legal, Side side) {
  int sum = 0;
  for (const Move& move : legal.play) {
    if (move.hit) sum += for_a_hit;
    if (move.to == off_place) sum += for_a_checker_off;
  }
  const Camp& camp = legal.after.of(side);
  for (int point = 1; point <= 24; ++point) {
    const int here = camp[static_cast<std::size_t>(point)];
    if (here >= 2) sum += point <= last_home_point + 1 ? for_a_home_point : for_a_point / 2;
    if (here == 1) sum += for_a_blot_in_reach * std::min(in_reach(legal.after, side, point), 3);
    if (here > 4) sum -= here - 4;
  }
  return sum;
}

Roll throw_dice(Random& random) {
  const int first = 1 + random.below(6);
  return {first, 1 + random.below(6)};
}

}  // namespace

void play_game(std::uint64_t number, const std::function<bool(const Turn&, int turn)>& turn) {
  Random random(number);
  Turn now;
  now.before = starting_board();
  now.side = random.below(2) == 0 ? Side::light : Side::dark;
  do {
    now.roll = throw_dice(random);
  } while (now.roll.is_double());  // the opening roll is one die each
  std::vector<LegalPlay> plays;
  for (int i = 0; i < longest_game; ++i) {
    legal_plays(now.before, now.side, now.roll, plays);
    Board after = now.before;
    now.play = Play{};
    if (!plays.empty()) {
      std::size_t best = 0;
      if (random.below(odd_play_in) == 0) {
        best = static_cast<std::size_t>(random.below(static_cast<int>(plays.size())));
      } else {
        int most = 0;
        for (std::size_t each = 0; each < plays.size(); ++each) {
          const int like = liking(plays[each], now.side) + random.below(for_chance);
          if (each > 0 && like <= most) continue;
          most = like;
          best = each;
        }
      }
      now.play = plays[best].play;
      after = plays[best].after;
    }
    if (!turn(now, i) || has_won(after, now.side)) return;
    now.before = after;
    now.side = opponent(now.side);
    now.roll = throw_dice(random);
  }
}

std::size_t natural_play(const std::vector<LegalPlay>& plays, Side side) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < plays.size(); ++i) {
    if (liking(plays[i], side) > liking(plays[best], side)) best = i;
  }
  return best;
}

std::int64_t look_through(const Wanted& wanted, std::uint64_t number,
                          const std::function<bool(const Finding&, int turn)>& take) {
  Facts facts(wanted.side);
  const bool with_roll = wanted.query.needs_roll() || wanted.roll.has_value();
  std::int64_t looked_at = 0;
  play_game(number, [&](const Turn& turn, int i) {
    if (wanted.roll && turn.roll != *wanted.roll) return true;
    ++looked_at;
    Finding finding{turn.side == wanted.side ? turn.before : swapped(turn.before),
                    with_roll ? std::optional(turn.roll) : std::nullopt};
    facts.look_at(finding.board, finding.roll);
    if (wanted.query.truth(facts) != Truth::yes) return true;
    return take(finding, i);
  });
  return looked_at;
}

std::vector<Turn> way_to(std::uint64_t number, int turn) {
  std::vector<Turn> way;
  play_game(number, [&](const Turn& each, int i) {
    if (i < turn) way.push_back(each);
    return i < turn;
  });
  return way;
}

}  // namespace pointwright::finder
