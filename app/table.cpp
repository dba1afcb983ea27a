#include <memory>
#include <optional>

#include "app/failure.hpp"
#include "app/files.hpp"
#include "app/json.hpp"
#include "app/live.hpp"
#include "app/options.hpp"
#include "app/verbs.hpp"

namespace pointwright::app {
namespace {

struct ProgramOptions {
  std::optional<std::string> output;
  bool json = false;
};

const Guide table_guide{
    .name = "table",
    .summary = "Make the page on which games are played.",
    .text =
        "Writes one HTML file that opens from disk, fetches nothing and sends nothing: a table for "
        "two people at one screen, or for one against the program. Checkers are dragged, pointed "
        "at, moved by keyboard or written; the referee says why something is not allowed. Dice are "
        "thrown by the program, in a way that can be checked after the game, or are real dice that "
        "are entered by hand. Matches, the cube, the Crawford game and house rules are kept by the "
        "same code as `pointwright rule`.\n\n"
        "The game stays in the browser when the page is closed, and its record can be saved to a "
        "file and opened again.",
    .examples = {{.command = "pointwright table", .shows = "The table, written to table.html:"},
                 {.command = "pointwright table --output club-evening.html",
                  .shows = "The same under another name:"}}};

const Guide bench_guide{
    .name = "bench",
    .summary = "Make the page on which positions are built.",
    .text =
        "Writes one HTML file that opens from disk: a board on which a position is built by "
        "dragging checkers from the tray, by keyboard or by writing the position line. It says at "
        "once what cannot stand on a board, answers questions about the position, and gives it out "
        "as a line, a link, a picture (SVG or PNG) or a block for a lesson.",
    .examples = {{.command = "pointwright bench", .shows = "The bench, written to bench.html:"}}};

int write_program(const std::string& path, const std::string& html, const ProgramOptions& options,
                  Io& io) {
  if (const auto wrong = write_file(path, html)) return complain(*wrong, options.json, io);
  if (options.json)
    io.out << to_line({{"page", path}}) << '\n';
  else
    io.out << path << '\n';
  return exit_fine;
}

}  // namespace

void declare_table(Program& program) {
  Verb& verb = program.declare(table_guide);
  auto options = std::make_shared<ProgramOptions>();
  verb.options.value("-o,--output", "FILE", options->output,
                     "The file of the page; without it, table.html in the current folder.");
  verb.options.flag("--json", options->json, "Answer with one JSON object.");
  verb.act = [options](Io& io) {
    return write_program(options->output.value_or("table.html"),
                         program_html("The table", table_parts()), *options, io);
  };
}

void declare_bench(Program& program) {
  Verb& verb = program.declare(bench_guide);
  auto options = std::make_shared<ProgramOptions>();
  verb.options.value("-o,--output", "FILE", options->output,
                     "The file of the page; without it, bench.html in the current folder.");
  verb.options.flag("--json", options->json, "Answer with one JSON object.");
  verb.act = [options](Io& io) {
    return write_program(options->output.value_or("bench.html"),
                         program_html("The bench", bench_parts()), *options, io);
  };
}

}  // namespace pointwright::app
