#include "rules/setup.hpp"

#include <bit>

#include "rules/text.hpp"

namespace pointwright {
namespace {

using Part = SetupFault::Part;

std::string on_place(Place place) {
  if (place == bar_place) return "on the bar";
  if (place == off_place) return "off";
  return "on " + to_text(place);
}

/// Collects the reasons why a set-up cannot stand on a board.
class Inspection {
 public:
  explicit Inspection(const Setup& setup) : setup_(setup) {}

  std::vector<SetupFault> run() {
    for (const Side side : {Side::light, Side::dark}) inspect_count(side);
    inspect_shared_points();
    inspect_end();
    inspect_dice();
    inspect_cube();
    if (setup_.match) inspect_match(*setup_.match);
    return std::move(faults_);
  }

 private:
  void add(std::string_view id, Part part, std::string reason, std::string fix) {
    faults_.push_back({id, part, Side::light, 0, std::move(reason), std::move(fix)});
  }
  void add(std::string_view id, Side side, std::string reason, std::string fix) {
    faults_.push_back({id, Part::side, side, 0, std::move(reason), std::move(fix)});
  }
  void add(std::string_view id, Side side, Place place, std::string reason, std::string fix) {
    faults_.push_back({id, Part::place, side, place, std::move(reason), std::move(fix)});
  }

  [[nodiscard]] int in_play(Side side) const {
    int total = 0;
    for (std::size_t place = 1; place <= bar_place; ++place)
      total += setup_.camps[index(side)][place];
    return total;
  }

  void inspect_count(Side side) {
    const std::string who(name(side));
    for (Place place = 0; place <= bar_place; ++place) {
      if (setup_.camps[index(side)][place] >= 0) continue;
      add("negative-count", side, place,
          who + " has " + std::to_string(setup_.camps[index(side)][place]) + " checkers " +
              on_place(place),
          "write a count of 1 or more, or leave the place out");
      return;
    }
    const int total = in_play(side);
    if (total > checkers_per_side) {
      add("too-many-checkers", side,
          who + " has " + std::to_string(total) + " checkers; a side has 15",
          "take " + std::to_string(total - checkers_per_side) + " away");
      return;
    }
    const auto stated = setup_.stated_off[index(side)];
    if (stated && *stated != checkers_per_side - total) {
      add("off-disagrees", side, off_place,
          who + " has " + std::to_string(total) + " checkers in play, which leaves " +
              std::to_string(checkers_per_side - total) + " off, not " + std::to_string(*stated),
          "write offx" + std::to_string(checkers_per_side - total) + ", or leave it out");
    }
  }

  void inspect_shared_points() {
    for (Place point = 1; point <= 24; ++point) {
      const Place theirs = mirrored(point);
      if (setup_.camps[0][point] <= 0 || setup_.camps[1][theirs] <= 0) continue;
      add("shared-point", Side::dark, theirs,
          "both sides stand on one point: light's " + to_text(point) + " is dark's " +
              to_text(theirs),
          "move one of them; a point belongs to one side at a time");
    }
  }

  void inspect_end() {
    const bool light_off = in_play(Side::light) == 0;
    const bool dark_off = in_play(Side::dark) == 0;
    if (light_off && dark_off) {
      add("both-off", Side::dark, "both sides have borne off all their checkers",
          "the game ends when the first side has; put the other's last checkers back");
    } else if ((light_off || dark_off) && setup_.turn) {
      add("game-over", Part::dice,
          std::string(name(light_off ? Side::light : Side::dark)) +
              " has borne off all its checkers, so the game is over and nobody is to play",
          "leave the turn out");
    }
  }

  void inspect_dice() {
    if (!setup_.dice) return;
    if (!setup_.turn)
      add("dice-without-turn", Part::dice, "there are dice but no side to play them",
          "write: light to play 3-1");
    for (const int die : *setup_.dice) {
      if (die >= 1 && die <= 6) continue;
      add("no-such-die", Part::dice, "a die shows 1 to 6, not " + std::to_string(die),
          "write two numbers from 1 to 6, such as 6-4");
      return;
    }
  }

  void inspect_cube() {
    const std::uint64_t value = setup_.cube_value;
    if (!std::has_single_bit(value) || value > largest_cube) {
      add("no-such-cube", Part::cube,
          value > largest_cube && std::has_single_bit(value)
              ? "this program counts cubes up to " + std::to_string(largest_cube)
              : "a cube shows 1, 2, 4, 8 and so on, doubling each time, not " +
                    std::to_string(value),
          "write the value as it stands before the next offer, such as cube 2");
      return;
    }
    if (value == 1 && setup_.cube_holder)
      add("cube-held-at-one", Part::cube,
          "nobody can hold the cube at 1: it starts in the middle and moves with the first double",
          "write cube 2 with " + std::string(name(*setup_.cube_holder)) + ", or leave it out");
    if (!setup_.house.cube && (value != 1 || setup_.cube_holder))
      add("cube-not-in-use", Part::cube, "a cube is set, but the house rules play without one",
          "leave out the cube, or no-cube");
  }

  void inspect_match(const MatchScore& match) {
    if (match.length < 1 || match.length > longest_match) {
      add("no-such-match", Part::match,
          "a match is to 1 to " + std::to_string(longest_match) + " points, not " +
              std::to_string(match.length),
          "write: match to 7 score 0-0");
      return;
    }
    for (const Side side : {Side::light, Side::dark}) {
      const int points = match.points[index(side)];
      if (points >= 0 && points < match.length) continue;
      add("match-over", Part::match,
          std::string(name(side)) + " has " + std::to_string(points) + " points in a match to " +
              std::to_string(match.length) + (points < 0 ? "" : ", which is over"),
          "write a score below " + std::to_string(match.length) + " for both sides");
      return;
    }
    if (!match.crawford) return;
    const int needed = match.length - 1;
    if ((match.points[0] == needed) == (match.points[1] == needed)) {
      add("no-crawford-game", Part::match,
          "the Crawford game is the one that follows when the first side comes within one point; "
          "at " +
              std::to_string(match.points[0]) + "-" + std::to_string(match.points[1]) +
              (match.points[0] == needed ? " both sides are there" : " no side is there"),
          "leave out crawford");
    } else if (setup_.cube_value != 1) {
      add("cube-in-crawford-game", Part::cube, "the cube is not used in the Crawford game",
          "leave out the cube, or crawford");
    }
  }

  const Setup& setup_;
  std::vector<SetupFault> faults_;
};

}  // namespace

Result<Position, std::vector<SetupFault>> validate(const Setup& setup) {
  std::vector<SetupFault> faults = Inspection(setup).run();
  if (!faults.empty()) return faults;

  Position position;
  for (const Side side : {Side::light, Side::dark}) {
    Camp& camp = position.board.of(side);
    int in_play = 0;
    for (std::size_t place = 1; place <= bar_place; ++place) {
      camp[place] = static_cast<std::uint8_t>(setup.camps[index(side)][place]);
      in_play += camp[place];
    }
    camp[off_place] = static_cast<std::uint8_t>(checkers_per_side - in_play);
  }
  position.turn = setup.turn;
  if (setup.dice) position.roll = Roll((*setup.dice)[0], (*setup.dice)[1]);
  position.cube = {setup.cube_value, setup.cube_holder};
  position.match = setup.match;
  position.house = setup.house;
  return position;
}

}  // namespace pointwright
