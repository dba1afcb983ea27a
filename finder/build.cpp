#include "finder/build.hpp"

#include <algorithm>

#include "rules/play.hpp"

namespace pointwright::finder {
namespace {

constexpr int clutter_of_a_checker = 8;
constexpr int clutter_of_a_place = 3;
constexpr int clutter_of_the_bar = 2;

bool is_free(const Board& board, Side side, Place place) {
  return place == bar_place || place == off_place ||
         board.count(opponent(side), mirrored(place)) == 0;
}

}  // namespace

int clutter(const Finding& finding, Side side) {
  int clutter = 0;
  for (const Side each : {Side::light, Side::dark}) {
    const Camp& camp = finding.board.of(each);
    clutter += clutter_of_a_checker * in_play(finding.board, each);
    for (std::size_t place = 1; place <= bar_place; ++place)
      clutter += camp[place] > 0 ? clutter_of_a_place : 0;
    if (each != side) clutter += clutter_of_the_bar * camp[bar_place];
  }
  if (finding.roll) {
    const auto plays = legal_plays(finding.board, side, *finding.roll);
    clutter += std::min(static_cast<int>(plays.size()), 12);
  }
  return clutter;
}

Builder::Builder(const Wanted& wanted, std::uint64_t seed)
    : wanted_(wanted),
      bounds_(bounds_of(wanted.query, wanted.side)),
      rolls_(open_rolls(wanted)),
      random_(seed),
      facts_(wanted.side) {}

int Builder::distance(const Finding& finding, int limit) {
  ++looked_at_;
  facts_.look_at(finding.board, finding.roll);
  return wanted_.query.distance(facts_, limit);
}

Finding Builder::random_board() {
  Finding finding;
  finding.roll = rolls_[static_cast<std::size_t>(random_.below(static_cast<int>(rolls_.size())))];
  for (const Side side : {Side::light, Side::dark}) {
    Camp& camp = finding.board.of(side);
    camp[off_place] = checkers_per_side;
    // Blots and pairs; a pair blocks, and most rules are about blocked points. The side to play
    // needs few checkers to be short of moves.
    const Range range = bounds_.in_play[index(side)];
    const bool few = side == wanted_.side && random_.below(2) == 0;
    const int farthest = random_.below(3) == 0 ? last_home_point : 24;
    int groups = 1 + random_.below(few ? 2 : 4);
    for (int tries = 0; tries < 60; ++tries) {
      const int here = in_play(finding.board, side);
      if (here >= range.most || (groups <= 0 && here >= range.least)) break;
      auto place = static_cast<Place>(1 + random_.below(farthest));
      if (random_.below(16) == 0) place = bar_place;
      if (!is_free(finding.board, side, place)) continue;
      const int count = std::min(1 + random_.below(3), range.most - here);
      for (int i = 0; i < count; ++i) move_checker(finding, side, off_place, place);
      --groups;
    }
    if (in_play(finding.board, side) == 0) move_checker(finding, side, off_place, bar_place);
  }
  return finding;
}

bool Builder::move_checker(Finding& finding, Side side, Place from, Place to) {
  Camp& camp = finding.board.of(side);
  if (from == to || camp[from] == 0 || !is_free(finding.board, side, to)) return false;
  --camp[from];
  ++camp[to];
  if (in_play(finding.board, side) > 0) return true;
  ++camp[from];
  --camp[to];
  return false;
}

void Builder::change(Finding& finding) {
  for (int attempt = 0; attempt < 8; ++attempt) {
    if (rolls_.size() > 1 && random_.below(10) == 0) {
      finding.roll =
          rolls_[static_cast<std::size_t>(random_.below(static_cast<int>(rolls_.size())))];
      return;
    }
    const Side side = random_.below(2) == 0 ? Side::light : Side::dark;
    const Camp& camp = finding.board.of(side);
    // One of the checkers in play, or one that is off.
    int pick = random_.below(in_play(finding.board, side) + 1);
    Place from = off_place;
    for (Place place = 1; place <= bar_place && pick > 0; ++place) {
      pick -= std::min<int>(camp[place], pick);
      from = place;
    }
    auto to = static_cast<Place>(random_.below(bar_place + 1));
    if (random_.below(2) == 0 && from != off_place) {  // a little way, so that slopes are followed
      const int near = from + random_.below(7) - 3;
      to = static_cast<Place>(std::clamp(near, 0, static_cast<int>(bar_place)));
    }
    const int count = random_.below(4) == 0 ? 2 : 1;
    bool moved = false;
    for (int i = 0; i < count; ++i) moved |= move_checker(finding, side, from, to);
    if (moved) return;
  }
}

bool Builder::mend(Finding& finding, int changes) {
  facts_.spend(clutter_of_a_checker);  // so that work grows even where looking costs nothing
  int now = distance(finding, boundless);
  for (int i = 0; i < changes && now > 0; ++i) {
    Finding changed = finding;
    change(changed);
    const int then = distance(changed, now + 1);
    // Downhill and level always; uphill by a little now and then, so as to get out of hollows.
    const bool take = then <= now || (then <= now + 1 && random_.below(20) == 0);
    if (!take) continue;
    finding = changed;
    now = then;
  }
  return now == 0;
}

bool Builder::try_without(Finding& finding, Side side, Place place, int count) {
  Finding thinner = finding;
  for (int i = 0; i < count; ++i) {
    if (!move_checker(thinner, side, place, off_place)) return false;
  }
  if (!holds(thinner)) return false;
  finding = thinner;
  return true;
}

void Builder::thin_out(Finding& finding) {
  bool thinner = true;
  while (thinner) {
    thinner = false;
    for (const Side side : {Side::light, Side::dark}) {
      const int first = random_.below(bar_place);
      for (int i = 0; i < bar_place; ++i) {
        const auto place = static_cast<Place>(1 + (first + i) % bar_place);
        while (try_without(finding, side, place, 1)) thinner = true;
        while (try_without(finding, side, place, 2)) thinner = true;
      }
    }
  }
}

/// Puts the checkers of a place on others of the same side while the query holds, so that there is
/// less to look at. Matters most where the query wants many checkers.
void Builder::gather(Finding& finding) {
  for (const Side side : {Side::light, Side::dark}) {
    const int first = random_.below(bar_place);
    for (int i = 0; i < bar_place; ++i) {
      const auto from = static_cast<Place>(1 + (first + i) % bar_place);
      if (finding.board.count(side, from) == 0) continue;
      // Nearer home first: there they are out of the way.
      for (Place to = 1; to <= 24; ++to) {
        if (to == from || finding.board.count(side, to) == 0) continue;
        Finding tidier = finding;
        const int checkers = finding.board.count(side, from);
        for (int moved = 0; moved < checkers; ++moved) move_checker(tidier, side, from, to);
        if (!holds(tidier)) continue;
        finding = tidier;
        break;
      }
    }
  }
}

std::optional<Finding> Builder::next(const std::vector<Finding>& others, const Effort& effort) {
  if (rolls_.empty()) return std::nullopt;
  std::optional<Finding> clearest;
  int least = 0;
  const std::int64_t started = facts_.work();
  const auto spent = [&] { return facts_.work() - started; };
  while (spent() < (clearest ? effort.work_to_choose : effort.work_to_find)) {
    Finding finding = random_board();
    if (!mend(finding, effort.changes_each)) continue;
    thin_out(finding);
    gather(finding);
    const bool apart = std::all_of(others.begin(), others.end(), [&](const Finding& other) {
      return difference(finding, other) >= wanted_.apart;
    });
    if (!apart) continue;
    const int measure = clutter(finding, wanted_.side);
    if (clearest && measure >= least) continue;
    clearest = finding;
    least = measure;
  }
  return clearest;
}

}  // namespace pointwright::finder
