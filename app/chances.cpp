#include "app/chances.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <memory>
#include <vector>

#include "app/batch.hpp"
#include "app/numbers.hpp"
#include "app/options.hpp"
#include "app/verbs.hpp"
#include "chance/next_roll.hpp"
#include "chance/two_rolls.hpp"
#include "judge/shipped.hpp"

namespace pointwright::app {
namespace {

constexpr std::array<std::string_view, 3> reply_names{"any", "pips", "table"};  // as Reply

Reply reply_named(const std::optional<std::string>& word) {
  const auto found = std::ranges::find(reply_names, word.value_or("any"));
  return static_cast<Reply>(found - reply_names.begin());
}

chance::Chooser chooser(Reply reply) {
  switch (reply) {
    case Reply::any:
      break;
    case Reply::pips:
      return chance::best_by_pips;
    case Reply::table:
      return [](const Board&, Side side, const std::vector<LegalPlay>& plays) {
        return judge::shipped_evaluator().best_play(plays, side);
      };
  }
  return {};
}

struct ChancesOptions : PositionOptions {
  std::vector<std::string> event;
  bool grid = false;
  bool next = false;
  std::optional<std::string> reply;

  [[nodiscard]] ChancesAsked asked() const { return {.next = next, .reply = reply_named(reply)}; }
};

const Guide guide{
    .name = "chances",
    .summary = "Count the rolls that hit, enter, make a point, and so on.",
    .text =
        "Counts, of the 36 rolls of the side to roll, those that bring an event about: exactly, by "
        "making every legal play of every roll. Without an event it prints the chance card of the "
        "position: each event that can be asked of it, with its count.\n\n"
        "An event happens for a roll if some legal play brings it about. `must EVENT` asks that "
        "every legal play does, `cannot EVENT` that none does. Events are joined with and, or, not "
        "and brackets: `hit and safe`, `must hit 5`, `point 4 or (cover 7 and safe)`. Points are "
        "numbered as the side to roll counts them. docs/events.md lists the events. Quote brackets "
        "from the shell.\n\n"
        "--next asks for the chance to do it now or, failing that, on the next turn: this roll, "
        "the "
        "other side's roll and reply, and the roll after, all counted. Where the first roll fails, "
        "the side makes the play that leaves the best chance for the second. With --reply any (the "
        "default) the other side may answer as it likes, and the answer is a range from its best "
        "defence to its worst; with --reply pips it makes the play that leads most in the race, "
        "with "
        "--reply table the one that wins most, by the exact tables where they reach and else as "
        "the "
        "nets value it at once.\n\n"
        "If the position gives a roll, it is passed over: chances are those of the roll to "
        "come.\n\n"
        "With --batch, each line of standard input is POSITION | EVENT, or POSITION alone for the "
        "card. The answer to an event is {\"position\", \"event\", \"ways\", \"fraction\", "
        "\"rolls\", \"grid\", \"sentence\", \"known\": \"exact\"}, with \"now_or_next\" under "
        "--next; the card is {\"position\", \"card\": [{\"event\", \"ways\", \"fraction\", "
        "\"rolls\"}, …], \"known\": \"exact\"}. A line that cannot be read is answered with "
        "{\"error\": …, \"input\": …} in its place.",
    .examples = {
        {.command = "pointwright chances \"light 24x1 10x1 6x5; dark 20x1 6x6; light to roll\" hit",
         .shows = "How many rolls hit:"},
        {.command = "pointwright chances --grid \"light barx1 6x5; dark 6x2 5x2 3x2; light to "
                    "roll\" enter",
         .shows = "Coming in against three points, with the table of rolls:"},
        {.command = "pointwright chances \"start; light to roll\"",
         .shows = "The whole card of a position:"},
        {.command = "pointwright chances --next \"light 8x1 6x2; dark 18x1 1x2; light to roll\" "
                    "hit",
         .shows = "Now, or on the next turn:"}}};

using chance::Count;
using chance::NextRoll;
using chance::Query;

Json roll_texts(const std::vector<Roll>& rolls) {
  Json result = Json::array();
  for (const Roll roll : rolls) result.push_back(to_text(roll));
  return result;
}

Position without_roll(Position position) {
  position.roll.reset();
  return position;
}

/// An answer's first entries: the position as it was asked about, and the roll that was passed
/// over.
Json opening(const Position& position) {
  Json result{{"position", to_text(without_roll(position))}};
  if (position.roll) result["roll_ignored"] = to_text(*position.roll);
  return result;
}

chance::ThreeRollChance now_or_next(const Position& position, const Query& query,
                                    const ChancesAsked& asked) {
  return chance::now_or_next(position.board, *position.turn, query.event, chooser(asked.reply));
}

/// How the other side replies, as the words after a chance; in the order of Reply.
constexpr std::array<std::string_view, 3> reply_words{
    ", however {} replies", ", if {} makes the play that leads most in the race",
    ", if {} makes the play that wins most, by exact tables where they reach and else by the nets"};

double part(std::int64_t ways) {
  return static_cast<double>(ways) / static_cast<double>(chance::ThreeRollChance::whole);
}

Fault next_needs_can() {
  return {.id = "next-needs-can",
          .where = {},
          .reason =
              "whether it happens now or on the next turn can only be asked of what a side "
              "can do, not of what it must or cannot do",
          .fix = "leave out must or cannot, or leave out --next"};
}

/// The rolls in the fewest words: those that do, or all but those that do not.
std::string rolls_in_words(const Count& count) {
  if (count.ways == 0) return "no roll";
  if (count.ways == 36) return "every roll";
  std::vector<std::string> words;
  const auto does = [&](Roll roll) {
    return std::find(count.rolls.begin(), count.rolls.end(), roll) != count.rolls.end();
  };
  const bool most = count.rolls.size() > all_rolls().size() / 2;
  for (const Roll roll : all_rolls()) {
    if (does(roll) != most) words.push_back(to_text(roll));
  }
  return fmt::format("{}{}", most ? "all but " : "", fmt::join(words, " "));
}

std::string grid_text(const Count& count, bool colour) {
  std::string result = "       1  2  3  4  5  6\n";
  for (std::size_t first = 0; first < 6; ++first) {
    result += fmt::format("    {}", first + 1);
    for (std::size_t second = 0; second < 6; ++second) {
      const bool does = count.grid[first][second];
      result += "  " + (does ? painted(Ink::good, "x", colour) : painted(Ink::quiet, ".", colour));
    }
    result += "\n";
  }
  return result;
}

std::string next_text(const Position& position, const chance::ThreeRollChance& both,
                      const ChancesAsked& asked, int width) {
  const std::string_view other = name(opponent(*position.turn));
  const std::string whole = with_commas(chance::ThreeRollChance::whole);
  if (both.least == both.most) {
    return wrapped(
        fmt::format(
            "Now or on the next turn: {} ({} of {}, exact){}.", percent(part(both.least)),
            with_commas(both.least), whole,
            fmt::format(fmt::runtime(reply_words[static_cast<std::size_t>(asked.reply)]), other)),
        width);
  }
  return wrapped(fmt::format("Now or on the next turn: {} if {} replies as well as it can against "
                             "it, {} if as badly ({} and {} of {}, both exact).",
                             percent(part(both.least)), other, percent(part(both.most)),
                             with_commas(both.least), with_commas(both.most), whole),
                 width);
}

void mention_roll(const Position& position, Io& io) {
  if (!position.roll) return;
  io.err << fmt::format(
      "note: the roll {} is passed over: these are the chances of {}'s next roll\n",
      to_text(*position.roll), name(*position.turn));
}

void print_count(const Position& position, const Query& query, const ChancesOptions& options,
                 Io& io) {
  const NextRoll next(position.board, *position.turn);
  const Count counted = chance::count(next, query);
  io.out << painted(Ink::strong, fmt::format("{} of 36", counted.ways), io.colour_out)
         << fmt::format("  {}  exact\n", percent(counted.ways / 36.0))
         << wrapped(chance::explain(next, query), io.width);
  if (options.next) {
    io.out << next_text(position, now_or_next(position, query, options.asked()), options.asked(),
                        io.width);
  }
  if (options.grid || io.out_is_terminal) io.out << '\n' << grid_text(counted, io.colour_out);
}

void print_card(const Position& position, Io& io) {
  const auto lines = chance::card(NextRoll(position.board, *position.turn));
  io.out << painted(Ink::strong,
                    fmt::format("{} to roll: rolls of 36, exact", name(*position.turn)),
                    io.colour_out)
         << '\n';
  std::size_t widest = 0;
  for (const auto& line : lines) widest = std::max(widest, to_text(line.query).size());
  for (const auto& line : lines) {
    io.out << fmt::format("  {:<{}}  {:>2}  {:>5}  {:>7}  {}\n", to_text(line.query), widest,
                          line.count.ways, chance::fraction_of_36(line.count.ways),
                          percent(line.count.ways / 36.0), rolls_in_words(line.count));
  }
}

int answer(const Question& question, const ChancesOptions& options, Io& io) {
  const Position& position = question.position;
  if (options.event.empty()) {
    if (options.next) {
      return complain(failure("missing-event", "--next needs an event to ask about",
                              "write it after the position, such as: hit 5"),
                      options.json, io);
    }
    if (options.json) {
      io.out << to_line(card_object(position)) << '\n';
    } else {
      mention_roll(position, io);
      print_card(position, io);
    }
    return exit_fine;
  }
  const std::string text = fmt::format("{}", fmt::join(options.event, " "));
  const auto query = chance::read_query(text);
  Failure wrong{.text = text, .origin = "argument"};
  if (!query.ok()) {
    wrong.faults = query.error();
    return complain(wrong, options.json, io);
  }
  if (options.next && query->mode != Query::Mode::can) {
    wrong.faults = {next_needs_can()};
    return complain(wrong, options.json, io);
  }
  if (options.json) {
    io.out << to_line(chance_object(position, *query, options.asked())) << '\n';
  } else {
    mention_roll(position, io);
    print_count(position, *query, options, io);
  }
  return exit_fine;
}

int run_chances(const ChancesOptions& options, Io& io) {
  if (const auto wrong = misuse(options)) return complain(*wrong, io);
  if (options.batch) {
    return answer_batch(
        io, [&](std::string_view line) { return answer_chances(line, options.asked()); });
  }
  const auto question = ask_with_turn(options, io);
  if (!question.ok()) return complain(question.error(), options.json, io);
  return answer(*question, options, io);
}

}  // namespace

Json chance_object(const Position& position, const Query& query, const ChancesAsked& asked) {
  const NextRoll next(position.board, *position.turn);
  const Count counted = chance::count(next, query);
  Json result = opening(position);
  result["event"] = to_text(query);
  result["ways"] = counted.ways;
  result["fraction"] = chance::fraction_of_36(counted.ways);
  result["rolls"] = roll_texts(counted.rolls);
  result["grid"] = counted.grid;
  result["sentence"] = chance::explain(next, query);
  result["known"] = known_exact;
  if (!asked.next) return result;
  const chance::ThreeRollChance both = now_or_next(position, query, asked);
  result["now_or_next"] = {{"reply", reply_names[static_cast<std::size_t>(asked.reply)]},
                           {"least", both.least},
                           {"most", both.most},
                           {"of", chance::ThreeRollChance::whole},
                           {"least_chance", part(both.least)},
                           {"most_chance", part(both.most)},
                           {"known", known_exact}};
  return result;
}

Json card_object(const Position& position) {
  Json card = Json::array();
  for (const auto& line : chance::card(NextRoll(position.board, *position.turn))) {
    card.push_back({{"event", to_text(line.query)},
                    {"ways", line.count.ways},
                    {"fraction", chance::fraction_of_36(line.count.ways)},
                    {"rolls", roll_texts(line.count.rolls)}});
  }
  Json result = opening(position);
  result["card"] = std::move(card);
  result["known"] = known_exact;
  return result;
}

Result<Json, Failure> answer_chances(std::string_view line, const ChancesAsked& asked) {
  Failure wrong{.text = std::string{line}, .origin = "standard input"};
  const Halves parts = halves(line);
  const auto position = read_position_with_turn({.text = std::string{parts.first}});
  if (!position.ok()) {
    wrong.faults = position.error().faults;
    return wrong;
  }
  if (!parts.has_second && !asked.next) return card_object(*position);
  if (!parts.has_second) {
    wrong.faults = {{.id = "missing-event",
                     .where = {.begin = line.size(), .end = line.size()},
                     .reason = "--next needs an event to ask about",
                     .fix = "write the position, then |, then the event: `start; light to roll | "
                            "point 5`"}};
    return wrong;
  }
  const auto query =
      chance::read_query(line, TextSpan{.begin = parts.second_at, .end = line.size()});
  if (!query.ok()) {
    wrong.faults = query.error();
    return wrong;
  }
  if (asked.next && query->mode != Query::Mode::can) {
    wrong.faults = {next_needs_can()};
    wrong.faults.front().where = {.begin = parts.second_at, .end = line.size()};
    return wrong;
  }
  return chance_object(*position, *query, asked);
}

void declare_chances(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<ChancesOptions>();
  add_position_options(verb.options, *options, "POSITION | EVENT");
  verb.options.arguments("EVENT", options->event,
                         "The event, in one argument or several; without one, the whole card.");
  verb.options.flag("--grid", options->grid, "Print the 6 x 6 table of rolls even to a file.");
  verb.options.flag("--next", options->next, "Also: now or, failing that, on the next turn.");
  verb.options.choice("--reply", {"any", "pips", "table"}, options->reply,
                      "How the other side replies, for --next.");
  verb.act = [options](Io& io) { return run_chances(*options, io); };
}

}  // namespace pointwright::app
