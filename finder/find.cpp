#include "finder/find.hpp"

#include <algorithm>

#include "finder/games.hpp"
#include "rules/ruling_wording.hpp"

namespace pointwright::finder {
namespace {

/// Findings of one family that are kept before the clearest are chosen.
constexpr std::size_t most_kept = 4000;

/// One search: the roads share what was found.
class Search {
 public:
  Search(const Wanted& wanted, const Options& options, const TakeFound& take)
      : wanted_(wanted),
        options_(options),
        take_(take),
        bounds_(bounds_of(wanted.query, wanted.side)),
        rolls_(open_rolls(wanted).size()) {}

  Report run() {
    if (rolls_ == 0 || bounds_.empty()) {
      report_.end = End::none_exists;
      return report_;
    }
    switch (options_.road) {
      case Road::build:
        build();
        if (report_.found == 0 && !interrupted()) enumerate();
        break;
      case Road::smallest:
        enumerate();
        if (report_.found == 0 && report_.end != End::none_exists && !interrupted()) build();
        break;
      case Road::games:
        look_through_games();
        break;
    }
    return report_;
  }

 private:
  [[nodiscard]] bool interrupted() const { return options_.interrupted && options_.interrupted(); }
  [[nodiscard]] bool goes_on() const {
    return !refused_ && report_.found < options_.count && !interrupted();
  }

  /// Hands a finding over if it differs enough from those before. Returns whether to go on.
  bool offer(const Found& found) {
    const bool apart = std::all_of(taken_.begin(), taken_.end(), [&](const Finding& other) {
      return difference(found.finding, other) >= wanted_.apart;
    });
    if (!apart) return true;
    taken_.push_back(found.finding);
    ++report_.found;
    refused_ = !take_(found);
    if (report_.found >= options_.count) report_.end = End::enough;
    return goes_on();
  }

  void build() {
    Builder builder(wanted_, options_.seed);
    while (goes_on()) {
      const auto finding = builder.next(taken_, options_.effort);
      if (!finding) break;
      const int size = in_play(finding->board, Side::light) + in_play(finding->board, Side::dark);
      Found found{*finding};
      found.proved_smallest = size == report_.proved_below;
      offer(found);
    }
    report_.looked_at += builder.looked_at();
  }

  /// Goes through the families from the smallest on, as far as the work lasts.
  void enumerate() {
    Facts facts(wanted_.side);
    const auto stop = [&] { return facts.work() > options_.work_to_enumerate || interrupted(); };
    const int smallest = bounds_.in_play[0].least + bounds_.in_play[1].least;
    const int largest = bounds_.in_play[0].most + bounds_.in_play[1].most;
    int size = smallest;
    for (; size <= largest && goes_on(); ++size) {
      std::vector<Finding> found;
      bool whole = true;
      for (const Family family : families_of_size(size, bounds_)) {
        std::size_t here = 0;
        each_in_family(
            wanted_, family, facts,
            [&](const Finding& finding) {
              found.push_back(finding);
              return ++here < most_kept;
            },
            stop);
        whole = whole && !stop();
        if (!whole) break;
        report_.looked_at += boards_in(family) * static_cast<std::int64_t>(rolls_);
      }
      hand_over_clearest(std::move(found));
      if (!whole) break;
      if (report_.found == 0) report_.proved_below = size + 1;
    }
    if (report_.end == End::enough || refused_ || interrupted()) return;
    if (size > largest)
      report_.end = report_.found == 0 ? End::none_exists : End::all;
    else if (report_.found == 0 && report_.proved_below > smallest)
      report_.end = End::none_that_small;
  }

  void hand_over_clearest(std::vector<Finding> found) {
    std::vector<std::pair<int, std::size_t>> order;
    for (std::size_t i = 0; i < found.size(); ++i)
      order.emplace_back(clutter(found[i], wanted_.side), i);
    std::sort(order.begin(), order.end());
    const bool first_of_all = report_.found == 0;
    for (const auto& [measure, i] : order) {
      Found one{found[i]};
      one.proved_smallest = first_of_all;
      if (first_of_all) report_.smallest_is_proved = true;
      if (!offer(one)) return;
    }
  }

  void look_through_games() {
    for (int game = 0; game < options_.most_games && goes_on(); ++game) {
      ++report_.games;
      const std::uint64_t number = options_.seed * 1'000'003U + static_cast<std::uint64_t>(game);
      bool one_of_this_game = false;
      report_.looked_at += look_through(wanted_, number, [&](const Finding& finding, int turn) {
        Found found{finding};
        found.game = number;
        found.turn = turn;
        const int before = report_.found;
        const bool on = offer(found);
        one_of_this_game = report_.found > before;
        return on && !one_of_this_game;  // positions of one game are too much alike
      });
    }
  }

  const Wanted& wanted_;
  const Options& options_;
  const TakeFound& take_;
  Bounds bounds_;
  std::size_t rolls_;
  Report report_;
  std::vector<Finding> taken_;
  bool refused_ = false;
};

}  // namespace

Report find(const Wanted& wanted, const Options& options, const TakeFound& take) {
  return Search(wanted, options, take).run();
}

std::string in_words(const Report& report) {
  std::string found = wording::sentence(
      report.found == 0 ? "none found" : wording::number_word(report.found) + " found");
  const std::string size = std::to_string(report.proved_below - 1);
  switch (report.end) {
    case End::enough:
      return found + ".";
    case End::all:
      return found + "; there are no more, all positions that come into question were looked at.";
    case End::none_exists:
      return "Proved: no position makes this true.";
    case End::none_that_small:
      return "Proved: no position with up to " + size +
             " checkers in play makes this true. Larger ones were built and tried, and none was "
             "found; that proves nothing.";
    case End::stopped:
      return found + "; the search stopped when its effort was spent, and there may be more.";
  }
  return found;
}

}  // namespace pointwright::finder
