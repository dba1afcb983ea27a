#include <fmt/format.h>

#include <filesystem>
#include <memory>
#include <optional>

#include "app/compile.hpp"
#include "app/files.hpp"
#include "app/live.hpp"
#include "app/make/build_folder.hpp"
#include "app/options.hpp"
#include "app/verbs.hpp"
#include "storyboard/json.hpp"
#include "studio/page.hpp"

namespace pointwright::app {
namespace {

namespace fs = std::filesystem;

struct BuildOptions {
  std::optional<std::string> source;
  std::optional<std::string> output;
  std::optional<std::string> storyboard;
  FolderOptions folder;
  bool plain = false;
  bool json = false;
};

const Guide guide{
    .name = "build",
    .summary = "Make the page of a lesson or a course.",
    .text =
        "Checks the lesson or course as `pointwright check` does. When everything is proved it "
        "writes one HTML file, which opens from disk and fetches nothing; otherwise nothing is "
        "written, and a page that was there stays as it is.\n\n"
        "The page is live: it carries the rules of the game as a program, so that a reader can "
        "take "
        "over any board, try a play, and be told why it is refused. It also works without scripts. "
        "With --plain it carries none of that and is smaller: boards step and questions are "
        "checked, but no other play can be tried.\n\n"
        "With --storyboard the checked storyboard is written too, as JSON, for other programs. "
        "With --json the answer is one object: what `check --json` says, and \"page\" and "
        "\"storyboard\", the files that were written.\n\n"
        "With --make it makes a folder of things for filming, for the class and for print. The "
        "folder changes in one step, and only when everything could be made; files that have not "
        "changed are not made again, and files that you put there yourself stay. The answer to "
        "--json then names the files: \"made\", \"kept\", \"removed\", and \"stale\", those "
        "that an earlier build made of an older lesson.",
    .examples = {
        {.command = "pointwright build first-evening",
         .shows = "The page of a course, written to first-evening.html:"},
        {.command = "pointwright build coming-in.md --output pages/",
         .shows = "The page of one lesson, written to pages/coming-in.html:"},
        {.command = "pointwright build first-evening --output filming/ --make script,captions",
         .shows = "Script, list of shots and captions, in a folder:"},
        {.command = "pointwright build first-evening -o page.html --storyboard course.json",
         .shows = "A page of that name, and the storyboard for another program:"}}};

/// Where the page goes. A folder is wanted where one exists or the name ends in a slash.
fs::path page_path(const BuildOptions& options) {
  const std::string name = course_name(*options.source) + ".html";
  if (!options.output) return name;
  fs::path output = *options.output;
  std::error_code error;
  if (!output.has_filename() || fs::is_directory(output, error)) return output / name;
  return output;
}

/// Makes the folder that "--output pages/" asks for.
std::optional<Failure> make_folder(const BuildOptions& options) {
  if (!options.output || fs::path{*options.output}.has_filename()) return std::nullopt;
  std::error_code error;
  fs::create_directories(*options.output, error);
  if (!error) return std::nullopt;
  return failure(
      "cannot-write",
      fmt::format("the folder `{}` cannot be made: {}", *options.output, error.message()),
      "choose a folder that you may write to");
}

/// The compiler's storyboards never give this; if one does, it is a mistake of the program's.
Failure no_page(const PageFault& fault) {
  return failure("no-page",
                 fmt::format("no page can be made, because of {}: {}", fault.where, fault.reason),
                 "this is a mistake in pointwright; the lesson itself is proved");
}

int run_build(const BuildOptions& options, Io& io) {
  if (!options.source) {
    return complain(failure("missing-source", "it is not said what to build",
                            "name a lesson file or a course folder"),
                    options.json, io);
  }
  const auto compilation = compile(*options.source);
  if (!compilation.ok()) return complain(compilation.error(), options.json, io);
  if (!options.json) print_diagnostics(*compilation, io);
  const int exit = exit_of(*compilation);
  Json answer = compilation_object(*compilation);
  if (exit != exit_fine) {
    if (options.json) {
      io.out << to_line(answer) << '\n';
    } else {
      io.err << summary(*compilation) << "; no " << (options.folder.make.empty() ? "page" : "file")
             << " was written\n";
    }
    return exit;
  }
  if (!options.folder.make.empty()) {
    return build_folder(*compilation, course_name(*options.source), options.output, options.folder,
                        options.json, io);
  }

  const Storyboard& storyboard = compilation->storyboard;
  const LiveParts live = course_parts();
  const auto html = page_html(storyboard, options.plain ? nullptr : &live);
  if (!html.ok()) return complain(no_page(html.error()), options.json, io);
  const fs::path page = page_path(options);
  auto wrong = make_folder(options);
  if (!wrong) wrong = write_file(page, *html);
  if (!wrong && options.storyboard) {
    constexpr int indent = 2;
    wrong = write_file(*options.storyboard, to_json(storyboard, indent) + "\n");
  }
  if (wrong) return complain(*wrong, options.json, io);

  if (options.json) {
    answer["page"] = page.string();
    answer["storyboard"] = options.storyboard ? Json(*options.storyboard) : Json(nullptr);
    io.out << to_line(answer) << '\n';
    return exit_fine;
  }
  io.out << page.string() << '\n';
  if (options.storyboard) io.out << *options.storyboard << '\n';
  if (io.out_is_terminal) io.out << summary(*compilation) << '\n';
  return exit_fine;
}

}  // namespace

void declare_build(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<BuildOptions>();
  verb.options.argument("SOURCE", options->source,
                        "A lesson file, or the folder of a course, which holds course.yaml.");
  verb.options.value("-o,--output", "PATH", options->output,
                     "The file of the page, or a folder for it; a name that ends in / is a folder "
                     "to be made. Without it the page is written to the current folder, under the "
                     "name of the source.");
  verb.options.value("--storyboard", "FILE", options->storyboard,
                     "Write the checked storyboard to this file, as JSON.");
  add_folder_options(verb.options, options->folder);
  verb.options.flag("--plain", options->plain,
                    "Leave out what makes the page live; boards cannot be taken over then.");
  verb.options.flag("--json", options->json, "Answer with one JSON object.");
  verb.act = [options](Io& io) { return run_build(*options, io); };
}

}  // namespace pointwright::app
