// finder: how long it takes to answer each query of tests/finder/queries.txt, as `pointwright find`
// would with --count 3: to the first position and to the end, in processor time of one core. Prints
// the table of docs/finder.md, and fails if a query is not answered as it has to be.

#include <fmt/format.h>

#include <fstream>
#include <string>
#include <vector>

#include "bench/timing.hpp"
#include "finder/find.hpp"
#include "finder/proof.hpp"

namespace {

using namespace pointwright;
using finder::End;

double milliseconds_now() {
  return 1e3 * bench::processor_seconds();
}

struct Line {
  bool some = true;
  std::string query;
};

std::vector<Line> lines_of(const std::string& path) {
  std::vector<Line> lines;
  std::ifstream file(path);
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    const std::size_t cut = line.find(" | ");
    lines.push_back({line.substr(0, cut) == "some", line.substr(cut + 3)});
  }
  return lines;
}

std::string answer_of(const finder::Report& report) {
  switch (report.end) {
    case End::none_exists:
      return "none, proved";
    case End::none_that_small:
      return fmt::format("none up to {} checkers, proved", report.proved_below - 1);
    case End::all:
      return fmt::format("{}, and no more", report.found);
    case End::enough:
    case End::stopped:
      break;
  }
  return fmt::format("{} found", report.found);
}

}  // namespace

int main(int count, char** arguments) {
  const std::string path = count > 1 ? arguments[1] : "tests/finder/queries.txt";
  const std::vector<Line> lines = lines_of(path);
  int wrong = lines.empty() ? 1 : 0;
  int slow = 0;
  int late = 0;
  fmt::print(
      "| query | first | all | looked at | answer | for instance |\n"
      "| --- | ---: | ---: | ---: | --- | --- |\n");
  for (const Line& line : lines) {
    const auto query = finder::read_query(line.query);
    if (!query.ok()) {
      fmt::print(stderr, "{}: {}\n", line.query, query.error().front().reason);
      return 1;
    }
    const finder::Wanted wanted{
        .query = *query, .side = Side::light, .roll = std::nullopt, .apart = 2};
    finder::Options options;
    const double started = milliseconds_now();
    double first = 0;
    std::string example;
    const finder::Report report = finder::find(wanted, options, [&](const finder::Found& found) {
      if (example.empty()) {
        first = milliseconds_now() - started;
        example = "`" + to_text(finder::show(*query, found.finding, wanted.side).position) + "`";
      }
      return true;
    });
    const double all = milliseconds_now() - started;
    const bool right =
        (report.found > 0) == line.some &&
        (line.some || report.end == End::none_exists || report.end == End::none_that_small);
    if (!right) ++wrong;
    if (all > 2000) ++slow;
    if (line.some && first > 100) ++late;
    fmt::print("| `{}` | {} | {:.0f} ms | {} | {}{} | {} |\n", line.query,
               report.found > 0 ? fmt::format("{:.0f} ms", first) : "", all, report.looked_at,
               answer_of(report), right ? "" : " (WRONG)", example);
  }
  fmt::print(
      "\n{} queries; {} took longer than 2 s; the first result of {} came after more than "
      "100 ms; {} were answered wrongly.\n",
      lines.size(), slow, late, wrong);
  return wrong == 0 ? 0 : 1;
}
