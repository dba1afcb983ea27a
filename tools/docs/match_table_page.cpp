#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "chance/match_table.hpp"
#include "tools/docs/pages.hpp"

namespace pointwright::docs {
namespace {

constexpr int size = 15;

/// Kit Woolsey, How to Play Tournament Backgammon, 1993: the chance, per cent, of the side that
/// needs the row's points against one that needs the column's.
constexpr std::array<std::array<int, size>, size> published{{
    {50, 70, 75, 83, 85, 90, 91, 94, 95, 97, 97, 98, 98, 99, 99},
    {30, 50, 60, 68, 75, 81, 85, 88, 91, 93, 94, 95, 96, 97, 98},
    {25, 40, 50, 59, 66, 71, 76, 80, 84, 87, 90, 92, 94, 95, 96},
    {17, 32, 41, 50, 58, 64, 70, 75, 79, 83, 86, 88, 90, 92, 93},
    {15, 25, 34, 42, 50, 57, 63, 68, 73, 77, 81, 84, 87, 89, 90},
    {10, 19, 29, 36, 43, 50, 56, 62, 67, 72, 76, 79, 82, 85, 87},
    {9, 15, 24, 30, 37, 44, 50, 56, 61, 66, 70, 74, 78, 81, 84},
    {6, 12, 20, 25, 32, 38, 44, 50, 55, 60, 65, 69, 73, 77, 80},
    {5, 9, 16, 21, 27, 33, 39, 45, 50, 55, 60, 64, 68, 72, 76},
    {3, 7, 13, 17, 23, 28, 34, 40, 45, 50, 55, 60, 64, 68, 71},
    {3, 6, 10, 14, 19, 24, 30, 35, 40, 45, 50, 55, 59, 63, 67},
    {2, 5, 8, 12, 16, 21, 26, 31, 36, 40, 45, 50, 54, 58, 62},
    {2, 4, 6, 10, 13, 18, 22, 27, 32, 36, 41, 46, 50, 54, 58},
    {1, 3, 5, 8, 11, 15, 19, 23, 28, 32, 37, 42, 46, 50, 54},
    {1, 2, 4, 7, 10, 13, 16, 20, 24, 29, 33, 38, 42, 46, 50},
}};

std::string number(double value, int decimals) {
  std::array<char, 32> text{};
  // Rounded first, so that a half never goes one way here and another there; no "-0.0".
  const double scale = std::pow(10.0, decimals);
  const double whole = std::round(value * scale);
  std::snprintf(text.data(), text.size(), "%.*f", decimals, whole == 0 ? 0.0 : whole / scale);
  return text.data();
}

double cell(const chance::MatchTable& table, int mine, int theirs) {
  return 100 * table.chance(mine, theirs);
}

int stated(int mine, int theirs) {
  return published[static_cast<std::size_t>(mine - 1)][static_cast<std::size_t>(theirs - 1)];
}

std::string header() {
  std::string line = "| needs |";
  std::string rule = "\n| --: |";
  for (int theirs = 1; theirs <= size; ++theirs) {
    line += " " + std::to_string(theirs) + " |";
    rule += " --: |";
  }
  return line + rule + "\n";
}

template <class Cell>
std::string grid(const Cell& text) {
  std::string table = header();
  for (int mine = 1; mine <= size; ++mine) {
    table += "| **" + std::to_string(mine) + "** |";
    for (int theirs = 1; theirs <= size; ++theirs) table += " " + text(mine, theirs) + " |";
    table += "\n";
  }
  return table;
}

}  // namespace

std::string match_table_page() {
  const chance::MatchModel model;
  const chance::MatchTable& table = chance::standard_match_table();
  double sum = 0;
  double largest = 0;
  int over_two = 0;
  int worst_mine = 1;
  int worst_theirs = 1;
  for (int mine = 1; mine <= size; ++mine) {
    for (int theirs = 1; theirs <= size; ++theirs) {
      const double apart = std::abs(cell(table, mine, theirs) - stated(mine, theirs));
      sum += apart;
      over_two += apart > 2 ? 1 : 0;
      if (apart <= largest) continue;
      largest = apart;
      worst_mine = mine;
      worst_theirs = theirs;
    }
  }
  std::string page =
      "# The match table: where it comes from, and how good it is\n\n"
      "<!-- Made from chance/match_table.cpp by pointwright_docs; change it there. -->\n\n"
      "Chances to win a match are **modelled**: computed from stated assumptions, and no law of "
      "nature.\n`pointwright match --csv` prints the whole table, to 25 points; `--table FILE.csv` "
      "puts another in\nits place.\n\n"
      "## The model\n\n"
      "- The table is filled by recursion over the score: the chance at a score is that of the "
      "scores to\n  which one game can lead. Games start level.\n"
      "- Of the games that are played to the end, " +
      number(100 * model.gammons, 0) + "% are gammons and " + number(100 * model.backgammons, 0) +
      "% backgammons.\n"
      "- A game is valued as a mixture: " +
      number(100 * model.cube_life, 0) +
      "% of one with a fully live cube, in which the chance to win\n  moves without jumps and "
      "every "
      "double comes at the other side's drop point, and the rest of one in\n  which nobody turns "
      "the cube. The live game is that of E. Keeler and J. Spencer, \"Optimal Doubling\n  in "
      "Backgammon\", *Operations Research* 23(6), 1975, applied to points of a match.\n"
      "- The Crawford game is played without a cube. After it the side behind doubles at once and "
      "is taken;\n  the leader's free drop is left out.\n\n"
      "The three numbers are those that bring the table nearest to the published one below, on "
      "average\nover its cells. So the comparison shows how well a model of three numbers can "
      "follow that "
      "table; it\nis no independent proof of either.\n\n"
      "## Beside a published table\n\n"
      "Source: Kit Woolsey, *How to Play Tournament Backgammon*, 1993: an empirical table, printed "
      "in whole\nper cent. Over its 225 cells the mean difference is " +
      number(sum / (size * size), 2) + " points and the largest " + number(largest, 1) +
      " (needing " + std::to_string(worst_mine) + "\nagainst " + std::to_string(worst_theirs) +
      "); " + (over_two == 0 ? "no cell differs" : std::to_string(over_two) + " cells differ") +
      " by more than two points. Half a point of any difference is\nthe rounding of "
      "the printed table, whose opposite cells do not always add up to 100.\n\n";
  if (over_two > 0) {
    page +=
        "Differences over two points, computed less published:\n\n| needs | against | computed | "
        "published | difference |\n| --: | --: | --: | --: | --: |\n";
    for (int mine = 1; mine <= size; ++mine) {
      for (int theirs = 1; theirs <= size; ++theirs) {
        const double here = cell(table, mine, theirs);
        if (std::abs(here - stated(mine, theirs)) <= 2) continue;
        page += "| " + std::to_string(mine) + " | " + std::to_string(theirs) + " | " +
                number(here, 1) + " | " + std::to_string(stated(mine, theirs)) + " | " +
                number(here - stated(mine, theirs), 1) + " |\n";
      }
    }
    page +=
        "\nA likely reason, which has not been measured: the model has one gammon rate and one "
        "cube life "
        "for\nall scores, while at a table the side behind plays for gammons and the leader "
        "against "
        "them.\n\n";
  }
  page +=
      "## Computed, per cent\n\nRow: points that the side needs; column: points that the other "
      "side needs. Where either needs one\npoint, the next game is the Crawford game.\n\n" +
      grid([&](int mine, int theirs) { return number(cell(table, mine, theirs), 1); }) +
      "\n## Computed less published\n\n" + grid([&](int mine, int theirs) {
        return number(cell(table, mine, theirs) - stated(mine, theirs), 1);
      }) +
      "\n## After the Crawford game\n\nThe side that needs so many points, against one that "
      "needs 1:\n\n| needs | chance |\n| --: | --: |\n";
  for (int mine = 1; mine <= size; ++mine) {
    page +=
        "| " + std::to_string(mine) + " | " + number(100 * table.after_crawford(mine), 1) + " |\n";
  }
  return page;
}

}  // namespace pointwright::docs
