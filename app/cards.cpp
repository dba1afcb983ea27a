#include "app/cards.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>

#include "app/numbers.hpp"
#include "chance/match_table.hpp"
#include "chance/next_roll.hpp"
#include "chance/race.hpp"
#include "chance/rules_of_thumb.hpp"

namespace pointwright::app {
namespace {

using chance::Count;
using chance::NextRoll;

/// The rolls with which light can bring about what `event` names.
Count counted(const Board& board, std::string_view event) {
  return chance::count(NextRoll(board, Side::light), *chance::read_query(event));
}

/// A board with these checkers; those not placed are off.
struct Placed {
  Board board;
  void put(Side side, int place, int checkers) {
    board.of(side)[static_cast<std::size_t>(place)] = static_cast<std::uint8_t>(checkers);
  }
  Board with_the_rest_off() {
    for (Camp& camp : board.camps) {
      int on = 0;
      for (std::size_t place = 1; place <= bar_place; ++place) on += camp[place];
      camp[off_place] = static_cast<std::uint8_t>(checkers_per_side - on);
    }
    return board;
  }
};

std::string rolls_of(const Count& count) {
  std::vector<std::string> texts;
  for (const Roll roll : count.rolls) texts.push_back(to_text(roll));
  return fmt::format("{}", fmt::join(texts, " "));
}

std::vector<std::string> row_of(std::string head, const Count& count) {
  return {std::move(head), fmt::format("{}", count.ways), chance::fraction_of_36(count.ways),
          percent(count.ways / 36.0, 1)};
}

Card shots() {
  constexpr int from = 24;
  Card card{.name = "shots",
            .title = "Shots: one checker against a blot, nothing in the way",
            .columns = {"pips away", "of 36", "fraction", "chance", "rolls"},
            .rows = {},
            .note =
                "Exact: every roll was played out. A blot one to six pips away is a direct "
                "shot. Distances that are not listed cannot be hit. A point of the other side "
                "on the way takes rolls away; other checkers of yours may add some."};
  for (int pips = 1; pips < from; ++pips) {
    Placed placed;
    placed.put(Side::light, from, 1);
    placed.put(Side::dark, mirrored(static_cast<Place>(from - pips)), 1);
    const Count count = counted(placed.with_the_rest_off(), "hit");
    if (count.ways == 0) continue;
    auto row = row_of(fmt::format("{}", pips), count);
    row.push_back(rolls_of(count));
    card.rows.push_back(std::move(row));
  }
  return card;
}

Card entering() {
  Card card{.name = "entering",
            .title = "Coming in from the bar",
            .columns = {"points closed", "one comes in", "chance", "both of two", "chance",
                        "one at least of two", "chance"},
            .rows = {},
            .note =
                "Exact, rolls of 36: every roll was played out. One checker against k closed "
                "points comes in with 36 - k x k rolls."};
  for (int closed = 0; closed <= 6; ++closed) {
    const auto with = [&](int on_bar, std::string_view event) {
      Placed placed;
      placed.put(Side::light, bar_place, on_bar);
      placed.put(Side::light, 12, 2);
      for (int point = 1; point <= closed; ++point) placed.put(Side::dark, point, 2);
      if (closed == 0) placed.put(Side::dark, 7, 2);
      return counted(placed.with_the_rest_off(), event).ways;
    };
    const int one = with(1, "enter");
    const int both = with(2, "enter-all");
    const int any = with(2, "enter");
    card.rows.push_back({fmt::format("{}", closed), fmt::format("{}", one), percent(one / 36.0, 1),
                         fmt::format("{}", both), percent(both / 36.0, 1), fmt::format("{}", any),
                         percent(any / 36.0, 1)});
  }
  return card;
}

Card last_two() {
  Card card{.name = "last-two",
            .title = "The last two checkers: rolls of 36 that bear off both",
            .columns = {"points", "1", "2", "3", "4", "5", "6", "one alone"},
            .rows = {},
            .note =
                "Exact: every roll was played out. Row and column are the points of the two "
                "checkers. A take is right on the last roll while the other side still misses "
                "with at least 9 of 36 (25%, for money)."};
  const auto off = [](int one, int other) {
    Placed placed;
    placed.put(Side::light, one, 1);
    if (other > 0) placed.put(Side::light, other, one == other ? 2 : 1);
    placed.put(Side::dark, 1, 2);
    return fmt::format("{}", counted(placed.with_the_rest_off(), "off-all").ways);
  };
  for (int one = 1; one <= 6; ++one) {
    std::vector<std::string> row{fmt::format("{}", one)};
    for (int other = 1; other <= 6; ++other) row.push_back(off(one, other));
    row.push_back(off(one, 0));
    card.rows.push_back(std::move(row));
  }
  return card;
}

Card stacked() {
  Card card{.name = "stacked",
            .title = "Stacked endings: all checkers on one point",
            .columns = {"checkers", "1-point: rolls", "wastage", "2-point: rolls", "wastage",
                        "3-point: rolls", "wastage"},
            .rows = {},
            .note =
                "Mean rolls to bear off, and wastage: mean rolls times 49/6, less the pip "
                "count. Exact, one side alone, from the table of all 54,264 positions at home."};
  for (int checkers = 1; checkers <= checkers_per_side; ++checkers) {
    std::vector<std::string> row{fmt::format("{}", checkers)};
    for (std::size_t point = 1; point <= 3; ++point) {
      Camp camp{};
      camp[point] = static_cast<std::uint8_t>(checkers);
      camp[off_place] = static_cast<std::uint8_t>(checkers_per_side - checkers);
      const auto side = race_side(camp);
      row.push_back(side ? fmt::format("{:.3f}", side->mean_rolls) : "");
      row.push_back(side ? fmt::format("{:.2f}", side->wastage) : "");
    }
    card.rows.push_back(std::move(row));
  }
  return card;
}

Card match_chances() {
  constexpr int shown = 15;
  const chance::MatchModel model;
  Card card{.name = "match",
            .title = "Chances to win the match, per cent",
            .columns = {"needs"},
            .rows = {},
            .note = fmt::format("Row: points that you need; column: points that the other side "
                                "needs; where one needs 1 it is the Crawford game, and the last "
                                "row is for a side against one that needs 1 after it. Modelled: "
                                "{:.0f}% gammons, {:.0f}% backgammons, cube life {:.2f}; "
                                "docs/match-table.md compares it with a published table.",
                                100 * model.gammons, 100 * model.backgammons, model.cube_life)};
  const auto& table = chance::standard_match_table();
  for (int theirs = 1; theirs <= shown; ++theirs) {
    card.columns.push_back(fmt::format("{}", theirs));
  }
  for (int mine = 1; mine <= shown; ++mine) {
    std::vector<std::string> row{fmt::format("{}", mine)};
    for (int theirs = 1; theirs <= shown; ++theirs) {
      row.push_back(fmt::format("{:.0f}", rounded(100 * table.chance(mine, theirs), 0)));
    }
    card.rows.push_back(std::move(row));
  }
  std::vector<std::string> after{"after"};
  for (int mine = 1; mine <= shown; ++mine) {
    after.push_back(fmt::format("{:.0f}", rounded(100 * table.after_crawford(mine), 0)));
  }
  card.rows.push_back(std::move(after));
  return card;
}

Card thumb_rules() {
  constexpr std::size_t step = 5;
  const RacePopulation population{"races of up to six checkers a side", 3, 6, 10, 36};
  Card card{.name = "rules",
            .title = "Rules of thumb for the cube in a race, judged",
            .columns = {"rule", "right", "misses a double", "doubles too early", "wrong take",
                        "wrong drop", "mean cost", "largest cost"},
            .rows = {},
            .note = ""};
  std::size_t races = 0;
  for (const RuleOfThumb& rule : rules_of_thumb()) {
    const RuleScore score = score_rule(rule, population, small_races(), false, step);
    races = score.races;
    const auto share = [&](std::size_t part) {
      return percent(static_cast<double>(part) / static_cast<double>(score.races), 1);
    };
    card.rows.push_back({std::string{rule.name}, share(score.right), share(score.wrong_hold),
                         share(score.wrong_offer), share(score.wrong_take), share(score.wrong_drop),
                         fmt::format("{:.4f}", score.cost),
                         fmt::format("{:.2f}", score.largest_cost)});
  }
  card.note = fmt::format(
      "Cube in the middle, for money. Judged by exact equities on every {}th race in which each "
      "side has {} to {} checkers at home and {} to {} pips, and the side on roll wins at least "
      "{:.0f}%: {} races. Costs are in units of the cube. Most of these rules were made for longer "
      "races; the card says how they do in the last rolls.",
      step, population.fewest, population.most, population.fewest_pips, population.most_pips,
      100 * least_chance, with_commas(static_cast<long long>(races)));
  return card;
}

constexpr std::array<CardMaker, 6> makers{{
    {"shots", "rolls that hit a blot so many pips away", shots},
    {"entering", "rolls that come in against so many closed points", entering},
    {"last-two", "rolls that bear off the last two checkers", last_two},
    {"stacked", "mean rolls and wastage of stacked endings", stacked},
    {"match", "chances to win the match at every score to 15 points", match_chances},
    {"rules", "how often the rules of thumb for races are right", thumb_rules},
}};

}  // namespace

std::span<const CardMaker> card_makers() {
  return makers;
}

}  // namespace pointwright::app
