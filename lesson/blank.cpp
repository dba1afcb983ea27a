#include "lesson/blank.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "lesson/board.hpp"
#include "lesson/kinds.hpp"
#include "lesson/suggest.hpp"
#include "rules/text.hpp"

namespace pointwright::lesson {
namespace {

using BlankFaults = std::vector<BlankFault>;
using text::quoted;

/// The largest number that a claim may hold.
constexpr std::uint64_t largest_number = 1'000'000'000'000'000'000;

/// The largest number below the line of a fraction: 36 cubed, for three rolls, is far smaller.
constexpr std::uint64_t largest_denominator = 1'000'000;

BlankFaults bad(const Argument& argument, std::string message, std::string hint) {
  return {{&kinds::bad_claim, argument.where, std::move(message), {}, std::move(hint), {}}};
}

BlankFaults fill_number(Argument& argument, const SideNames& /*names*/) {
  const auto number = text::number(argument.text, largest_number);
  if (!number) {
    return bad(argument, fmt::format("{} is not a number", quoted(argument.text)),
               "write it in digits");
  }
  argument.value = static_cast<std::int64_t>(*number);
  return {};
}

BlankFaults fill_die(Argument& argument, const SideNames& /*names*/) {
  constexpr std::uint64_t highest = 6;
  const auto number = text::number(argument.text, highest);
  if (!number || *number == 0) {
    return bad(argument, fmt::format("{} is not the number of a die", quoted(argument.text)),
               "a die shows 1 to 6");
  }
  argument.value = static_cast<std::int64_t>(*number);
  return {};
}

BlankFaults fill_side(Argument& argument, const SideNames& names) {
  const auto side = side_named(argument.text);
  if (side) {
    argument.value = *side;
    return {};
  }
  BlankFaults faults = bad(argument, fmt::format("{} is not a side", quoted(argument.text)),
                           "claims say light and dark, whatever the lesson calls the sides");
  for (const Side known : {Side::light, Side::dark}) {
    if (text::same_word(argument.text, names[known]) ||
        text::lower(argument.text.front()) == name(known).front())
      faults.front().fix = Fix{argument.where, std::string(name(known))};
  }
  return faults;
}

BlankFaults fill_win(Argument& argument, const SideNames& /*names*/) {
  std::vector<std::string> known;
  for (const WinKind kind : {WinKind::single, WinKind::gammon, WinKind::backgammon}) {
    if (text::same_word(argument.text, name(kind))) {
      argument.value = kind;
      return {};
    }
    known.emplace_back(name(kind));
  }
  BlankFaults faults = bad(argument, fmt::format("{} is not a way to win", quoted(argument.text)),
                           "a game is won as " + one_of(known));
  if (const auto meant = did_you_mean(argument.text, known))
    faults.front().fix = Fix{argument.where, *meant};
  return faults;
}

BlankFaults fill_rule(Argument& argument, const SideNames& /*names*/) {
  if (const Rule* rule = find_rule(argument.text)) {
    argument.value = rule;
    return {};
  }
  std::vector<std::string> known;
  for (const Rule* rule : rulebook()) known.emplace_back(rule->id);
  BlankFault fault{&kinds::unknown_rule,
                   argument.where,
                   fmt::format("no rule is called {}", quoted(argument.text)),
                   {},
                   {},
                   {}};
  if (const auto meant = did_you_mean(argument.text, known)) {
    fault.hint = fmt::format("did you mean `{}`?", *meant);
    fault.fix = Fix{argument.where, *meant};
  } else {
    fault.hint = "the rule book lists the rules; those of play are " + [] {
      std::vector<std::string> rules;
      for (const Rule* rule : rulebook()) {
        if (rule->about == Rule::About::play) rules.emplace_back(rule->id);
      }
      return one_of(rules, rules.size());
    }();
  }
  return {fault};
}

BlankFaults moved(const Faults& faults, const DiagnosticKind& kind, std::size_t offset) {
  BlankFaults result;
  for (const Fault& fault : faults) {
    result.push_back({&kind,
                      {offset + fault.where.begin, offset + fault.where.end},
                      fault.reason,
                      std::string(fault.id),
                      fault.fix,
                      {}});
  }
  return result;
}

BlankFaults fill_play(Argument& argument, const SideNames& /*names*/) {
  auto attempt = read_play(argument.text);
  if (!attempt) return moved(attempt.error(), kinds::bad_play, argument.where.begin);
  argument.value = attempt.value();
  return {};
}

BlankFaults fill_board(Argument& argument, const SideNames& /*names*/) {
  auto position = read_position(argument.text);
  if (!position) return moved(position.error(), kinds::bad_position, argument.where.begin);
  argument.value = position->board;
  return {};
}

BlankFaults fill_event(Argument& argument, const SideNames& /*names*/) {
  auto query = chance::read_query(argument.text);
  if (query) {
    argument.value = *query;
    return {};
  }
  BlankFaults faults = moved(query.error(), kinds::bad_claim, argument.where.begin);
  std::vector<std::string> known;
  for (const chance::EventKind& kind : chance::event_kinds()) known.emplace_back(kind.name);
  const Fault& first = query.error().front();
  if (first.id != "no-such-event") return faults;
  const std::string_view seen = std::string_view(argument.text)
                                    .substr(first.where.begin, first.where.end - first.where.begin);
  if (const auto meant = did_you_mean(seen, known)) {
    faults.front().hint = fmt::format("did you mean `{}`?", *meant);
    faults.front().fix = Fix{faults.front().where, *meant};
  }
  return faults;
}

BlankFaults fill_fraction(Argument& argument, const SideNames& /*names*/) {
  const std::string_view words = argument.text;
  const std::size_t slash = std::min(words.find('/'), words.size());
  const auto above = text::number(words.substr(0, slash), largest_number);
  const auto below = text::number(words.substr(std::min(slash + 1, words.size())), largest_number);
  if (!above || !below || *below == 0 || *below > largest_denominator || *above > *below) {
    return bad(argument, fmt::format("{} is not a fraction", quoted(argument.text)),
               "write rolls out of 36, or the same in lowest terms: 27/36 or 3/4");
  }
  argument.value = Pair{static_cast<std::int64_t>(*above), static_cast<std::int64_t>(*below)};
  return {};
}

/// A decimal number such as -0.25, 9 or 71.3.
std::optional<double> decimal(std::string_view word) {
  double value = 0;
  const char* const begin = word.data();  // NOLINT(bugprone-suspicious-stringview-data-usage)
  const char* const end = begin + word.size();
  const auto read = std::from_chars(begin, end, value, std::chars_format::fixed);
  if (read.ec != std::errc{} || read.ptr != end || !(std::abs(value) <= 1e9)) return std::nullopt;
  return value;
}

/// Reads "VALUE" or "VALUE +- TOLERANCE"; with `percent`, both may and the value must end in %.
BlankFaults fill_stated(Argument& argument, bool percent, std::string_view hint) {
  std::vector<text::Word> words = text::words(argument.text, {0, argument.text.size()}, false);
  const bool with_tolerance = words.size() == 3 && (words[1].text == "+-" || words[1].text == "±");
  std::vector<double> numbers;
  if (words.size() == 1 || with_tolerance) {
    for (std::size_t i = 0; i < words.size(); i += 2) {
      std::string_view word = words[i].text;
      if (percent && word.ends_with('%'))
        word.remove_suffix(1);
      else if (percent && i == 0)
        break;
      if (const auto number = decimal(word)) numbers.push_back(*number);
    }
  }
  if (numbers.size() != (words.size() + 1) / 2 || (with_tolerance && numbers[1] < 0))
    return bad(
        argument,
        fmt::format("{} is not {}", quoted(argument.text), percent ? "a percentage" : "a number"),
        std::string(hint));
  const double unit = percent ? 0.01 : 1.0;
  argument.value = Stated{unit * numbers[0], with_tolerance ? unit * numbers[1] : 0.0};
  return {};
}

BlankFaults fill_value(Argument& argument, const SideNames& /*names*/) {
  return fill_stated(argument, false, "write it with its tolerance: 9.47 +- 0.01");
}

BlankFaults fill_percent(Argument& argument, const SideNames& /*names*/) {
  return fill_stated(argument, true, "write it with its tolerance: 71.3% +- 0.1");
}

BlankFaults fill_score(Argument& argument, const SideNames& /*names*/) {
  const std::string_view words = argument.text;
  const std::size_t dash = std::min(words.find('-'), words.size());
  const auto first = text::number(words.substr(0, dash), largest_number);
  const auto second = text::number(words.substr(std::min(dash + 1, words.size())), largest_number);
  if (!first || !second) {
    return bad(argument, fmt::format("{} is not a score", quoted(argument.text)),
               "write light's points, a hyphen and dark's: 3-5");
  }
  argument.value = Pair{static_cast<std::int64_t>(*first), static_cast<std::int64_t>(*second)};
  return {};
}

BlankFaults fill_rates(Argument& argument, const SideNames& /*names*/) {
  const auto rates = chance::read_gammon_rates(argument.text);
  if (!rates) {
    return bad(argument, fmt::format("{} gives no shares of gammons", quoted(argument.text)),
               "write how many of 100 games won by light are gammons, a hyphen, and the same for "
               "dark: 25-10");
  }
  argument.value = *rates;
  return {};
}

using Fill = BlankFaults (*)(Argument&, const SideNames&);

constexpr std::array<Blank, 14> all{{
    {"PLAY", "a play in the trade's notation", "bar/22 6/5", true},
    {"RULE", "the id of a rule in the rule book", "bar-first", false},
    {"BOARD", "the checkers of both sides", "light 6x1 5x1; dark 6x2 5x2", true},
    {"SIDE", "`light` or `dark`", "light", false},
    {"KIND", "`single`, `gammon` or `backgammon`", "gammon", false},
    {"L-D", "a match score, light's points first", "3-5", false},
    {"EVENT", "what a turn can bring about; see lesson-grammar.md", "hit 5 and safe", true},
    {"FRACTION", "rolls of 36, or that fraction in lowest terms", "27/36", false},
    {"VALUE", "a number, with a tolerance unless it is exact", "9.47 +- 0.01", true},
    {"PERCENT", "a percentage, with a tolerance unless it is exact", "71.3% +- 0.1", true},
    {"RATES", "gammons in 100 games won, light's first", "25-10", false},
    {"N", "a number", "12", false},
    {"D", "the number of a die", "6", false},
    {"V", "a value of the cube", "4", false},
}};

constexpr std::array<Fill, all.size()> fills{
    fill_play,     fill_rule,  fill_board,   fill_side,  fill_win,    fill_score, fill_event,
    fill_fraction, fill_value, fill_percent, fill_rates, fill_number, fill_die,   fill_number};

}  // namespace

std::span<const Blank> blanks() {
  return all;
}

const Blank* find_blank(std::string_view name) {
  const auto* const found =
      std::ranges::find_if(all, [&](const Blank& blank) { return blank.name == name; });
  return found == all.end() ? nullptr : found;
}

std::vector<BlankFault> fill(Argument& argument, const SideNames& names) {
  const Blank* blank = find_blank(argument.blank);
  return fills[static_cast<std::size_t>(blank - all.data())](argument, names);
}

}  // namespace pointwright::lesson
