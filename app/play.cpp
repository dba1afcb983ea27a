#include <fmt/format.h>

#include <memory>
#include <random>
#include <sstream>

#include "app/files.hpp"
#include "app/json.hpp"
#include "app/numbers.hpp"
#include "app/options.hpp"
#include "app/play_session.hpp"
#include "app/verbs.hpp"
#include "rules/text.hpp"

namespace pointwright::app {
namespace {

struct PlayOptions {
  std::optional<std::string> level;
  std::optional<std::string> side;
  std::optional<std::string> match;
  bool no_cube = false;
  std::optional<std::string> seed;
  std::optional<std::string> record;
  bool json = false;
};

constexpr std::string_view usual_level = "regular";
constexpr int longest_match_played = 25;
/// A seed from the system's source of chance: 32 hexadecimal digits.
std::string new_seed() {
  std::random_device source;
  std::string seed;
  for (int i = 0; i < 4; ++i) seed += fmt::format("{:08x}", source());
  return seed;
}

constexpr std::size_t longest_seed = 200;
constexpr int unbroken = 100'000;  // columns; nothing said is longer

const Guide guide{
    .name = "play",
    .summary = "Play a game or a match in the terminal.",
    .text =
        "Plays against a level of your choice. The program throws the dice, keeps the cube and the "
        "score, and its referee refuses what the rules refuse, with the reason. Moves are typed in "
        "the trade's notation; they may be taken back until `done` lifts your dice. `hint` shows "
        "what the program would play. At the end the plays that cost you most are named, each with "
        "the command that says why.\n\n"
        "Levels: newcomer, casual, regular, steady, strong, and even, which tries to err about as "
        "much as you do. docs/levels.md says how each plays and how many points a game separate "
        "them.\n\n"
        "All dice follow from a seed. Its SHA-256 digest is shown before the first throw and the "
        "seed itself at the end, so that you can see that the dice were settled beforehand: "
        "`pointwright dice SEED` makes the throws again, and says how. --seed chooses it, which "
        "makes a game repeatable.\n\n"
        "--record keeps the games as a lesson, which `pointwright check` proves move by move and "
        "`pointwright build` makes a page of.\n\n"
        "Everything can be typed into a pipe as well, a line for each answer. With --json, each "
        "question is one JSON object on a line, {\"said\": lines told since the last, "
        "\"phase\", \"position\", \"checkers\": where they stand now, \"question\"}, and the "
        "last line is {\"said\", \"finished\", \"position\", \"result\"}. The exit code is 0 when "
        "the game or match came to its end and 1 when it was broken off.",
    .examples = {{.command = "pointwright play", .shows = "One game for points:"},
                 {.command = "pointwright play --level strong --match 5 --record tonight.md",
                  .shows = "A match to five against the strongest, kept as a lesson:"}}};

std::vector<std::string> level_names() {
  std::vector<std::string> names;
  for (const judge::Level& level : judge::levels()) names.emplace_back(level.name);
  return names;
}

Result<PlaySetup, Failure> setup_of(const PlayOptions& options) {
  PlaySetup setup;
  setup.level = judge::find_level(options.level.value_or(std::string{usual_level}));
  setup.person = options.side == "dark" ? Side::dark : Side::light;
  setup.house.cube = !options.no_cube;
  if (options.match) {
    const auto length = text::number(*options.match, longest_match_played);
    if (!length || *length == 0) {
      return failure(
          "bad-number", fmt::format("--match cannot be `{}`", *options.match),
          fmt::format("write the length of the match, from 1 to {}", longest_match_played));
    }
    setup.match = static_cast<int>(*length);
  }
  if (options.seed && (options.seed->empty() || options.seed->size() > longest_seed)) {
    return failure("bad-seed", "the seed is empty or too long",
                   fmt::format("write a word of at most {} bytes", longest_seed));
  }
  setup.seed = options.seed ? *options.seed : new_seed();
  return setup;
}

/// What a person must do now, in a word.
std::string_view phase_word(Phase phase) {
  switch (phase) {
    case Phase::to_roll:
      return "roll";
    case Phase::offered:
    case Phase::beavered:
      return "answer";
    case Phase::to_play:
      return "move";
    case Phase::opening:
    case Phase::over:
      break;
  }
  return "over";
}

/// What was said since the last time, a list of lines.
std::vector<std::string> taken(std::ostringstream& said) {
  std::istringstream text(said.str());
  said.str({});
  std::vector<std::string> lines;
  for (std::string line; std::getline(text, line);) lines.emplace_back(without_ends(line));
  return lines;
}

/// Plays with a program on the other side, which is told everything as JSON.
bool run_in_json(PlaySession& session, std::ostringstream& said, Io& io) {
  const bool finished = session.run();
  const Table& table = session.table();
  Json last{{"said", taken(said)},
            {"finished", finished},
            {"position", to_text(table.position)},
            {"result", nullptr}};
  if (table.result)
    last["result"] = {{"winner", name(table.result->winner)}, {"points", table.result->points}};
  io.out << to_line(last) << '\n';
  return finished;
}

int run_play(const PlayOptions& options, Io& io) {
  auto setup = setup_of(options);
  if (!setup.ok()) return complain(setup.error(), options.json, io);
  std::ostringstream said;
  Io told{.in = io.in, .out = said, .err = io.err, .width = unbroken};
  if (options.json) {
    setup.value().asked = [&](const PlayQuestion& question) {
      io.out << to_line({{"said", taken(said)},
                         {"phase", phase_word(question.table.phase)},
                         {"position", to_text(question.table.position)},
                         {"checkers", to_text(question.table.board)},
                         {"question", question.question}})
             << '\n'
             << std::flush;
    };
  }
  PlaySession session(*setup, options.json ? told : io);
  const bool finished = options.json ? run_in_json(session, said, io) : session.run();
  if (options.record) {
    if (const auto failed = write_file(*options.record, session.record())) {
      return complain(*failed, options.json, io);
    }
    if (!options.json) io.out << fmt::format("kept in {}\n", *options.record);
  }
  return finished ? exit_fine : exit_no;
}

}  // namespace

void declare_play(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<PlayOptions>();
  verb.options.choice("--level", level_names(), options->level,
                      "Who you play against; regular if not given.");
  verb.options.choice("--side", {"light", "dark"}, options->side,
                      "Which side you play; light if not given.");
  verb.options.value("--match", "LENGTH", options->match,
                     "Play a match to so many points instead of one game.");
  verb.options.flag("--no-cube", options->no_cube, "Play without the doubling cube.");
  verb.options.value("--seed", "SEED", options->seed, "What the dice follow from.");
  verb.options.value("--record", "FILE", options->record, "Keep the games as a lesson.");
  verb.options.flag("--json", options->json, "Put each question as one JSON object on a line.");
  verb.act = [options](Io& io) { return run_play(*options, io); };
}

}  // namespace pointwright::app
