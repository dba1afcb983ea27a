#include "app/cube.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>

#include "app/batch.hpp"
#include "app/contact_ending.hpp"
#include "app/cube_rollout.hpp"
#include "app/judging.hpp"
#include "app/numbers.hpp"
#include "app/offer_meaning.hpp"
#include "app/options.hpp"
#include "app/verbs.hpp"
#include "rules/cube.hpp"
#include "rules/score.hpp"

namespace pointwright::app {
namespace {

struct CubeOptions : PositionOptions, RolloutOptions {
  std::optional<std::string> tables;
  std::optional<std::string> depth;
  std::optional<std::string> gammons;
  bool exact = false;
};

const Guide guide{
    .name = "cube",
    .summary = "Say whether to double and whether to take, exactly where that is known.",
    .text =
        "For the side to roll: what holding the cube is worth, what doubling is worth if the other "
        "side takes and if it drops, and so what both should do. Equities are for money, in units "
        "of the cube as it stands, and belong to the side to roll; both sides play and use the "
        "cube as well as can be, redoubling without limit.\n\n"
        "Exact answers exist for races in which both sides are home with at "
        "most six checkers (ten, if `pointwright tables build` has made that table), and for the "
        "endgame with contact in which each side has at most three checkers left (`pointwright "
        "tables build --three-checker`). In these no gammon can happen, so that no position is too "
        "good to double. For any other position the answer is modelled: the chances of the game "
        "are estimated by the nets, looked at as many rolls ahead as --depth says, and what the "
        "cube "
        "is worth lies between a cube that nobody will turn again and one that is always used to "
        "the full (docs/decisions/cube-model.md). It may say that a side is too good to double, "
        "honours the Jacoby rule and beavers, and in a match counts in chances of winning it. "
        "--rollout plays holding, and doubling that is taken, on so many times with the same dice "
        "and the cube in use, and states standard errors; its other options are those of "
        "`pointwright worth`. With "
        "--exact there is no model: the verb says why there is no exact answer, and the exit code "
        "is 1.\n\n"
        "Take point and doubling point are added with their sums, at the score or for points. They "
        "count the gammons that the nets expect, or those of --gammons: 25-10 says that 25 of a "
        "hundred games won by light are gammons, and 10 of dark's. In a match an exact answer for "
        "money need not hold: compare these sums with the chance to win the game.\n\n"
        "With --batch, each line of standard input is a position line and each line of the answer "
        "is {\"position\", \"on_roll\", \"action\", \"answer\", \"hold\", \"double_take\", "
        "\"double_drop\", \"win\", \"equities\", \"known\", \"how\"}; a modelled one has margins, "
        "gammons and the depth instead of \"equities\", a rolled-out one standard errors. With "
        "--exact it is {\"position\", "
        "\"on_roll\", \"action\": null, \"reason\"} where there is no exact answer. A line that "
        "cannot be read is answered with {\"error\": …, \"input\": …} in its place.",
    .examples = {
        {.command = "pointwright cube \"light 5x1 2x1; dark 4x1 1x1; light to roll; cube 2 "
                    "with light\"",
         .shows = "A redouble that looks right and is not:"},
        {.command = "pointwright cube \"light 5x1 2x1; dark 4x1 1x1; light to roll; match to 5 "
                    "score 2-3\"",
         .shows = "The same race in a match:"},
        {.command = "pointwright cube \"light 24x1 13x3 8x3 6x4 5x2 4x2; dark 24x2 13x5 8x3 6x5; "
                    "light to roll\"",
         .shows = "Ahead in the race with a better home board, by the model:"}}};

/// What is known exactly about a cube decision.
struct Known {
  std::optional<CubeValues> values{};
  std::optional<double> win{};  ///< set with `values`, or alone where the cube has no value
  std::string how{};            ///< how it is known, or why it is not
};

Known from_endgame(const Position& position, EndingTables& tables) {
  const auto ending = contact_ending(position, tables);
  if (!ending) {
    return {.how =
                "each side has at most three checkers left and the sides can still meet: the table "
                "of that endgame has not been built; `pointwright tables build --three-checker` "
                "builds it"};
  }
  return {.values = ending->cube,
          .win = ending->win,
          .how = ending->cube ? fmt::format("exact: {}", contact_how) : std::string{no_cube_value}};
}

Known what_is_known(const Position& position, EndingTables& tables) {
  const auto race = tables.race(position.board, *position.turn);
  if (race.ok() && race->cube) {
    return {.values = race->cube, .win = race->win, .how = std::string{race->win_known.reason}};
  }
  if (!race.ok() && race.error() == NoRace::contact) {
    if (within_three_checkers(position.board)) return from_endgame(position, tables);
    return {.how = "the sides can still meet, and more than three checkers are left"};
  }
  return {
      .how =
          "no table holds this race with the cube; `pointwright race` gives the chance to win it "
          "and what the rules of thumb say"};
}

/// Where the cube is for the side on roll.
CubeAccess access(const Position& position) {
  return judge::cube_access(position, *position.turn);
}

bool may_double(CubeAccess place) {
  return place == CubeAccess::centred || place == CubeAccess::mine;
}

std::string_view action(const CubeValues& values, CubeAccess place) {
  if (!may_double(place)) return "none";
  return values.should_offer(place) ? "double" : "hold";
}

std::string_view reply(const CubeValues& values) {
  return values.should_take() ? "take" : "drop";
}

/// The gammons that the sums count, and where they come from.
struct Counted {
  chance::GammonRates rates{};
  std::string_view whence = "gammons not counted";
};

double part(float of, double whole) {
  return whole > 0 ? std::clamp(static_cast<double>(of) / whole, 0.0, 1.0) : 0.0;
}

Counted counted_gammons(const Position& position, const Known& known,
                        const std::optional<ModelledCube>& modelled,
                        const std::optional<chance::GammonRates>& given) {
  if (known.values) return {.whence = "no gammon can happen"};
  if (given) return {*given, "gammons as given"};
  if (!modelled || !modelled->situation.gammons) return {};
  const judge::Chances& chances = modelled->value.chances;
  const auto win = static_cast<double>(chances.win);
  Counted counted{.whence = "gammons as the nets estimate them"};
  counted.rates.share[index(*position.turn)] = part(chances.win_gammon, win);
  counted.rates.share[index(opponent(*position.turn))] = part(chances.lose_gammon, 1 - win);
  return counted;
}

std::string verdict(const CubeValues& values, CubeAccess place, Side on_roll) {
  const std::string_view who = name(on_roll);
  const std::string_view other = name(opponent(on_roll));
  if (place == CubeAccess::none) return fmt::format("The cube is not in use for {}.", who);
  if (place == CubeAccess::theirs) {
    return fmt::format("{} has the cube, so {} cannot double.", other, who);
  }
  const bool offers = values.should_offer(place);
  return fmt::format(
      "{} {}; {} {}.", who, offers ? "doubles" : "holds the cube", other,
      values.should_take() ? (offers ? "takes" : "would take") : (offers ? "drops" : "would drop"));
}

void print_values(const Position& position, const Known& known, Io& io) {
  const CubeValues& values = *known.values;
  const CubeAccess place = access(position);
  const Side on_roll = *position.turn;
  io.out << painted(Ink::strong,
                    verdict(values, place, on_roll) + (position.match ? " (For money.)" : ""),
                    io.colour_out)
         << '\n';
  if (may_double(place)) {
    const double doubled = values.offered();
    const double held = values.hold(place);
    io.out << fmt::format("  hold         {}\n  double, take {}\n  double, drop {}\n", equity(held),
                          equity(values.offered_and_taken()), equity(1));
    const std::string other{name(opponent(on_roll))};
    io.out << wrapped(
        fmt::format(
            "Of its two answers {} chooses the one that costs it less, so doubling is worth "
            "{}: {} by {:.3f}.",
            other, equity(doubled), doubled >= held ? "better than holding" : "worse than holding",
            std::abs(doubled - held)),
        io.width, 2);
  }
  io.out << fmt::format(
      "\n  {} wins     {:>7}\n  no cube      {}\n  centred      {}\n  with {:<5}   {}\n  with "
      "{:<5}   "
      "{}\n",
      name(on_roll), percent(values.win), equity(values.cubeless()),
      equity(values.equity(CubeAccess::centred)), name(on_roll),
      equity(values.equity(CubeAccess::mine)), name(opponent(on_roll)),
      equity(values.equity(CubeAccess::theirs)));
  io.out << wrapped(fmt::format("Equities of {} for money, in units of the cube as it stands.",
                                name(on_roll)),
                    io.width)
         << wrapped(known.how + ".", io.width, 2);
}

/// Whether a double by the side on roll can be spoken of: it has the cube and could gain by it, and
/// the match table reaches as far.
bool sums_exist(const Position& position) {
  if (!may_double(access(position)) || cube_is_dead_for(position, *position.turn)) return false;
  if (!position.match) return true;
  const chance::Needs needs = chance::needs(*position.match, *position.turn);
  return std::max(needs.mine, needs.theirs) <= chance::standard_match_table().size();
}

void print_sums(const Position& position, const Counted& counted, Io& io) {
  const std::string_view who = name(*position.turn);
  if (!sums_exist(position)) {
    if (!position.match) return;
    io.out << '\n'
           << wrapped(fmt::format("At this score a double by {} gains nothing, or is not allowed.",
                                  who),
                      io.width);
    return;
  }
  io.out << fmt::format("\n{} ({})\n",
                        position.match ? "At the score, with modelled match chances" : "For points",
                        counted.whence);
  if (counted.rates.any()) io.out << wrapped(rates_sentence(counted.rates), io.width, 2);
  io.out << sums_text(position, counted.rates, io);
}

void mention(const Position& position, const EndingTables& tables, Io& io) {
  if (position.roll) {
    io.err << fmt::format("note: the roll {} is passed over: a double comes before the roll\n",
                          to_text(*position.roll));
  }
  if (!tables.fault().empty()) io.err << wrapped("note: " + harmless(tables.fault()), io.width);
}

std::optional<Failure> misused(const CubeOptions& options) {
  if (const auto wrong = misuse(static_cast<const PositionOptions&>(options))) return wrong;
  if (options.rollout && (options.depth || options.exact))
    return failure("misused-option", "--rollout answers by playing the position on with the cube",
                   "leave out --depth and --exact");
  if (options.batch) {
    if (const auto wrong = misuse_in_batch(options)) return wrong;
  }
  return misuse(static_cast<const RolloutOptions&>(options));
}

/// Whether a decision that no table knows can be rolled out.
bool can_roll_out(const Position& position) {
  return !winner_of(position.board) && judge::cube_situation(position, *position.turn).has_value();
}

int run_cube(const CubeOptions& options, Io& io) {
  if (const auto wrong = misused(options)) return complain(*wrong, options.json, io);
  const int depth = options.depth ? options.depth->front() - '0' : 1;
  const auto threads = threads_of(options.threads);
  if (!threads.ok()) return complain(threads.error(), options.json, io);
  const auto search = make_search(depth, *threads);
  std::optional<Lookahead> ahead;
  if (!options.exact) ahead.emplace(Lookahead{*search, depth});
  std::optional<chance::GammonRates> given;
  if (options.gammons) {
    const auto rates = read_rates(options.gammons);
    if (!rates.ok()) return complain(rates.error(), options.json, io);
    given = *rates;
  }
  EndingTables tables(options.tables ? std::filesystem::path(*options.tables) : tables_folder());
  if (options.batch) {
    return answer_batch(io, [&](std::string_view line) -> Result<Json, Failure> {
      const auto position =
          read_position_with_turn({.text = std::string{line}, .origin = "standard input"});
      if (!position.ok()) return position.error();
      if (options.rollout && can_roll_out(*position) && !what_is_known(*position, tables).values)
        return rolled_cube(options, *position);
      return cube_object(*position, tables, ahead, given);
    });
  }
  const auto question = ask_with_turn(options, io);
  if (!question.ok()) return complain(question.error(), options.json, io);
  const Position& position = question->position;
  const Known known = what_is_known(position, tables);
  const bool rolled_out = !known.values && options.rollout && can_roll_out(position);
  if (options.json && !rolled_out) {
    const Json answer = cube_object(position, tables, ahead, given);
    io.out << to_line(answer) << '\n';
    return answer["action"].is_null() ? exit_no : exit_fine;
  }
  mention(position, tables, io);
  if (rolled_out) return roll_cube_out(options, position, options.json, io);
  std::optional<ModelledCube> modelled;
  if (!known.values && ahead) modelled = modelled_cube(position, *ahead);
  const int exit = known.values || modelled ? exit_fine : exit_no;
  if (known.values) {
    print_values(position, known, io);
  } else if (modelled) {
    print_modelled(position, *modelled, io);
    io.out << wrapped("No exact answer: " + known.how + ".", io.width);
  } else {
    io.out << wrapped("No exact answer: " + known.how + ".", io.width);
    if (known.win) {
      io.out << wrapped(fmt::format("Without a cube {} wins {} of the games, exactly.",
                                    name(*position.turn), percent(*known.win)),
                        io.width);
    }
  }
  print_sums(position, counted_gammons(position, known, modelled, given), io);
  return exit;
}

}  // namespace

Json cube_object(const Position& position, EndingTables& tables,
                 const std::optional<Lookahead>& ahead,
                 const std::optional<chance::GammonRates>& given) {
  const Side on_roll = *position.turn;
  const CubeAccess place = access(position);
  const Known known = what_is_known(position, tables);
  std::optional<ModelledCube> modelled;
  if (!known.values && ahead) modelled = modelled_cube(position, *ahead);
  Position asked = position;
  asked.roll.reset();
  Json result{{"position", to_text(asked)}};
  if (position.roll) result["roll_ignored"] = to_text(*position.roll);
  result["on_roll"] = name(on_roll);
  if (known.values) {
    const CubeValues& values = *known.values;
    result["action"] = action(values, place);
    result["answer"] = reply(values);
    result["hold"] = rounded(values.hold(place), 6);
    result["double_take"] = rounded(values.offered_and_taken(), 6);
    result["double_drop"] = 1.0;
    result["win"] = rounded(values.win, 6);
    result["equities"] = {{"no_cube", rounded(values.cubeless(), 6)},
                          {"centred", rounded(values.equity(CubeAccess::centred), 6)},
                          {"mine", rounded(values.equity(CubeAccess::mine), 6)},
                          {"theirs", rounded(values.equity(CubeAccess::theirs), 6)}};
    result["known"] = known_exact;
    result["how"] = known.how;
  } else if (modelled) {
    result.update(modelled_object(*modelled));
    result["how"] = "no exact answer: " + known.how;
  } else {
    result["action"] = nullptr;
    if (known.win) result["win"] = rounded(*known.win, 6);
    result["reason"] = known.how;
  }
  if (sums_exist(position)) {
    const Counted counted = counted_gammons(position, known, modelled, given);
    result[position.match ? "match" : "points"] = sums_object(position, counted.rates);
  }
  return result;
}

void declare_cube(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<CubeOptions>();
  add_position_options(verb.options, *options, "a position line");
  verb.options.value("--tables", "FOLDER", options->tables,
                     "Where built tables are, if not in the usual folder.");
  verb.options.choice("--depth", {"0", "1", "2"}, options->depth,
                      "How many rolls the model looks ahead; 1 if not given.");
  verb.options.value("--gammons", "L-D", options->gammons,
                     "The gammons that take point and doubling point count: how many of 100 games "
                     "won by light, and by dark; as the nets expect if not given.");
  verb.options.flag("--exact", options->exact, "Give exact answers only.");
  add_rollout_options(verb.options, *options);
  verb.act = [options](Io& io) { return run_cube(*options, io); };
}

}  // namespace pointwright::app
