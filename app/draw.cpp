#include <fmt/format.h>

#include <memory>
#include <optional>

#include "app/batch.hpp"
#include "app/draw_parts.hpp"
#include "app/files.hpp"
#include "app/json.hpp"
#include "app/options.hpp"
#include "app/verbs.hpp"
#include "studio/diagram.hpp"

namespace pointwright::app {
namespace {

struct DrawOptions : PositionOptions {
  std::optional<std::string> bottom;
  std::optional<std::string> home;
  std::optional<std::string> numbers;
  std::optional<std::string> theme;
  std::optional<std::string> caption;
  std::optional<std::string> names;
  std::optional<std::string> output;
  std::vector<std::string> marks;
  std::vector<std::string> arrows;
  bool board_only = false;
  bool bare = false;
};

const Guide guide{
    .name = "draw",
    .summary = "Draw a position as an SVG picture.",
    .text =
        "Draws the board with its checkers, dice, cube and score. The picture is one SVG file that "
        "stands alone, with a description in words for those who hear it. It goes to standard "
        "output, or to the file that --output names.\n\n"
        "Marks and arrows are written as a side counts: \"light 22\", \"light bar/22\".\n\n"
        "With --json the answer is {\"position\": …, \"svg\": …}. With --batch, each line of "
        "standard input is a position line and is answered with such an object on a line, in "
        "order; a line that cannot be read is answered with {\"error\": {\"id\", \"reason\", "
        "\"fix\", \"at\"}, \"input\"} in its place.",
    .examples = {
        {.command = "pointwright draw \"start; light to play 3-1\" --output opening.svg",
         .shows = "The opening position with a roll:"},
        {.command = "pointwright draw start --bottom dark --home left --theme print",
         .shows = "As dark sees it, bearing off to the left, in greys for paper:"},
        {.command = "pointwright draw \"light barx1 6x2; dark 5x2 3x2; light to play 6-4\" "
                    "--arrow \"light bar/15\" --mark \"light 20\"",
         .shows = "With an arrow for a move and a mark on a point:"}}};

Side side_of(const std::optional<std::string>& word, Side otherwise) {
  if (!word) return otherwise;
  return *word == name(Side::dark) ? Side::dark : Side::light;
}

/// Reads the options of the picture.
Result<DiagramOptions, Failure> diagram_options(const DrawOptions& options) {
  DiagramOptions diagram;
  diagram.view.bottom = side_of(options.bottom, Side::light);
  diagram.view.home_on_left = options.home == "left";
  // Unless asked otherwise, the points carry the numbers of the side that looks at the board.
  diagram.view.numbering = side_of(options.numbers, diagram.view.bottom);
  diagram.view.bare = options.bare;
  diagram.margins = !options.board_only;
  diagram.caption = options.caption.value_or("");
  if (options.theme == "dark") diagram.theme = Theme::dark;
  if (options.theme == "print") diagram.theme = Theme::print;
  if (options.names) {
    const auto names = read_side_names(*options.names);
    if (!names.ok()) return names.error();
    diagram.names = *names;
  }
  for (const std::string& text : options.marks) {
    const auto mark = read_mark(text);
    if (!mark.ok()) return mark.error();
    diagram.marks.push_back(*mark);
  }
  for (const std::string& text : options.arrows) {
    const auto arrow = read_arrow(text);
    if (!arrow.ok()) return arrow.error();
    diagram.arrows.push_back(*arrow);
  }
  return diagram;
}

Json drawing_object(const Position& position, const DiagramOptions& diagram) {
  return {{"position", to_text(position)}, {"svg", diagram_svg(position, diagram)}};
}

int run_batch(const DiagramOptions& diagram, Io& io) {
  return answer_batch(io, [&](std::string_view line) -> Result<Json, Failure> {
    const auto position = read_position_of({.text = std::string{line}, .origin = "standard input"});
    if (!position.ok()) return position.error();
    return drawing_object(*position, diagram);
  });
}

int run_draw(const DrawOptions& options, Io& io) {
  if (const auto wrong = misuse(options)) return complain(*wrong, io);
  const auto diagram = diagram_options(options);
  if (!diagram.ok()) return complain(diagram.error(), options.json, io);
  if (options.batch) {
    if (!options.output) return run_batch(*diagram, io);
    return complain(failure("too-many-arguments", "with --batch the pictures go to standard output",
                            "leave out --output, and send standard output to a file"),
                    io);
  }
  const auto given = fetch_line(*options.position, io);
  if (!given.ok()) return complain(given.error(), options.json, io);
  const auto position = read_position_of(*given);
  if (!position.ok()) return complain(position.error(), options.json, io);

  if (options.output && *options.output != "-") {
    const auto wrong = write_file(*options.output, diagram_svg(*position, *diagram));
    if (wrong) return complain(*wrong, options.json, io);
    if (options.json) {
      io.out << to_line({{"position", to_text(*position)}, {"file", *options.output}}) << '\n';
    }
    return exit_fine;
  }
  if (options.json) {
    io.out << to_line(drawing_object(*position, *diagram)) << '\n';
  } else {
    io.out << diagram_svg(*position, *diagram);
  }
  return exit_fine;
}

}  // namespace

void declare_draw(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<DrawOptions>();
  OptionList& list = verb.options;
  add_position_options(list, *options, "a position line");
  list.value("-o,--output", "FILE", options->output, "Write the picture to this file.");
  list.choice("--bottom", {"light", "dark"}, options->bottom,
              "Whose home is at the bottom; light unless this says otherwise.");
  list.choice("--home", {"left", "right"}, options->home,
              "On which hand that side bears off; right unless this says otherwise.");
  list.choice("--numbers", {"light", "dark"}, options->numbers,
              "Whose numbers the points carry; those of the side at the bottom unless this says "
              "otherwise.");
  list.values("--mark", "\"SIDE PLACE\"", options->marks,
              "Point at a place. May be given several times.");
  list.values("--arrow", "\"SIDE FROM/TO\"", options->arrows,
              "Draw an arrow from place to place. May be given several times.");
  list.choice("--theme", {"light", "dark", "print"}, options->theme,
              "The colours; print has greys only.");
  list.value("--names", "LIGHT,DARK", options->names,
             "What the sides are called, such as Ivory,Walnut.");
  list.value("--caption", "TEXT", options->caption, "The title that is read out.");
  list.flag("--board-only", options->board_only,
            "Leave out names, turn, pip counts and score above and below the board.");
  list.flag("--bare", options->bare, "Leave out pip counts and the checkers borne off.");
  verb.act = [options](Io& io) { return run_draw(*options, io); };
}

}  // namespace pointwright::app
