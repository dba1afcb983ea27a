#include "app/race.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <memory>
#include <optional>

#include "app/batch.hpp"
#include "app/contact_ending.hpp"
#include "app/numbers.hpp"
#include "app/options.hpp"
#include "app/verbs.hpp"
#include "chance/race_gammon.hpp"
#include "chance/rules_of_thumb.hpp"

namespace pointwright::app {
namespace {

struct RaceOptions : PositionOptions {
  std::optional<std::string> tables;
};

const Guide guide{
    .name = "race",
    .summary = "Say who is ahead in a race, and by how much.",
    .text =
        "For a position in which the sides have passed each other: pips, mean number of rolls to "
        "bear off, effective pips (mean rolls times 49/6) and wastage of both sides, the chance to "
        "win, the chance of a gammon where a side has all its checkers left, and what the rules of "
        "thumb that teachers use say about the cube, each with its sum, beside the exact answer "
        "where "
        "there is one. "
        "docs/endings.md says where each number comes from.\n\n"
        "Pips, mean rolls and wastage are exact, each side alone. The winning chance is exact "
        "where a table holds both sides: up to six checkers each, all home, at once; up to ten if "
        "`pointwright tables build` has made that table. Otherwise the two sides' spreads of rolls "
        "are combined, and the answer states the error.\n\n"
        "A position in which the sides can still meet depends on hits. With at most three checkers "
        "left on each side it is answered exactly, hits included, once `pointwright tables build "
        "--three-checker` has made that table; others are refused.\n\n"
        "With --batch, each line of standard input is a position line and each line of the answer "
        "is {\"position\", \"on_roll\", \"light\", \"dark\", \"win\", \"known\", \"error\", "
        "\"how\"}, with \"gammon\", \"cube\" and \"rules_of_thumb\" where they apply. Where the "
        "sides can still meet there is \"contact\": "
        "true, and of each side the pips alone. A line that cannot be answered gets {\"error\": …, "
        "\"input\": …} in its place.",
    .examples = {{.command = "pointwright race \"light 6x3 5x2 4x2; dark 6x4 5x3 3x1; light to "
                             "roll\"",
                  .shows = "A race of seven checkers against eight:"},
                 {.command = "pointwright race \"light 5x1 2x1; dark 4x1 1x1; light to roll\"",
                  .shows = "Four checkers left, exactly:"},
                 {.command = "pointwright race --batch < races.txt > races.jsonl",
                  .shows = "A file of races for a spreadsheet:"}}};

constexpr std::array<Side, 2> sides{Side::light, Side::dark};

/// Everything that is said about one race.
struct Race {
  Side on_roll;
  RaceAnswer answer;
  std::optional<Side> leader;  ///< who may win a gammon
  std::optional<GammonAnswer> gammon;

  [[nodiscard]] const RaceSide& of(Side side) const {
    return side == on_roll ? answer.on_roll : answer.waiting;
  }
  [[nodiscard]] double win(Side side) const {
    // A sum of floats may pass 1 in its last digits.
    const double won = std::clamp(answer.win, 0.0, 1.0);
    return side == on_roll ? won : 1 - won;
  }
};

Result<Race, Faults> judged(const Position& position, EndingTables& tables) {
  const Side on_roll = *position.turn;
  const auto answer = tables.race(position.board, on_roll);
  if (!answer.ok()) {
    if (answer.error() == NoRace::contact) return Faults{contact_fault(position)};
    return Faults{{.id = "no-race",
                   .where = {},
                   .reason = std::string{explain(answer.error())},
                   .fix = "give a position nearer to its end"}};
  }
  Race race{.on_roll = on_roll, .answer = *answer, .leader = {}, .gammon = {}};
  for (const Side side : sides) {
    auto gammon = gammon_chance(position.board, side, on_roll);
    if (!gammon) continue;
    race.leader = side;
    race.gammon = gammon;
  }
  return race;
}

std::string_view known(const Certainty& certainty) {
  return certainty.kind == Certainty::Kind::exact ? known_exact : known_combined;
}

/// "exact", or "combined, within 1.4 percentage points".
std::string known_words(const Certainty& certainty) {
  if (certainty.kind == Certainty::Kind::exact) return std::string{known_exact};
  return fmt::format("{}, within {:.1f} percentage points", known_combined, 100 * certainty.error);
}

/// Whether the side on roll may double as far as the cube's place goes.
bool may_double(const Position& position) {
  return position.house.cube && (!position.cube.holder || position.cube.holder == position.turn) &&
         !(position.match && position.match->crawford);
}

RaceTalk talk(const Position& position) {
  const Side on_roll = *position.turn;
  return {{position.board.of(on_roll), position.board.of(opponent(on_roll))},
          std::string{name(on_roll)},
          std::string{name(opponent(on_roll))},
          position.cube.holder.has_value()};
}

std::string rules_text(const Position& position, const Race& race, const Io& io) {
  const bool owned = position.cube.holder.has_value();
  const auto& cube = race.answer.cube;
  std::string result =
      "\n" +
      painted(Ink::strong,
              fmt::format("{}, for money",
                          owned ? "The cube held by the side on roll" : "The cube in the middle"),
              io.colour_out) +
      "\n";
  std::size_t widest = 0;
  for (const RuleOfThumb& rule : rules_of_thumb()) widest = std::max(widest, rule.name.size());
  if (cube) {
    result +=
        fmt::format("  {:<{}}  {}, exact\n", "The truth", widest, name(exact_advice(*cube, owned)));
  }
  const RaceTalk asked = talk(position);
  for (const RuleOfThumb& rule : rules_of_thumb()) {
    const CubeAdvice advice = rule.advise(asked.race, owned);
    result += fmt::format("  {:<{}}  {}", rule.name, widest, name(advice));
    if (cube) {
      const double cost = cost_of(advice, *cube, owned);
      result += cost < 0.0005 ? ": right" : fmt::format(": costs {:.3f}", cost);
    }
    result += "\n" + wrapped(rule.sum(asked), io.width, 4);
  }
  if (!cube) {
    result += wrapped(
        "No table holds this race with the cube, so nothing here says which of them "
        "is right.",
        io.width, 2);
  }
  return result;
}

std::string lead_sentence(const Race& race) {
  const int own = race.of(race.on_roll).pips;
  const int other = race.of(opponent(race.on_roll)).pips;
  const std::string_view who = name(race.on_roll);
  if (own == other) return fmt::format("The counts are level at {}.", own);
  if (own > other) {
    return fmt::format("{} is behind in the count: {} - {} = {} pips.", who, own, other,
                       own - other);
  }
  return fmt::format("{}'s lead: {} - {} = {} pips, and {} / {} = {} of its count.", who, other,
                     own, other - own, other - own, own,
                     percent(static_cast<double>(other - own) / static_cast<double>(own), 1));
}

void print_race(const Position& position, const Race& race, Io& io) {
  io.out << painted(Ink::strong, fmt::format("A race with {} to roll", name(race.on_roll)),
                    io.colour_out)
         << "\n         pips   mean rolls   effective pips   wastage   (exact)\n";
  for (const Side side : sides) {
    const RaceSide& alone = race.of(side);
    io.out << fmt::format("  {:<5}  {:>4}   {:>10.2f}   {:>14.1f}   {:>7.1f}\n", name(side),
                          alone.pips, alone.mean_rolls, alone.effective_pips, alone.wastage);
  }
  const Certainty& certainty = race.answer.win_known;
  const int decimals = certainty.kind == Certainty::Kind::exact ? 2 : 1;
  io.out << wrapped(lead_sentence(race), io.width) << '\n'
         << wrapped(
                fmt::format("{} wins {} of the games, {} {} ({}).", name(race.on_roll),
                            percent(race.win(race.on_roll), decimals), name(opponent(race.on_roll)),
                            percent(race.win(opponent(race.on_roll)), decimals),
                            known_words(certainty)),
                io.width)
         << wrapped(fmt::format("{}.", certainty.reason), io.width, 2);
  if (race.gammon) {
    const Certainty& how = race.gammon->known;
    io.out << wrapped(fmt::format("{} wins a gammon in {} of the games ({}).", name(*race.leader),
                                  percent(race.gammon->chance, 2), known_words(how)),
                      io.width);
  }
  if (may_double(position)) io.out << rules_text(position, race, io);
}

Json side_object(const RaceSide& side) {
  return {{"pips", side.pips},
          {"mean_rolls", rounded(side.mean_rolls, 6)},
          {"effective_pips", rounded(side.effective_pips, 6)},
          {"wastage", rounded(side.wastage, 6)}};
}

Json rules_object(const Position& position, const Race& race) {
  const bool owned = position.cube.holder.has_value();
  const RaceTalk asked = talk(position);
  Json result = Json::array();
  for (const RuleOfThumb& rule : rules_of_thumb()) {
    const CubeAdvice advice = rule.advise(asked.race, owned);
    Json entry{
        {"id", rule.id}, {"name", rule.name}, {"advice", name(advice)}, {"sum", rule.sum(asked)}};
    if (race.answer.cube) entry["cost"] = rounded(cost_of(advice, *race.answer.cube, owned), 6);
    result.push_back(std::move(entry));
  }
  return result;
}

Json object_of(const Position& position, const Race& race) {
  Position asked = position;
  asked.roll.reset();
  Json result{{"position", to_text(asked)}};
  if (position.roll) result["roll_ignored"] = to_text(*position.roll);
  result["on_roll"] = name(race.on_roll);
  for (const Side side : sides) result[std::string{name(side)}] = side_object(race.of(side));
  const int decimals = race.answer.win_known.kind == Certainty::Kind::exact ? 6 : 4;
  result["win"] = {{"light", rounded(race.win(Side::light), decimals)},
                   {"dark", rounded(race.win(Side::dark), decimals)}};
  result["known"] = known(race.answer.win_known);
  result["error"] = race.answer.win_known.error;
  result["how"] = race.answer.win_known.reason;
  if (race.gammon) {
    result["gammon"] = {{"side", name(*race.leader)},
                        {"chance", rounded(race.gammon->chance, 6)},
                        {"known", known(race.gammon->known)},
                        {"error", race.gammon->known.error}};
  }
  if (!may_double(position)) return result;
  const bool owned = position.cube.holder.has_value();
  if (race.answer.cube) {
    result["cube"] = {{"advice", name(exact_advice(*race.answer.cube, owned))},
                      {"known", known_exact}};
  }
  result["rules_of_thumb"] = rules_object(position, race);
  return result;
}

/// The failure with the whole text underlined where a fault names no place in it.
Failure about(const GivenLine& given, Faults faults) {
  for (Fault& fault : faults) {
    if (fault.where == TextSpan{}) fault.where = {.begin = 0, .end = given.text.size()};
  }
  return {
      .text = given.text, .origin = given.origin, .line = given.line, .faults = std::move(faults)};
}

int run_race(const RaceOptions& options, Io& io) {
  if (const auto wrong = misuse(options)) return complain(*wrong, io);
  EndingTables tables(options.tables ? std::filesystem::path(*options.tables) : tables_folder());
  if (options.batch) {
    return answer_batch(io, [&](std::string_view line) { return answer_race(line, tables); });
  }
  const auto question = ask_with_turn(options, io);
  if (!question.ok()) return complain(question.error(), options.json, io);
  const auto race = judged(question->position, tables);
  const auto ending = race.ok() ? std::nullopt : contact_ending(question->position, tables);
  if (!tables.fault().empty()) io.err << wrapped("note: " + harmless(tables.fault()), io.width);
  if (!race.ok() && !ending) {
    return complain(about(question->given, race.error()), options.json, io);
  }
  if (options.json) {
    io.out << to_line(ending ? contact_object(question->position, *ending)
                             : object_of(question->position, *race))
           << '\n';
  } else if (ending) {
    print_contact(question->position, *ending, io);
  } else {
    print_race(question->position, *race, io);
  }
  return exit_fine;
}

}  // namespace

Result<Json, Faults> race_object(const Position& position, EndingTables& tables) {
  const auto race = judged(position, tables);
  if (race.ok()) return object_of(position, *race);
  if (const auto ending = contact_ending(position, tables))
    return contact_object(position, *ending);
  return race.error();
}

Result<Json, Failure> answer_race(std::string_view line, EndingTables& tables) {
  const GivenLine given{.text = std::string{line}, .origin = "standard input"};
  const auto position = read_position_with_turn(given);
  if (!position.ok()) return position.error();
  auto object = race_object(*position, tables);
  if (!object.ok()) return about(given, object.error());
  return std::move(object.value());
}

void declare_race(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<RaceOptions>();
  add_position_options(verb.options, *options, "a position line");
  verb.options.value("--tables", "FOLDER", options->tables,
                     "Where built tables are, if not in the usual folder.");
  verb.act = [options](Io& io) { return run_race(*options, io); };
}

}  // namespace pointwright::app
