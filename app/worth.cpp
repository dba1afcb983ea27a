#include "app/worth.hpp"

#include <fmt/format.h>

#include <memory>

#include "app/batch.hpp"
#include "app/judging.hpp"
#include "app/numbers.hpp"
#include "app/options.hpp"
#include "app/position_rollout.hpp"
#include "app/verbs.hpp"
#include "judge/position_valuation.hpp"
#include "rules/score.hpp"
#include "rules/text.hpp"

namespace pointwright::app {
namespace {

struct WorthOptions : PositionOptions, RolloutOptions {
  std::optional<std::string> depth;
};

const Guide guide{
    .name = "worth",
    .summary = "Say what a position is worth to the side to roll, and how that is known.",
    .text =
        "For the side to roll, before it rolls: how often it wins, wins a gammon or a backgammon, "
        "and loses them, if the game is played on without the cube; and the equity that they make. "
        "In a match the equity is the chance of winning the match, scaled so that a single win is "
        "+1 and a single loss -1.\n\n"
        "The rules and exact tables answer where they can. Else the numbers are estimates by nets "
        "that learned from nothing but the rules (docs/training.md), looked at as many rolls ahead "
        "as --depth says.\n\n"
        "--rollout plays the position on so many times, rounded up to a multiple of 36, with the "
        "luck of the dice taken out, and states standard errors. The same seed gives the same "
        "numbers on any number of threads. --resume keeps the state in a file: it goes on from "
        "there if the file is there, and an interrupt (Ctrl-C) leaves it whole. --part K/N does "
        "one of N parts of the trials, on this machine or another; --merge puts the files of parts "
        "together, and the result is that of the whole to the last digit.\n\n"
        "With --batch, each line of standard input is a position line and each line of the answer "
        "is what --json gives, of a rollout too; a line that cannot be answered gets {\"error\": "
        "…, \"input\": …} in "
        "its place.",
    .examples = {
        {.command = "pointwright worth \"start; light to roll\"",
         .shows = "Before the first roll of a game (not an opening roll: doubles count):"},
        {.command = "pointwright worth \"light 5x1 2x1; dark 4x1 1x1; light to roll\"",
         .shows = "A race that a table knows:"},
        {.command = "pointwright worth \"start; light to roll\" --rollout 72 --rolls 5 --threads 1",
         .shows = "Played on five rolls far, 72 times:"}}};

Worth searched(judge::Search& search, const Position& position, int depth) {
  const auto valuation = judge::valuation_of(position, *position.turn);
  return {.position = position,
          .valuation = *valuation,
          .value = search.worth(position.board, *position.turn, depth, *valuation)};
}

Json chances_object(const judge::Chances& chances) {
  const auto number = [](float chance) { return rounded(static_cast<double>(chance), 4); };
  return {{"win", number(chances.win)},
          {"win_gammon", number(chances.win_gammon)},
          {"win_backgammon", number(chances.win_backgammon)},
          {"lose_gammon", number(chances.lose_gammon)},
          {"lose_backgammon", number(chances.lose_backgammon)}};
}

std::string_view known_word(const Worth& worth) {
  return worth.sampled ? known_sampled : app::known_word(worth.value.origin);
}

std::string known_words(const Worth& worth) {
  if (worth.sampled)
    return fmt::format("sampled: {} trials, standard error of the equity {:.4f}, of the wins {}",
                       with_commas(static_cast<long long>(worth.sampled->trials)),
                       worth.sampled->error(0),
                       percent(worth.sampled->starts[0].chances[0].error(worth.sampled->trials)));
  const std::string_view word = known_word(worth);
  if (word == known_exact) return "exact: from a table of both sides";
  if (word == known_combined)
    return "combined: from the exact table of each side, as if it played alone";
  if (worth.value.depth == 0) return "searched: estimated by the nets at once";
  return fmt::format("searched: estimated by the nets, {} {} ahead", worth.value.depth,
                     worth.value.depth == 1 ? "roll" : "rolls");
}

/// The chance of winning the match, which the equity stands for.
double match_chance(const Worth& worth) {
  const chance::Needs needs = chance::needs(*worth.position.match, *worth.position.turn);
  const chance::GameEnds ends =
      chance::game_ends(chance::standard_match_table(), needs, worth.position.cube.value);
  return ends.lose + (static_cast<double>(worth.value.equity) + 1) / 2 * (ends.win - ends.lose);
}

std::optional<Failure> misused(const WorthOptions& options) {
  if (const auto wrong = misuse(static_cast<const PositionOptions&>(options))) return wrong;
  if (options.batch) {
    if (const auto wrong = misuse_in_batch(options)) return wrong;
  }
  if (options.rollout && options.depth)
    return failure("misused-option", "--depth and --rollout are two ways of knowing",
                   "give one of them");
  return misuse(static_cast<const RolloutOptions&>(options));
}

void print_worth(const Worth& worth, Io& io) {
  const judge::Chances& chances = worth.value.chances;
  const auto row = [&](std::string_view what, float chance) {
    io.out << fmt::format("  {:<18}{:>8}\n", what, percent(static_cast<double>(chance), 1));
  };
  io.out << painted(Ink::strong,
                    fmt::format("{} to roll: {}{}", name(*worth.position.turn),
                                equity(static_cast<double>(worth.value.equity)),
                                worth.position.match ? " on the scale of a single win" : " points"),
                    io.colour_out)
         << '\n';
  row("wins", chances.win);
  row("wins a gammon", chances.win_gammon);
  row("  a backgammon", chances.win_backgammon);
  row("loses a gammon", chances.lose_gammon);
  row("  a backgammon", chances.lose_backgammon);
  if (worth.position.match)
    io.out << fmt::format("  {:<18}{:>8}\n", "wins the match", percent(match_chance(worth), 1));
  io.out << wrapped(known_words(worth) + ".", io.width, 2);
}

Worth sampled(const Position& position, const judge::Tally& tally) {
  Worth worth{.position = position,
              .valuation = *judge::valuation_of(position, *position.turn),
              .value = {}};
  worth.value.chances = tally.chances(0);
  worth.value.equity = static_cast<float>(tally.equity(0));
  worth.sampled = tally;
  return worth;
}

/// `part` says which of several parts of a rollout it is, if it is one.
void print(const Worth& worth, bool json, Io& io, std::string_view part = {}) {
  if (!json) {
    print_worth(worth, io);
    if (!part.empty()) io.out << fmt::format("  part {}\n", part);
    return;
  }
  Json result = worth_object(worth);
  if (!part.empty()) result["part"] = part;
  io.out << to_line(result) << '\n';
}

/// A line of a batch, read and fit to be judged.
Result<Position, Failure> position_of(std::string_view line) {
  const GivenLine given{.text = std::string{line}, .origin = "standard input"};
  const auto position = read_position_with_turn(given);
  if (!position.ok()) return position.error();
  if (const auto wrong = unfit(*position, given)) return *wrong;
  return *position;
}

Result<Json, Failure> answer_rolled(const RolloutOptions& options, std::string_view line) {
  const auto position = position_of(line);
  if (!position.ok()) return position.error();
  const auto tally = rolled_out(options, job_of(*position));
  if (!tally.ok()) return tally.error();
  return worth_object(sampled(*position, *tally));
}

int run_worth(const WorthOptions& options, Io& io) {
  if (const auto wrong = misused(options)) return complain(*wrong, options.json, io);
  // The parser of options lets nothing else through than 0, 1 and 2.
  const int depth = options.depth ? options.depth->front() - '0' : 1;
  const auto threads = threads_of(options.threads);
  if (!threads.ok()) return complain(threads.error(), options.json, io);
  const auto search = make_search(depth, *threads);
  if (options.batch) {
    return answer_batch(io, [&](std::string_view line) -> Result<Json, Failure> {
      if (!options.rollout) return answer_worth(*search, line, depth);
      return answer_rolled(options, line);
    });
  }
  const auto question = ask_with_turn(options, io);
  if (!question.ok()) return complain(question.error(), options.json, io);
  const Position& position = question->position;
  if (const auto wrong = unfit(position, question->given))
    return complain(*wrong, options.json, io);
  if (options.rollout) {
    return roll_out(options, job_of(position), options.json, io,
                    [&](const judge::Tally& tally, std::string_view part) {
                      print(sampled(position, tally), options.json, io, part);
                    });
  }
  print(searched(*search, position, depth), options.json, io);
  return exit_fine;
}

}  // namespace

Json worth_object(const Worth& worth) {
  Position asked = worth.position;
  asked.roll.reset();
  Json result{{"position", to_text(asked)},
              {"on_roll", name(*worth.position.turn)},
              {"equity", rounded(static_cast<double>(worth.value.equity), 4)},
              {"chances", chances_object(worth.value.chances)},
              {"known", known_word(worth)}};
  if (worth.position.match) result["match_chance"] = rounded(match_chance(worth), 4);
  if (worth.sampled) {
    const judge::Tally& tally = *worth.sampled;
    result["trials"] = tally.trials;
    result["error"] = rounded(tally.error(0), 5);
    result["win_error"] = rounded(tally.starts[0].chances[0].error(tally.trials), 5);
  } else {
    result["depth"] = worth.value.depth;
  }
  return result;
}

Result<Json, Failure> answer_worth(judge::Search& search, std::string_view line, int depth) {
  const auto position = position_of(line);
  if (!position.ok()) return position.error();
  return worth_object(searched(search, *position, depth));
}

void declare_worth(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<WorthOptions>();
  OptionList& list = verb.options;
  add_position_options(list, *options, "a position line");
  list.choice("--depth", {"0", "1", "2"}, options->depth,
              "How many rolls to look ahead; 1 if not given.");
  add_rollout_options(list, *options);
  verb.act = [options](Io& io) { return run_worth(*options, io); };
}

}  // namespace pointwright::app
