#include "app/plays.hpp"

#include <fmt/format.h>

#include <memory>

#include "app/batch.hpp"
#include "app/options.hpp"
#include "app/verbs.hpp"
#include "rules/notation.hpp"
#include "rules/play.hpp"

namespace pointwright::app {
namespace {

struct PlaysOptions : PositionOptions {
  bool after = false;
};

const Guide guide{
    .name = "plays",
    .summary = "List the legal plays of a roll.",
    .text =
        "Lists every play that the rules allow, one for each position that can result, farther "
        "checkers first. Where several plays lead to the same position, one stands for all.\n\n"
        "With --batch, each line of standard input is a position line and each line of the answer "
        "is {\"position\": …, \"plays\": [{\"play\": …, \"after\": …}, …]}, in order; a line that "
        "cannot be read is answered with {\"error\": {\"id\", \"reason\", \"fix\", \"at\"}, "
        "\"input\"} in its place. Blank lines are passed over. `plays` is empty when no move is "
        "legal.",
    .examples = {{.command = "pointwright plays \"start; light to play 3-1\"",
                  .shows = "The plays of a 3-1 from the position of a new game:"},
                 {.command = "pointwright plays --after \"light barx1 6x2; dark 5x2 3x2; light to "
                             "play 6-4\"",
                  .shows = "Coming in from the bar, with the board after each play:"},
                 {.command = "pointwright plays --batch < positions.txt > plays.jsonl",
                  .shows = "A whole file of positions, one JSON object a line:"}}};

/// "light to play 3-1: 16 legal plays".
std::string heading(const Position& position, std::size_t count) {
  const std::string who =
      fmt::format("{} to play {}", name(*position.turn), to_text(*position.roll));
  if (count == 0) return who + ": no legal move";
  return fmt::format("{}: {} legal {}", who, count, count == 1 ? "play" : "plays");
}

void print_plays(const Position& position, bool with_after, Io& io) {
  const auto plays = legal_plays(position.board, *position.turn, *position.roll);
  if (io.out_is_terminal) {
    io.out << painted(Ink::strong, heading(position, plays.size()), io.colour_out) << '\n';
  }
  // The absence of a play has its own notation, which `rule` reads too.
  if (plays.empty()) io.out << to_text(Play{}) << '\n';
  std::size_t widest = 0;
  for (const LegalPlay& legal : plays) widest = std::max(widest, to_text(legal.play).size());
  for (const LegalPlay& legal : plays) {
    const std::string play = to_text(legal.play);
    if (with_after) {
      io.out << fmt::format("{:<{}}  {}\n", play, widest, to_text(legal.after));
    } else {
      io.out << play << '\n';
    }
  }
}

int run_plays(const PlaysOptions& options, Io& io) {
  if (const auto wrong = misuse(options)) return complain(*wrong, io);
  if (options.batch) return answer_batch(io, answer_plays);
  const auto question = ask_with_roll(options, io);
  if (!question.ok()) return complain(question.error(), options.json, io);
  if (options.json) {
    io.out << to_line(plays_object(question->position)) << '\n';
  } else {
    print_plays(question->position, options.after, io);
  }
  return exit_fine;
}

}  // namespace

Json plays_object(const Position& position) {
  Json plays = Json::array();
  for (const LegalPlay& legal : legal_plays(position.board, *position.turn, *position.roll)) {
    plays.push_back({{"play", to_text(legal.play)}, {"after", to_text(legal.after)}});
  }
  return {{"position", to_text(position)}, {"plays", std::move(plays)}};
}

Result<Json, Failure> answer_plays(std::string_view line) {
  const auto position =
      read_position_with_roll({.text = std::string{line}, .origin = "standard input"});
  if (!position.ok()) return position.error();
  return plays_object(*position);
}

void declare_plays(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<PlaysOptions>();
  add_position_options(verb.options, *options, "a position line");
  verb.options.flag("--after", options->after, "Show the board after each play.");
  verb.act = [options](Io& io) { return run_plays(*options, io); };
}

}  // namespace pointwright::app
