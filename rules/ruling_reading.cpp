#include "rules/ruling_reading.hpp"

#include <algorithm>
#include <utility>

namespace pointwright::reading {
namespace {

constexpr int sides_of_a_die = 6;

/// Whether a checker that heads for `target` may land there first: not beyond it.
constexpr bool on_the_way(Place landed, Place target) {
  return landed >= target;
}

bool cover_from(const std::vector<Leg>& legs, std::size_t at, Place place, Dice& dice) {
  while (place == legs[at].to) {
    if (++at == legs.size()) return true;
    place = legs[at].from;
  }
  for (int die = 1; die <= sides_of_a_die; ++die) {
    auto& left = dice[static_cast<std::size_t>(die)];
    if (left == 0 || !on_the_way(landing(place, die), legs[at].to)) continue;
    if (landing(place, die) == off_place && legs[at].to != off_place) continue;
    --left;
    const bool covered = cover_from(legs, at, landing(place, die), dice);
    ++left;
    if (covered) return true;
  }
  return false;
}

/// Counts what the stars of one attempt and the hits of one reading do not have in common. A star
/// behind a merged move may stand for a hit at a stop that is not written.
int count_mismatches(const std::vector<Leg>& legs, const std::vector<Taken>& steps) {
  int mismatches = 0;
  for (std::size_t leg = 0; leg < legs.size(); ++leg) {
    int unwritten_hits = 0;
    bool hit_at_end = false;
    for (const Taken& step : steps) {
      if (step.leg != leg || !step.move.hit) continue;
      if (step.move.to == legs[leg].to)
        hit_at_end = true;
      else
        ++unwritten_hits;
    }
    if (legs[leg].star && !hit_at_end) {
      if (unwritten_hits > 0)
        --unwritten_hits;
      else
        ++mismatches;
    }
    mismatches += unwritten_hits;
  }
  return mismatches;
}

/// Obstacles that explain more come first: a blocked point cannot be helped by another order.
int weight(Step why) {
  switch (why) {
    case Step::blocked:
      return 0;
    case Step::higher_first:
      return 1;
    case Step::not_all_home:
      return 2;
    case Step::bar_first:
      return 3;
    case Step::no_checker:
    case Step::fine:
      break;
  }
  return 4;
}

/// Walks through every way to make the written moves, on one working board.
class Matcher {
 public:
  Matcher(const Board& board, Side side, Roll roll, const std::vector<Leg>& legs)
      : board_(board), side_(side), dice_(dice_of(roll)), written_(legs), left_(legs) {}

  Match run() {
    walk();
    if (!match_.readings.empty()) match_.stuck.reset();
    return std::move(match_);
  }

 private:
  /// A leg may start when the legs before it in its journey are finished.
  [[nodiscard]] bool may_start(std::size_t leg) const {
    return leg == 0 || left_[leg - 1].journey != left_[leg].journey ||
           left_[leg - 1].from == left_[leg - 1].to;
  }

  [[nodiscard]] bool finished() const {
    return std::ranges::all_of(left_, [](const Leg& leg) { return leg.from == leg.to; });
  }

  void walk() {
    if (finished()) {
      match_.readings.push_back({steps_, board_, count_mismatches(written_, steps_)});
      return;
    }
    std::vector<Obstacle> obstacles;
    std::size_t moving = 0;       // legs that can go on
    bool only_by_detour = false;  // the leg that can was refused the way that is written
    for (std::size_t leg = 0; leg < left_.size(); ++leg) {
      if (left_[leg].from == left_[leg].to || !may_start(leg)) continue;
      const std::size_t before = obstacles.size();
      bool went_on = false;
      for (int die = sides_of_a_die; die >= 1; --die) went_on |= try_step(leg, die, obstacles);
      if (!went_on) continue;
      ++moving;
      only_by_detour =
          std::any_of(obstacles.begin() + static_cast<std::ptrdiff_t>(before), obstacles.end(),
                      [&](const Obstacle& obstacle) { return obstacle.to == written_[leg].to; });
    }
    // A detour, such as 5/4/off where 5/off was written, is tried; but if it fails as well, the
    // plain way is the one to explain.
    if (moving == 0 || (moving == 1 && only_by_detour)) note_stuck(std::move(obstacles));
  }

  /// Makes one step and walks on from there. Returns whether the step could be made.
  bool try_step(std::size_t leg, int die, std::vector<Obstacle>& obstacles) {
    auto& left = dice_[static_cast<std::size_t>(die)];
    const Place from = left_[leg].from;
    const Place to = landing(from, die);
    if (left == 0 || !on_the_way(to, left_[leg].to)) return false;
    if (to == off_place && left_[leg].to != off_place) return false;
    --left;
    left_[leg].from = to;
    bool made = false;
    if (dice_cover(left_, dice_)) {
      const Step why = judge_step(board_, side_, from, die);
      made = why == Step::fine;
      if (made) {
        const bool hit = make_move(board_, side_, from, to);
        steps_.push_back({leg, die, {from, to, hit}});
        walk();
        steps_.pop_back();
        take_back(board_, side_, {from, to, hit});
      } else {
        obstacles.push_back({why, leg, from, die, to});
      }
    }
    left_[leg].from = from;
    ++left;
    return made;
  }

  void note_stuck(std::vector<Obstacle> obstacles) {
    const auto telling = std::ranges::min_element(
        obstacles,
        [](const Obstacle& a, const Obstacle& b) { return weight(a.why) < weight(b.why); });
    std::rotate(obstacles.begin(), telling, telling + 1);
    Stuck stuck{board_, steps_, std::move(obstacles)};
    const Merit merit{
        static_cast<int>(std::count_if(left_.begin(), left_.end(),
                                       [](const Leg& leg) { return leg.from == leg.to; })),
        -weight(stuck.obstacles.front().why), -static_cast<int>(steps_.size())};
    if (match_.stuck && merit <= best_) return;
    match_.stuck = std::move(stuck);
    best_ = merit;
  }

  /// How well a place to stop explains a refusal: legs finished, the obstacle's weight, and steps
  /// of unfinished legs as few as possible.
  using Merit = std::array<int, 3>;

  Board board_;
  Side side_;
  Dice dice_;
  const std::vector<Leg>& written_;
  std::vector<Leg> left_;  ///< each leg's `from` follows its checker
  std::vector<Taken> steps_;
  Match match_;
  Merit best_{};  ///< of match_.stuck
};

}  // namespace

Dice dice_of(Roll roll) {
  Dice dice{};
  const auto times = static_cast<std::uint8_t>(roll.is_double() ? 4 : 1);
  dice[static_cast<std::size_t>(roll.high())] = times;
  dice[static_cast<std::size_t>(roll.low())] = times;
  return dice;
}

std::vector<Leg> legs_of(const Attempt& attempt) {
  std::vector<Leg> legs;
  for (std::size_t journey = 0; journey < attempt.journeys.size(); ++journey) {
    const Journey& written = attempt.journeys[journey];
    for (std::size_t stop = 1; stop < written.stops.size(); ++stop)
      legs.push_back({journey, written.stops[stop - 1], written.stops[stop], written.hits[stop]});
  }
  return legs;
}

bool dice_cover(const std::vector<Leg>& legs, const Dice& dice) {
  if (legs.empty()) return true;
  Dice left = dice;
  return cover_from(legs, 0, legs.front().from, left);
}

Play Reading::play() const {
  Play play;
  for (const Taken& step : steps) play.push(step.move);
  return play;
}

Match match(const Board& board, Side side, Roll roll, const std::vector<Leg>& legs) {
  return Matcher(board, side, roll, legs).run();
}

}  // namespace pointwright::reading
