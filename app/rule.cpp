#include "app/rule.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <vector>

#include "app/batch.hpp"
#include "app/options.hpp"
#include "app/verbs.hpp"
#include "rules/notation.hpp"

namespace pointwright::app {
namespace {

struct RuleOptions : PositionOptions {
  std::vector<std::string> play;
};

/// Between the position and the play on a line of a batch.
constexpr char divider = '|';

/// Alternatives that a person is shown; JSON holds them all.
constexpr std::size_t shown_alternatives = 5;

const Guide guide{
    .name = "rule",
    .summary = "Rule on a play: allowed, or refused by which rule and why.",
    .text =
        "Answers \"was that allowed?\" for any play, legal or not. A refusal names the rule, "
        "proves "
        "it on the board, and lists legal plays where there are any. `pointwright explain RULE` "
        "says more about a rule. The exit code is 0 when the play is allowed and 1 when it is "
        "refused.\n\n"
        "The play is written in the trade's notation, in any order, merged or split, with or "
        "without *: 13/7 8/7, bar/22, 24/18/13, 6/off(2), or \"no play\" for a turn passed. Quote "
        "a play with ( or *, which a shell reads as its own.\n\n"
        "With --batch, each line of standard input is POSITION | PLAY and each line of the answer "
        "is {\"position\", \"attempt\", \"allowed\": true, \"play\", \"after\"} or {\"position\", "
        "\"attempt\", \"allowed\": false, \"rule\", \"statement\", \"proof\", \"alternatives\"}, "
        "in "
        "order; a line that cannot be read is answered with {\"error\": {\"id\", \"reason\", "
        "\"fix\", \"at\"}, \"input\"} in its place. A batch ends with 0 even where it refuses "
        "plays, and with 2 if a line could not be read.",
    .examples = {
        {.command = "pointwright rule \"start; light to play 6-5\" 24/18 13/8",
         .shows = "A play from the position of a new game:"},
        {.command = "pointwright rule \"light barx1 6x2; dark 5x2 3x2; light to play "
                    "6-4\" 6/2",
         .shows = "A play that leaves a checker on the bar:"},
        {.command = "echo \"start; light to play 3-1 | 8/5 6/5\" | pointwright rule --batch",
         .shows = "The same for programs:"}}};

}  // namespace

std::string refusal_text(const Ruling& ruling, const Io& io) {
  std::string result =
      painted(Ink::bad, "refused", io.colour_out) +
      fmt::format(" by {}\n", painted(Ink::strong, ruling.rule->id, io.colour_out));
  result += wrapped(ruling.rule->statement, io.width, 2);
  result += "\n" + wrapped(ruling.proof, io.width, 2);
  if (ruling.alternatives.empty()) return result;
  const std::size_t shown = std::min(ruling.alternatives.size(), shown_alternatives);
  result += shown == 1 ? "\nThe only legal play:\n" : "\nLegal plays:\n";
  for (std::size_t i = 0; i < shown; ++i) {
    result += fmt::format("  {}\n", to_text(ruling.alternatives[i]));
  }
  if (shown < ruling.alternatives.size()) {
    result += fmt::format("  and {} more, which `pointwright plays` lists\n",
                          ruling.alternatives.size() - shown);
  }
  return result;
}

namespace {

void print_ruling(const Ruling& ruling, Io& io) {
  if (!ruling.allowed) {
    io.out << refusal_text(ruling, io);
    return;
  }
  io.out << painted(Ink::good, "allowed", io.colour_out) << ' ' << to_text(ruling.play) << '\n'
         << "  " << to_text(ruling.after) << '\n';
}

int run_rule(const RuleOptions& options, Io& io) {
  if (const auto wrong = misuse(options)) return complain(*wrong, io);
  if (options.batch) return answer_batch(io, answer_rule);
  if (options.play.empty()) {
    return complain(failure("missing-play", "there is no play to rule on",
                            "write it after the position, such as 8/5 6/5"),
                    io);
  }
  const auto question = ask_with_roll(options, io);
  if (!question.ok()) return complain(question.error(), options.json, io);
  const std::string text = fmt::format("{}", fmt::join(options.play, " "));
  const auto attempt = read_play(text);
  if (!attempt.ok()) {
    return complain({.text = text, .origin = "argument", .faults = attempt.error()}, options.json,
                    io);
  }
  const Ruling ruling = rule_on(question->position, *attempt);
  if (options.json) {
    io.out << to_line(ruling_object(question->position, text, ruling)) << '\n';
  } else {
    print_ruling(ruling, io);
  }
  return ruling.allowed ? exit_fine : exit_no;
}

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

}  // namespace

Json ruling_object(const Position& position, std::string_view attempt, const Ruling& ruling) {
  Json result{{"position", to_text(position)}, {"attempt", attempt}, {"allowed", ruling.allowed}};
  if (ruling.allowed) {
    result["play"] = to_text(ruling.play);
    result["after"] = to_text(ruling.after);
    return result;
  }
  result["rule"] = ruling.rule->id;
  result["statement"] = ruling.rule->statement;
  result["proof"] = ruling.proof;
  Json alternatives = Json::array();
  for (const Play& play : ruling.alternatives) alternatives.push_back(to_text(play));
  result["alternatives"] = std::move(alternatives);
  return result;
}

Result<Json, Failure> answer_rule(std::string_view line) {
  const auto fail = [&](Faults faults) {
    return Failure{
        .text = std::string{line}, .origin = "standard input", .faults = std::move(faults)};
  };
  const std::size_t cut = line.find(divider);
  if (cut == std::string_view::npos) {
    return fail({{.id = "missing-play",
                  .where = {.begin = line.size(), .end = line.size()},
                  .reason = "the line has no play",
                  .fix = "write the position, then |, then the play: `start; light to play 3-1 | "
                         "8/5 6/5`"}});
  }
  const auto position = read_position_with_roll({.text = std::string{line.substr(0, cut)}});
  if (!position.ok()) return fail(position.error().faults);
  const std::string_view play = line.substr(cut + 1);
  const auto attempt = read_play(play);
  if (!attempt.ok()) {
    Faults faults = attempt.error();
    for (Fault& fault : faults) {
      fault.where.begin += cut + 1;
      fault.where.end += cut + 1;
    }
    return fail(std::move(faults));
  }
  return ruling_object(*position, trimmed(play), rule_on(*position, *attempt));
}

void declare_rule(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<RuleOptions>();
  add_position_options(verb.options, *options, "POSITION | PLAY");
  verb.options.arguments("PLAY", options->play, "The play, in one argument or several.");
  verb.act = [options](Io& io) { return run_rule(*options, io); };
}

}  // namespace pointwright::app
