#include <fmt/format.h>

#include <filesystem>
#include <memory>
#include <optional>

#include "app/files.hpp"
#include "app/json.hpp"
#include "app/options.hpp"
#include "app/suggest.hpp"
#include "app/templates.hpp"
#include "app/verbs.hpp"

namespace pointwright::app {
namespace {

namespace fs = std::filesystem;

struct NewOptions {
  std::optional<std::string> kind;
  std::optional<std::string> path;
  std::optional<std::string> title;
  bool json = false;
};

const Guide guide{
    .name = "new",
    .summary = "Start a lesson or a course from a template.",
    .text =
        "Writes a lesson file, or a course folder with two chapters, that passes `pointwright "
        "check` as it stands: change it into your own. Nothing is ever overwritten.",
    .examples = {{.command = "pointwright new lesson coming-in.md", .shows = "A single lesson:"},
                 {.command = "pointwright new course first-evening --title \"The first evening\"",
                  .shows = "A course in a folder of its own:"}}};

/// "coming-in.md" -> "Coming in".
std::string title_from(const fs::path& path) {
  std::string title = path.stem().string();
  for (char& c : title) {
    if (c == '-' || c == '_') c = ' ';
  }
  if (!title.empty() && title[0] >= 'a' && title[0] <= 'z') {
    title[0] = static_cast<char>(title[0] - 'a' + 'A');
  }
  return title;
}

std::optional<Failure> misuse(const NewOptions& options) {
  if (!options.kind) {
    return failure("missing-kind", "it is not said what to start",
                   "write `pointwright new lesson FILE` or `pointwright new course FOLDER`");
  }
  if (*options.kind != "lesson" && *options.kind != "course") {
    return failure("unknown-kind", fmt::format("there is no template `{}`", *options.kind),
                   did_you_mean(*options.kind, {"lesson", "course"},
                                "the templates are `lesson` and `course`"));
  }
  if (!options.path || options.path->empty()) {
    return failure("missing-path", fmt::format("the {} has no name", *options.kind),
                   *options.kind == "lesson" ? "write `pointwright new lesson coming-in.md`"
                                             : "write `pointwright new course first-evening`");
  }
  return std::nullopt;
}

int run_new(const NewOptions& options, Io& io) {
  if (const auto wrong = misuse(options)) return complain(*wrong, options.json, io);
  const bool is_course = *options.kind == "course";
  fs::path path = *options.path;
  if (is_course && !path.has_filename()) path = path.parent_path();
  if (!is_course && !path.has_extension()) path += ".md";
  const std::string title = options.title.value_or(title_from(path));

  std::vector<std::string> created;
  std::optional<Failure> wrong;
  if (is_course) {
    const std::vector<FileText> files = course_template(title);
    wrong = write_new_folder(path, files);
    for (const FileText& file : files) created.push_back((path / file.name).string());
  } else {
    wrong = write_new_file(path, lesson_template(title));
    created.push_back(path.string());
  }
  if (wrong) return complain(*wrong, options.json, io);
  if (options.json) {
    io.out << to_line({{"created", created}}) << '\n';
    return exit_fine;
  }
  for (const std::string& file : created) io.out << file << '\n';
  if (io.out_is_terminal) {
    io.out << painted(Ink::quiet,
                      fmt::format("Next: pointwright check {0}, then pointwright build {0}",
                                  path.string()),
                      io.colour_out)
           << '\n';
  }
  return exit_fine;
}

}  // namespace

void declare_new(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<NewOptions>();
  verb.options.argument("KIND", options->kind, "`lesson` or `course`.", {"lesson", "course"});
  verb.options.argument("PATH", options->path,
                        "The file of the lesson (.md is added to a name without an ending), or the "
                        "folder of the course.");
  verb.options.value("--title", "TEXT", options->title,
                     "The title; otherwise it is made from the name.");
  verb.options.flag("--json", options->json, "Answer with one JSON object.");
  verb.act = [options](Io& io) { return run_new(*options, io); };
}

}  // namespace pointwright::app
