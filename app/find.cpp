
#include "finder/find.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <memory>
#include <vector>

#include "app/batch.hpp"
#include "app/numbers.hpp"
#include "app/options.hpp"
#include "app/verbs.hpp"
#include "finder/games.hpp"
#include "finder/near.hpp"
#include "finder/proof.hpp"
#include "rules/notation.hpp"
#include "rules/text.hpp"

namespace pointwright::app {
namespace {

using finder::Found;
using finder::Neighbour;
using finder::Query;
using finder::Report;
using finder::Shown;
using finder::Wanted;

constexpr int most_results = 1000;
constexpr int most_apart = 30;

const Guide guide{
    .name = "find",
    .summary = "Find positions in which something is true, each with its proof.",
    .text =
        "Searches for positions, rolls included, that make a query true, and prints each as it is "
        "found: the position line and the proof. A query is made of statements in the words of the "
        "claims of lessons, joined with and, or, not and brackets: \"must play larger and bar\", "
        "\"illegal hit because both-dice\", \"chance hit at least 20/36 and blots dark 1\". "
        "docs/queries.md lists the statements. Quote brackets from the shell.\n\n"
        "By default sparse boards are built and thinned out until no checker can be taken off them "
        "without spoiling them. --sparse goes through all small positions, the smallest first, so "
        "that what it finds is proved to be as small as can be; if nothing is there, that is "
        "proved too. --natural looks through games that are played for the purpose, by simple "
        "habits; --moves adds the rolls and plays that lead to the position.\n\n"
        "--different says by how many checkers any two results have to differ. --roll fixes the "
        "roll. --seed begins elsewhere; the same command always finds the same. --block prints "
        "blocks ready for a lesson instead, which `pointwright check` proves.\n\n"
        "--near POSITION asks for the smallest change to a position that makes the query true: "
        "every change of one checker is tried, then every change of two. --untrue looks for the "
        "smallest change that makes it false.\n\n"
        "The last line says how the search ended: enough was found, no more exist, none exists "
        "(proved), or it stopped. The exit code is 0 if something was found and 1 if not.\n\n"
        "With --json each result is one object on a line, {\"position\", \"claims\", \"proof\", "
        "\"checkers\", \"smallest\": \"proved\" or \"unknown\", \"block\"}, and the last line is "
        "{\"end\", \"found\", \"looked_at\", \"sentence\"}. With --batch each line of standard "
        "input is a query, answered with {\"query\", \"results\": […], \"end\", …}.",
    .examples = {
        {.command = "pointwright find --count 2 must play larger",
         .shows = "Two positions in which the larger die must be played:"},
        {.command = "pointwright find --sparse --block larger-die and bearing off and bar dark",
         .shows = "The smallest with more besides, as a block:"},
        {.command = "pointwright find --near \"light barx1 6x5; dark 6x2 5x2 4x2; light to play "
                    "6-5\" can enter",
         .shows = "What would have to change so that light can come in:"}}};

struct FindOptions {
  std::vector<std::string> query;
  std::optional<std::string> count;
  std::optional<std::string> apart;
  std::optional<std::string> seed;
  std::optional<std::string> side;
  std::optional<std::string> roll;
  std::optional<std::string> near;
  bool untrue = false;
  bool sparse = false;
  bool natural = false;
  bool moves = false;
  bool block = false;
  bool json = false;
  bool batch = false;
};

/// The options as numbers and values.
struct Asked {
  finder::Options options;
  Side side = Side::light;
  std::optional<Roll> roll;
  int apart = 2;
};

std::optional<Roll> roll_of(std::string_view word) {
  if (word.size() != 3 || word[1] != '-') return std::nullopt;
  const int a = word[0] - '0';
  const int b = word[2] - '0';
  if (a < 1 || a > 6 || b < 1 || b > 6) return std::nullopt;
  return Roll(a, b);
}

Result<Asked, Failure> asked(const FindOptions& given) {
  Asked result;
  const auto count = number_of(given.count, "--count", 3, 1, most_results);
  if (!count.ok()) return count.error();
  const auto apart = number_of(given.apart, "--different", 2, 1, most_apart);
  if (!apart.ok()) return apart.error();
  const auto seed = number_of(given.seed, "--seed", result.options.seed, 0, 1'000'000'000'000);
  if (!seed.ok()) return seed.error();
  result.options.count = static_cast<int>(*count);
  result.options.seed = *seed;
  result.apart = static_cast<int>(*apart);
  if (given.side == "dark") result.side = Side::dark;
  if (given.roll) {
    result.roll = roll_of(*given.roll);
    if (!result.roll) {
      return failure("not-a-roll", fmt::format("`{}` is not a roll", harmless(*given.roll)),
                     "write two dice of 1 to 6, such as 6-4");
    }
  }
  if (given.sparse && given.natural) {
    return failure("cannot-be-both", "positions of games are not the sparsest",
                   "leave out --sparse or --natural");
  }
  if (given.untrue && !given.near) {
    return failure("untrue-alone", "--untrue looks for a change to a position",
                   "name the position with --near, or write not (…) around the query");
  }
  if (given.sparse) result.options.road = finder::Road::smallest;
  if (given.natural) result.options.road = finder::Road::games;
  return result;
}

std::string_view word_for(finder::End end) {
  switch (end) {
    case finder::End::enough:
      return "enough";
    case finder::End::all:
      return "all";
    case finder::End::none_exists:
      return "none-exists";
    case finder::End::none_that_small:
      return "none-that-small";
    case finder::End::stopped:
      break;
  }
  return "stopped";
}

Json result_object(const Found& found, const Shown& shown, std::string_view block) {
  const Board& board = found.finding.board;
  return {{"position", to_text(shown.position)},
          {"claims", shown.claims},
          {"proof", shown.sentences},
          {"checkers", finder::in_play(board, Side::light) + finder::in_play(board, Side::dark)},
          {"smallest", found.proved_smallest ? "proved" : "unknown"},
          {"block", block}};
}

void add_report(Json& json, const Report& report) {
  json["end"] = word_for(report.end);
  json["found"] = report.found;
  json["looked_at"] = report.looked_at;
  if (report.games > 0) json["games"] = report.games;
  json["sentence"] = finder::in_words(report);
}

/// The turns that lead to a position of a game, by the names that its sides have in the result:
/// the game is turned so that the wanted side plays last.
std::vector<std::string> moves_to(const Found& found, Side side) {
  const auto way = finder::way_to(found.game, found.turn + 1);
  std::vector<std::string> lines;
  const bool turned = !way.empty() && way.back().side != side;
  for (std::size_t i = 0; i + 1 < way.size(); ++i) {
    const Side who = turned ? opponent(way[i].side) : way[i].side;
    lines.push_back(
        fmt::format("{} {}: {}", name(who), to_text(way[i].roll), to_text(way[i].play)));
  }
  return lines;
}

/// Prints results as they come.
class Printer {
 public:
  Printer(const Query& query, const FindOptions& given, const Asked& asked, Io& io)
      : query_(query), given_(given), asked_(asked), io_(io) {}

  bool take(const Found& found) {
    const Shown shown = finder::show(query_, found.finding, asked_.side);
    ++number_;
    const std::string block =
        finder::as_blocks(shown, fmt::format("{}-{}", finder::name_for(query_), number_));
    if (given_.json) {
      Json json = result_object(found, shown, block);
      if (given_.moves && given_.natural) json["moves"] = moves_to(found, asked_.side);
      io_.out << to_line(json) << '\n';
    } else if (given_.block) {
      io_.out << (number_ > 1 ? "\n" : "") << block;
    } else {
      print(found, shown);
    }
    io_.out.flush();
    return io_.out.good();
  }

 private:
  void print(const Found& found, const Shown& shown) {
    io_.out << painted(Ink::strong, to_text(shown.position), io_.colour_out) << '\n';
    std::string proof = fmt::format("{}", fmt::join(shown.sentences, " "));
    if (found.proved_smallest) proof += " No position with fewer checkers in play does this.";
    io_.out << wrapped(proof, io_.width, 2);
    if (!given_.moves || !given_.natural) return;
    std::size_t turn = 0;
    for (const std::string& line : moves_to(found, asked_.side))
      io_.out << fmt::format("  {:>3}. {}\n", ++turn, line);
  }

  const Query& query_;
  const FindOptions& given_;
  const Asked& asked_;
  Io& io_;
  int number_ = 0;
};

std::string nudge_words(const finder::Nudge& nudge) {
  const std::string_view side = name(nudge.side);
  const auto place = [&](Place at) {
    return at == bar_place ? std::string("the bar") : fmt::format("its {}", to_text(at));
  };
  if (nudge.to == off_place)
    return fmt::format("take a {} checker from {}", side, place(nudge.from));
  if (nudge.from == off_place) return fmt::format("put a {} checker on {}", side, place(nudge.to));
  return fmt::format("move a {} checker from {} to {}", side, place(nudge.from), place(nudge.to));
}

std::string change_words(const Neighbour& neighbour) {
  std::vector<std::string> words;
  for (const finder::Nudge& nudge : neighbour.nudges) words.push_back(nudge_words(nudge));
  std::string text = fmt::format("{}", fmt::join(words, " and "));
  text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text + ".";
}

Json neighbour_object(const Neighbour& neighbour, const Position& position) {
  Json moves = Json::array();
  for (const finder::Nudge& nudge : neighbour.nudges) {
    moves.push_back(
        {{"side", name(nudge.side)}, {"from", to_text(nudge.from)}, {"to", to_text(nudge.to)}});
  }
  return {{"position", to_text(position)},
          {"change", change_words(neighbour)},
          {"checkers", std::move(moves)}};
}

int run_near(const Query& query, const FindOptions& given, Asked asked, Io& io) {
  const auto line = fetch_line(*given.near, io);
  if (!line.ok()) return complain(line.error(), given.json, io);
  const auto position = read_position_of(*line);
  if (!position.ok()) return complain(position.error(), given.json, io);
  if (position->turn) asked.side = *position->turn;
  if (!asked.roll) asked.roll = position->roll;
  const Wanted wanted{.query = query, .side = asked.side, .roll = asked.roll, .apart = asked.apart};
  const auto near = finder::neighbours(wanted, position->board, given.untrue);
  const std::string_view what = given.untrue ? "false" : "true";
  std::string sentence;
  if (near.true_already)
    sentence = fmt::format("It is {} as the position stands.", what);
  else if (near.checkers == 0)
    sentence = fmt::format("Proved: no change of one or two checkers makes it {}.", what);
  else
    sentence = fmt::format("{} of {} make it {}{}.",
                           text::counted(static_cast<int>(near.found.size()), "change"),
                           near.checkers == 1 ? "one checker" : "two checkers", what,
                           near.checkers == 2 ? "; no change of one does (proved)" : "");
  int shown = 0;
  for (const Neighbour& neighbour : near.found) {
    if (shown++ == asked.options.count) break;
    Position changed = *position;
    changed.board = neighbour.finding.board;
    changed.turn = asked.side;
    if (neighbour.finding.roll) changed.roll = neighbour.finding.roll;
    if (given.json) {
      io.out << to_line(neighbour_object(neighbour, changed)) << '\n';
      continue;
    }
    io.out << change_words(neighbour) << '\n'
           << "  " << painted(Ink::strong, to_text(changed), io.colour_out) << '\n';
    if (given.untrue) continue;
    const Shown proof = finder::show(query, neighbour.finding, asked.side);
    io.out << wrapped(fmt::format("{}", fmt::join(proof.sentences, " ")), io.width, 2);
  }
  if (given.json) {
    io.out << to_line({{"as_it_stands", near.true_already},
                       {"changes", near.found.size()},
                       {"looked_at", near.looked_at},
                       {"sentence", sentence}})
           << '\n';
  } else {
    io.out << sentence << '\n';
  }
  return near.true_already || near.checkers > 0 ? exit_fine : exit_no;
}

Result<Json, Failure> answer_find(std::string_view line, const Asked& asked) {
  const auto query = finder::read_query(line);
  if (!query.ok()) {
    return Failure{.text = std::string{line}, .origin = "standard input", .faults = query.error()};
  }
  const Wanted wanted{
      .query = *query, .side = asked.side, .roll = asked.roll, .apart = asked.apart};
  Json results = Json::array();
  const Report report = finder::find(wanted, asked.options, [&](const Found& found) {
    const Shown shown = finder::show(*query, found.finding, asked.side);
    const std::string name = fmt::format("{}-{}", finder::name_for(*query), results.size() + 1);
    results.push_back(result_object(found, shown, finder::as_blocks(shown, name)));
    return true;
  });
  Json answer{{"query", to_text(*query)}, {"results", std::move(results)}};
  add_report(answer, report);
  return answer;
}

int run_find(const FindOptions& given, Io& io) {
  const auto request = asked(given);
  if (!request.ok()) return complain(request.error(), given.json, io);
  if (given.batch) {
    return answer_batch(io, [&](std::string_view line) { return answer_find(line, *request); });
  }
  if (given.query.empty()) {
    return complain(failure("missing-query", "there is no query to answer",
                            "write what is to be true, such as: must play larger"),
                    given.json, io);
  }
  const std::string text = fmt::format("{}", fmt::join(given.query, " "));
  const auto query = finder::read_query(text);
  if (!query.ok())
    return complain({.text = text, .origin = "argument", .faults = query.error()}, given.json, io);
  if (given.near) return run_near(*query, given, *request, io);
  const Wanted wanted{
      .query = *query, .side = request->side, .roll = request->roll, .apart = request->apart};
  Printer printer(*query, given, *request, io);
  const Report report = finder::find(wanted, request->options,
                                     [&](const Found& found) { return printer.take(found); });
  if (given.json) {
    Json last;
    add_report(last, report);
    io.out << to_line(last) << '\n';
  } else if (given.block) {
    io.err << "note: " << finder::in_words(report) << '\n';
  } else {
    io.out << wrapped(fmt::format("{} {} positions with their rolls were covered.",
                                  finder::in_words(report), with_commas(report.looked_at)),
                      io.width);
  }
  return report.found > 0 ? exit_fine : exit_no;
}

}  // namespace

void declare_find(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<FindOptions>();
  OptionList& list = verb.options;
  list.arguments("QUERY", options->query, "What is to be true, in one argument or several.");
  list.value("-n,--count", "N", options->count, "How many results are wanted; 3 if left out.");
  list.value("--different", "N", options->apart,
             "By how many checkers any two results differ, at least; 2 if left out.");
  list.flag("--sparse", options->sparse,
            "Go through all small positions, the smallest first, with proof.");
  list.flag("--natural", options->natural, "Look for positions that come up in games.");
  list.flag("--moves", options->moves,
            "With --natural: the rolls and plays that lead to the position.");
  list.choice("--side", {"light", "dark"}, options->side, "Whose roll it is; light if left out.");
  list.value("--roll", "D-D", options->roll, "The only roll to be tried; any if left out.");
  list.value("--seed", "N", options->seed, "Where the search begins; 1 if left out.");
  list.value("--near", "POSITION", options->near,
             "Look for the smallest change to this position that makes the query true.");
  list.flag("--untrue", options->untrue, "With --near: a change that makes it false.");
  list.flag("--block", options->block, "Print blocks ready for a lesson.");
  list.flag("--json", options->json,
            "Print each result as an object on a line, and one at the end.");
  list.flag("--batch", options->batch,
            "Read a query from each line of standard input and answer each with one JSON object on "
            "a line, in order.");
  verb.act = [options](Io& io) { return run_find(*options, io); };
}

}  // namespace pointwright::app
