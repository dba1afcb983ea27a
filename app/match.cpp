#include "app/match.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <vector>

#include "app/batch.hpp"
#include "app/files.hpp"
#include "app/numbers.hpp"
#include "app/offer_meaning.hpp"
#include "app/options.hpp"
#include "app/score_meaning.hpp"
#include "app/verbs.hpp"
#include "rules/score.hpp"
#include "rules/text.hpp"

namespace pointwright::app {
namespace {

struct MatchOptions : PositionOptions {
  std::optional<std::string> score;
  bool crawford = false;
  std::optional<std::string> cube;
  std::optional<std::string> holder;
  std::vector<std::string> after;
  std::optional<std::string> table;
  std::optional<std::string> gammons;
  bool jacoby = false;
  bool csv = false;
};

/// A table file is a few thousand bytes.
constexpr std::size_t longest_table_file = 1U << 20U;

const Guide guide{
    .name = "match",
    .summary = "Say what the score of a match means, and keep it.",
    .text =
        "For a score, prints what each side needs, its chance to win the match, whether the "
        "Crawford game is still to come, and what a double would mean: the take point with the sum "
        "written out as on a blackboard, the point from which a last double gains, and what a "
        "gammon is worth. Give the length and the score, light's points first, or a position line "
        "with a match part.\n\n"
        "The chances come from a table that the program computes from a model; docs/match-table.md "
        "gives the model and compares the table with a published one. They are no law of nature: "
        "`known` says \"modelled\". --table reads another table from a CSV file, and --csv prints "
        "the one in use. Take points are sums on that table. The live take "
        "point supposes that the taker can use the cube to the full; the truth lies between the "
        "two.\n\n"
        "--gammons counts gammons: 25-10 says that 25 of a hundred games won by light are gammons "
        "and 10 of dark's, backgammons among them. Take points, doubling points and their sums "
        "then contain them. `match money` answers about a game for points, at any cube: take "
        "points, doubling windows and from where a side is too good to double, for a dead cube, "
        "a live one and the usual mixture of both; --jacoby adds the Jacoby rule.\n\n"
        "--after SIDE POINTS adds the points of a finished game and answers about the new score, "
        "with the Crawford game in its place.\n\n"
        "With --batch, each line of standard input is a position line with a match part, and each "
        "line of the answer is {\"match\", \"cube\", \"needs\", \"game\", \"chances\", "
        "\"gammon_values\", \"offers\", \"gammons_counted\", \"known\", \"table\"}; a line that "
        "cannot be read is "
        "answered with {\"error\": …, \"input\": …} in its place.",
    .examples = {
        {.command = "pointwright match 7 3-5", .shows = "What 3-5 in a match to 7 means:"},
        {.command = "pointwright match 5 4-2 --crawford", .shows = "The Crawford game:"},
        {.command = "pointwright match 9 2-4 --cube 2 --holder dark",
         .shows = "With the cube turned:"},
        {.command = "pointwright match 7 3-5 --gammons 25-10",
         .shows = "The same, where a quarter of light's wins and a tenth of dark's are gammons:"},
        {.command = "pointwright match money --gammons 25-10 --jacoby", .shows = "For points:"},
        {.command = "pointwright match 7 3-5 --after light 2", .shows = "Light wins two points:"},
        {.command = "pointwright match --csv > table.csv",
         .shows = "The whole table, for a spreadsheet:"}}};

/// The failure of a table file, shown at its line.
Failure table_failure(const std::string& path, std::string_view csv, const Faults& faults) {
  Failure result{.origin = path};
  const Fault& first = faults.front();
  const std::size_t at = std::min(first.where.begin, csv.size());
  const std::size_t begin = at == 0 ? 0 : csv.rfind('\n', at - 1) + 1;  // npos + 1 is 0
  const std::size_t end = std::min(csv.find('\n', begin), csv.size());
  result.text = std::string{csv.substr(begin, end - begin)};
  result.line = 1 + static_cast<std::size_t>(std::count(
                        csv.begin(), csv.begin() + static_cast<std::ptrdiff_t>(begin), '\n'));
  result.faults = {first};
  result.faults.front().where = {.begin = at - begin,
                                 .end = std::max(at, std::min(first.where.end, end)) - begin};
  return result;
}

Result<GivenTable, Failure> table_in_use(const MatchOptions& options) {
  if (!options.table) return GivenTable{.table = chance::standard_match_table()};
  const auto csv = read_file(*options.table, longest_table_file);
  if (!csv.ok()) return csv.error();
  const auto table = chance::MatchTable::read_csv(*csv);
  if (!table.ok()) return table_failure(*options.table, *csv, table.error());
  return GivenTable{.table = *table, .file = *options.table};
}

bool is_number(std::string_view word) {
  return !word.empty() && word.find_first_not_of("0123456789") == std::string_view::npos;
}

/// Why a score cannot be answered about, with `end` the place in the text where a match part goes.
std::optional<Fault> beyond(const Position& position, const chance::MatchTable& table,
                            std::size_t end) {
  if (!position.match) {
    return Fault{.id = "no-match",
                 .where = {.begin = end, .end = end},
                 .reason = "the position belongs to no match",
                 .fix =
                     "add `; match to 7 score 3-5`, light's points first; about a game for "
                     "points ask `pointwright match money`"};
  }
  const int most =
      position.match->length - std::min(position.match->points[0], position.match->points[1]);
  if (most <= table.size()) return std::nullopt;
  return Fault{
      .id = "beyond-the-table",
      .where = {.begin = 0, .end = end},
      .reason = fmt::format("a side needs {} points, and the table goes to {}", most, table.size()),
      .fix =
          "ask about a score nearer to the end of the match, or give a larger table "
          "(up to 25 points) with --table"};
}

constexpr std::string_view money_word = "money";

/// The part of a position line that says where the cube is; empty if no option does.
std::string cube_part(const MatchOptions& options) {
  if (!options.cube && !options.holder) return {};
  return fmt::format("; cube {} {}", options.cube.value_or("1"),
                     options.holder ? "with " + *options.holder : "centred");
}

Result<GivenLine, Failure> line_of(const MatchOptions& options, Io& io) {
  if (!is_number(*options.position)) {
    if (options.score || options.crawford || options.cube || options.holder) {
      return failure("too-many-arguments",
                     "a position line says the score, the cube and the Crawford game itself",
                     "write them into the line, such as `; cube 2 with dark; match to 7 score 3-5 "
                     "crawford`, or give the length alone");
    }
    return fetch_line(*options.position, io);
  }
  if (!options.score) {
    return failure("missing-score",
                   fmt::format("the score of the match to {} is missing", *options.position),
                   fmt::format("write light's points, a hyphen and dark's: `pointwright match {} "
                               "0-0`",
                               *options.position));
  }
  // The reader of position lines checks the cube, the score and the Crawford game.
  const std::string line =
      fmt::format("start{}; match to {} score {}{}", cube_part(options), *options.position,
                  *options.score, options.crawford ? " crawford" : "");
  return GivenLine{.text = line, .origin = "argument"};
}

/// The winner and the points of --after.
struct Won {
  Side side = Side::light;
  std::uint64_t points = 1;
};

Result<Won, Failure> read_won(const std::vector<std::string>& words) {
  Won won;
  if (words[0] != name(Side::light) && words[0] != name(Side::dark)) {
    return failure("no-such-side", fmt::format("--after names no side: `{}`", words[0]),
                   "write light or dark, then the points: --after light 2");
  }
  won.side = words[0] == name(Side::light) ? Side::light : Side::dark;
  const auto points = text::number(words[1], largest_cube);
  if (!points || *points == 0) {
    return failure("no-such-points", fmt::format("`{}` is not a number of points", words[1]),
                   "write the points that the game was worth, 1 or more: --after light 2");
  }
  won.points = *points;
  return won;
}

/// Answers about a game for points.
int answer_money(const MatchOptions& options, const Rates& rates, Io& io) {
  if (options.score || options.crawford || options.table || !options.after.empty()) {
    return complain(failure("too-many-arguments", "a game for points has no score",
                            "leave out the score, --crawford, --table and --after, or give the "
                            "length of a match: `pointwright match 7 3-5`"),
                    options.json, io);
  }
  const GivenLine line{
      .text = fmt::format("start{}{}", cube_part(options), options.jacoby ? "; house jacoby" : ""),
      .origin = "argument"};
  const auto position = read_position_of(line);
  if (!position.ok()) return complain(position.error(), options.json, io);
  if (options.json) {
    io.out << to_line(money_object(*position, rates)) << '\n';
  } else {
    io.out << money_text(*position, rates, io);
  }
  return exit_fine;
}

Json after_object(const MatchScore& before, const MatchScore& now, const Won& won) {
  return {{"winner", name(won.side)},
          {"points", won.points},
          {"sentence", explain(before, won.side, won.points)},
          {"score", {{"light", now.points[0]}, {"dark", now.points[1]}}},
          {"crawford", now.crawford},
          {"over", match_over(now)}};
}

int answer_after(Position position, const MatchOptions& options, const GivenTable& given,
                 const Rates& rates, Io& io) {
  const auto won = read_won(options.after);
  if (!won.ok()) return complain(won.error(), options.json, io);
  const MatchScore before = *position.match;
  position.match = after_game(before, won->side, won->points);
  position.cube = {};
  const bool over = match_over(*position.match);
  if (options.json) {
    Json result = over ? Json::object() : score_object(position, given, rates);
    result["after"] = after_object(before, *position.match, *won);
    io.out << to_line(result) << '\n';
    return exit_fine;
  }
  io.out << wrapped(explain(before, won->side, won->points), io.width);
  if (!over) io.out << '\n' << score_text(position, given, rates, io);
  return exit_fine;
}

int run_match(const MatchOptions& options, Io& io) {
  const auto given = table_in_use(options);
  if (!given.ok()) return complain(given.error(), options.json, io);
  if (options.csv) {
    io.out << given->table.to_csv();
    return exit_fine;
  }
  const auto rates = read_rates(options.gammons);
  if (!rates.ok()) return complain(rates.error(), options.json, io);
  if (options.batch) {
    if (options.position) return complain(*misuse(options), io);
    return answer_batch(io,
                        [&](std::string_view line) { return answer_match(line, *given, *rates); });
  }
  if (!options.position) {
    return complain(failure("missing-score", "there is no score to answer about",
                            "write the length and the score, light's points first: `pointwright "
                            "match 7 3-5`; or a position line with a match part"),
                    io);
  }
  if (*options.position == money_word) return answer_money(options, *rates, io);
  if (options.jacoby) {
    return complain(failure("jacoby-in-a-match", "the Jacoby rule is for games for points",
                            "leave out --jacoby, or ask about a game for points: `pointwright "
                            "match money --jacoby`"),
                    options.json, io);
  }
  const auto line = line_of(options, io);
  if (!line.ok()) return complain(line.error(), options.json, io);
  const auto position = read_position_of(*line);
  if (!position.ok()) return complain(position.error(), options.json, io);
  if (const auto why = beyond(*position, given->table, line->text.size())) {
    return complain(
        {.text = line->text, .origin = line->origin, .line = line->line, .faults = {*why}},
        options.json, io);
  }
  if (!options.after.empty()) return answer_after(*position, options, *given, *rates, io);
  if (options.json) {
    io.out << to_line(score_object(*position, *given, *rates)) << '\n';
  } else {
    io.out << score_text(*position, *given, *rates, io);
  }
  return exit_fine;
}

}  // namespace

Result<Json, Failure> answer_match(std::string_view line, const GivenTable& given,
                                   const Rates& rates) {
  const auto position = read_position_of({.text = std::string{line}, .origin = "standard input"});
  if (!position.ok()) return position.error();
  if (auto why = beyond(*position, given.table, line.size())) {
    return Failure{
        .text = std::string{line}, .origin = "standard input", .faults = {std::move(*why)}};
  }
  return score_object(*position, given, rates);
}

void declare_match(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<MatchOptions>();
  OptionList& list = verb.options;
  list.argument("MATCH", options->position,
                "The length of the match, followed by the score; `money` for a game for points; or "
                "a position line with a match part, a file whose first line is one, or - for "
                "standard input.");
  list.argument("SCORE", options->score, "The score after the length, light's points first: 3-5.");
  list.flag("--crawford", options->crawford, "This is the Crawford game.");
  list.value("--cube", "VALUE", options->cube, "The value of the cube: 1, 2, 4 and so on.");
  list.choice("--holder", {"light", "dark"}, options->holder,
              "Who holds the cube; in the middle if it is not given.");
  list.pair("--after", "SIDE POINTS", options->after,
            "Add the points of a finished game, and answer about the new score.");
  list.value("--gammons", "L-D", options->gammons,
             "Count gammons: how many of 100 games won by light, and by dark, are gammons: 25-10.");
  list.flag("--jacoby", options->jacoby,
            "With `money`: gammons count only once the cube was turned.");
  list.value("--table", "FILE.csv", options->table,
             "Use this match table, in per cent, in place of the computed one.");
  list.flag("--csv", options->csv, "Print the match table and nothing else.");
  list.flag("--json", options->json, "Answer with one JSON object.");
  list.flag("--batch", options->batch,
            "Read a position line with a match part from each line of standard input and answer "
            "each with one JSON object on a line, in order.");
  verb.act = [options](Io& io) { return run_match(*options, io); };
}

}  // namespace pointwright::app
