// Judges the rules of thumb for racing cubes and writes docs/rules-of-thumb.md.
//   build/release/tools/rules_of_thumb/pointwright_rules_of_thumb FILE [TABLE]
// TABLE is a two-sided table of ten checkers (table_store/table_store.hpp); where it is missing or
// damaged it is built there first. Without it only the short races are judged.

#include <fmt/format.h>

#include <cstdio>
#include <string>
#include <thread>

#include "chance/rules_of_thumb.hpp"
#include "table_store/parallel_host.hpp"
#include "table_store/table_store.hpp"

namespace pointwright {
namespace {

template <class Real>
std::string judged(const RacePopulation& population, const TwoSidedTable<Real>& table,
                   std::size_t step) {
  std::string text = fmt::format("\n## {}\n", population.name);
  for (const bool owned : {false, true}) {
    std::string rows;
    std::size_t races = 0;
    for (const RuleOfThumb& rule : rules_of_thumb()) {
      const RuleScore s = score_rule(rule, population, table, owned, step);
      races = s.races;
      const auto share = [&](std::size_t count) {
        return 100.0 * static_cast<double>(count) / static_cast<double>(s.races);
      };
      rows += fmt::format("| {} | {:.1f} | {:.1f} | {:.1f} | {:.1f} | {:.1f} | {:.4f} | {:.2f} |\n",
                          rule.name, share(s.right), share(s.wrong_hold), share(s.wrong_offer),
                          share(s.wrong_take), share(s.wrong_drop), s.cost, s.largest_cost);
    }
    text += fmt::format(
        "\n### The cube {}\n\n{} races.\n\n"
        "| rule | right % | held wrongly % | offered wrongly % | taken wrongly % | dropped wrongly "
        "% | mean cost | largest cost |\n|---|--:|--:|--:|--:|--:|--:|--:|\n",
        owned ? "on the side on roll" : "in the middle", races);
    text += rows;
  }
  return text;
}

std::string introduction() {
  std::string text =
      "# Rules of thumb for the cube in a race, judged\n\n"
      "This page is made by a program; do not edit it. To make it again:\n\n"
      "    cmake --build --preset release --target pointwright_rules_of_thumb\n"
      "    build/release/tools/rules_of_thumb/pointwright_rules_of_thumb docs/rules-of-thumb.md "
      "races-10.table\n\n"
      "Each rule is compared with the exact answer of the two-sided tables: best play and best "
      "use of the cube by both sides, for money, no gammons. A *race* here is a pair of home-board "
      "positions with one side on roll. Pairs are taken evenly, not as often as they come up in "
      "play. Only races in which the side on roll wins at least 60 per cent of the time are "
      "counted: "
      "in the others nobody would think of doubling, and every rule is right.\n\n"
      "*Right* means that nothing is lost: both the side on roll and the side that is offered the "
      "cube do what is best, or something just as good. *Mean cost* is the equity lost a race, in "
      "units of the cube, by both sides together if both follow the rule; *largest cost* the worst "
      "single race. The exact values are known to 0.000002.\n\n## The rules\n\n";
  for (const RuleOfThumb& rule : rules_of_thumb()) {
    text += fmt::format("- **{}.** {} Source: {}.\n", rule.name, rule.statement, rule.source);
  }
  return text;
}

int write_page(const char* path, const char* table_path) {
  std::string text = introduction();
  text += judged({"Short races: one to six checkers a side, all of them", 1, 6, 1, 36},
                 small_races(), 1);
  text +=
      judged({"Short races of four to six checkers and 15 pips or more, all of them", 4, 6, 15, 36},
             small_races(), 1);
  if (table_path != nullptr) {
    auto stored = StoredTwoSided::open(table_path, 10);
    if (!stored) {
      fmt::print(stderr, "{}; building it\n", stored.error().reason);
      const std::string problem =
          build_two_sided(table_path, 10, parallel_host(std::thread::hardware_concurrency()));
      if (problem.empty()) stored = StoredTwoSided::open(table_path, 10);
      if (!stored) {
        fmt::print(stderr, "{}\n", problem.empty() ? stored.error().reason : problem);
        return 2;
      }
    }
    text += judged({"Longer races: seven to ten checkers a side, 25 to 60 pips, every 101st pair",
                    7, 10, 25, 60},
                   stored->table(), 101);
  }
  std::FILE* out = std::fopen(path, "wb");
  if (out == nullptr || std::fwrite(text.data(), 1, text.size(), out) != text.size() ||
      std::fclose(out) != 0) {
    fmt::print(stderr, "cannot write {}\n", path);
    return 2;
  }
  return 0;
}

}  // namespace
}  // namespace pointwright

int main(int argc, char** argv) {
  if (argc != 2 && argc != 3) {
    fmt::print(stderr, "usage: pointwright_rules_of_thumb FILE [TABLE]\n");
    return 2;
  }
  return pointwright::write_page(argv[1], argc == 3 ? argv[2] : nullptr);
}
