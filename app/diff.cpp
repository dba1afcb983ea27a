#include <fmt/format.h>

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <sstream>
#include <tuple>

#include "app/compile.hpp"
#include "app/files.hpp"
#include "app/make/folder.hpp"
#include "app/make/kinds.hpp"
#include "app/options.hpp"
#include "app/verbs.hpp"
#include "film/revision.hpp"
#include "press/handout.hpp"
#include "storyboard/json.hpp"

namespace pointwright::app {
namespace {

namespace fs = std::filesystem;

struct DiffOptions {
  std::optional<std::string> before;
  std::optional<std::string> after;
  bool note = false;
  bool json = false;
};

const Guide guide{
    .name = "diff",
    .summary = "Say what changed between two versions of a lesson, and what is out of date.",
    .text =
        "Compares two versions of a lesson or a course: which texts, boards, steps, spoken words, "
        "claims and questions changed, and which files that `build --make` makes of the course are "
        "out of date because of it. Both versions have to be proved.\n\n"
        "A version is a lesson file, a course folder, a storyboard that `build --storyboard` "
        "wrote, or a folder that `build --make` made with the page in it. Of such a folder only "
        "the files "
        "that are in it are named; otherwise all that could have been made. Of what is printed or "
        "shown as slides the chapters are named, of the handout also their pages in the older "
        "version, on A4.\n\n"
        "With --note it prints a note to pin under the published lesson. With --json the answer is "
        "{\"changes\": [{\"what\", \"chapter\", \"where\", \"before\", \"after\"}, …], \"stale\": "
        "[{\"file\", \"parts\"}, …], \"note\"}; \"before\" is null for what is new, \"after\" for "
        "what is gone. The exit code is 0 when nothing changed and 1 when something did.",
    .examples = {{.command = "pointwright diff published.json first-evening",
                  .shows = "What changed since a storyboard was kept:"},
                 {.command = "pointwright diff filming/ first-evening",
                  .shows = "What in a folder of made things is out of date:"},
                 {.command = "pointwright diff old/coming-in.md coming-in.md --note",
                  .shows = "The same as a note for the learners:"}}};

/// One version of a course, and what was published of it where that is known.
struct Version {
  Storyboard storyboard;
  std::string name;
  std::optional<std::set<std::string>> published;
};

/// A file that is out of date, and which parts of it.
struct Stale {
  std::string file;
  std::vector<std::string> parts;  ///< chapters; empty for the whole file
};

constexpr std::size_t largest_storyboard = std::size_t{256} * 1024 * 1024;

Result<Storyboard, Failure> read_storyboard(const std::string& file) {
  const auto text = read_file(file, largest_storyboard);
  if (!text.ok()) return text.error();
  auto storyboard = storyboard_from_json(*text);
  if (storyboard.ok()) return std::move(storyboard.value());
  return failure("bad-storyboard",
                 fmt::format("`{}` is no storyboard: {}: {}", file,
                             storyboard.error().where.empty() ? "/" : storyboard.error().where,
                             storyboard.error().reason),
                 "name a file that `pointwright build --storyboard` wrote");
}

/// A folder that `build --make` made.
Result<Version, Failure> read_made(const fs::path& folder, std::set<std::string> files) {
  constexpr const char* name = "storyboard.json";
  if (!files.contains(name)) {
    return failure("no-storyboard",
                   fmt::format("nobody kept the storyboard of what is in `{}`", folder.string()),
                   "build with `--make page` among the rest, which keeps it as storyboard.json");
  }
  auto storyboard = read_storyboard((folder / name).string());
  if (!storyboard.ok()) return storyboard.error();
  // The page is called after the course.
  std::string course;
  for (const std::string& file : files) {
    const fs::path path = file;
    if (!path.has_parent_path() && path.extension() == ".html" && path != "slides.html") {
      course = path.stem().string();
    }
  }
  return Version{std::move(storyboard.value()), std::move(course), std::move(files)};
}

/// Reads a version. Prints diagnostics of a lesson that is not proved.
Result<Version, Failure> read_version(const std::string& source, bool json, Io& io) {
  if (fs::path(source).extension() == ".json") {
    auto storyboard = read_storyboard(source);
    if (!storyboard.ok()) return storyboard.error();
    return Version{std::move(storyboard.value()), {}, std::nullopt};
  }
  if (auto files = files_made(source)) return read_made(source, std::move(*files));
  auto compiled = compile(source);
  if (!compiled.ok()) return compiled.error();
  if (compiled->outcome() == lesson::Outcome::proved) {
    return Version{std::move(compiled.value().storyboard), course_name(source), std::nullopt};
  }
  if (!json) print_diagnostics(*compiled, io);
  return failure("not-proved", fmt::format("`{}` is not proved: {}", source, summary(*compiled)),
                 "mend it first; `pointwright check` says where");
}

/// A fault in a storyboard that can be read but holds what no lesson compiles to.
Failure no_film(const PageFault& fault) {
  return failure("bad-storyboard",
                 fmt::format("nothing can be made of a storyboard, because of {}: {}", fault.where,
                             fault.reason),
                 "name storyboards that `pointwright build` wrote, unchanged");
}

/// What can be made of a version, by path.
Result<std::map<std::string, std::string>, Failure> recipes_of(const Storyboard& storyboard,
                                                               const std::string& name) {
  auto shots = film::shots_of(storyboard);
  if (!shots.ok()) return no_film(shots.error());
  if (const auto page = page_html(storyboard); !page.ok()) return no_film(page.error());
  const Course course{storyboard, name, std::move(shots.value()), {}};
  std::vector<Product> products;
  for (const Kind& kind : kinds()) kind.add(course, products);
  std::map<std::string, std::string> recipes;
  for (Product& product : products) recipes[product.path] = std::move(product.recipe);
  return recipes;
}

/// The chapters that changed, each with its pages in the older handout if it has any.
struct ChangedChapters {
  std::vector<std::string> titles;
  std::vector<std::string> with_pages;
};

ChangedChapters changed_chapters(const Storyboard& before,
                                 const std::vector<film::RevisionItem>& changes) {
  const auto pages = press::handout_pages(before, {});
  ChangedChapters chapters;
  std::set<std::string> seen;
  bool answers = false;
  for (const film::RevisionItem& item : changes) {
    answers = answers || item.what == film::RevisionItem::What::question;
    if (item.chapter.empty() || !seen.insert(item.chapter_id).second) continue;
    chapters.titles.push_back(item.chapter);
    std::string text = item.chapter;
    for (std::size_t at = 0; pages.ok() && at < before.chapters.size(); ++at) {
      if (before.chapters[at].id == item.chapter_id)
        text += ", " + press::pages_text((*pages).chapters[at]);
    }
    chapters.with_pages.push_back(std::move(text));
  }
  if (answers && pages.ok() && pages->answers) {
    chapters.with_pages.push_back("Answers, " + press::pages_text(*pages->answers));
  }
  return chapters;
}

Result<std::vector<Stale>, Failure> stale_files(const Version& before, const Version& after,
                                                const std::vector<film::RevisionItem>& changes) {
  // What was published is called after the older version.
  const std::string& name = before.name.empty() ? after.name : before.name;
  const auto old = recipes_of(before.storyboard, name.empty() ? "page" : name);
  if (!old.ok()) return old.error();
  const auto now = recipes_of(after.storyboard, name.empty() ? "page" : name);
  if (!now.ok()) return now.error();
  const ChangedChapters chapters = changed_chapters(before.storyboard, changes);
  std::vector<Stale> stale;
  for (const auto& [path, recipe] : *old) {
    if (before.published && !before.published->contains(path)) continue;
    const auto found = now->find(path);
    if (found != now->end() && found->second == recipe) continue;
    Stale& file = stale.emplace_back(Stale{path, {}});
    if (path == "handout.pdf") file.parts = chapters.with_pages;
    if (path == "script.pdf" || path == "slides.html") file.parts = chapters.titles;
  }
  return stale;
}

/// Two single lessons are versions of one another, whatever their files are called.
void match_single_lessons(const Version& before, Version& after) {
  if (before.storyboard.chapters.size() != 1 || after.storyboard.chapters.size() != 1) return;
  after.storyboard.chapters.front().id = before.storyboard.chapters.front().id;
  after.storyboard.chapters.front().file = before.storyboard.chapters.front().file;
}

Json diff_object(const std::vector<film::RevisionItem>& changes, const std::vector<Stale>& stale,
                 const std::string& note) {
  const auto or_null = [](const std::string& text) {
    return text.empty() ? Json(nullptr) : Json(text);
  };
  Json items = Json::array();
  for (const film::RevisionItem& item : changes) {
    items.push_back({{"what", film::name(item.what)},
                     {"chapter", or_null(item.chapter)},
                     {"where", or_null(item.where)},
                     {"before", or_null(item.before)},
                     {"after", or_null(item.after)}});
  }
  Json files = Json::array();
  for (const Stale& file : stale) files.push_back({{"file", file.file}, {"parts", file.parts}});
  return {{"changes", std::move(items)}, {"stale", std::move(files)}, {"note", note}};
}

void print_changes(const std::vector<film::RevisionItem>& changes, Io& io) {
  for (const film::RevisionItem& item : changes) {
    std::string head = item.chapter.empty() ? "the course" : item.chapter;
    head += fmt::format(": {}{}{}", film::name(item.what), item.where.empty() ? "" : " of ",
                        item.where);
    io.out << painted(Ink::strong, harmless(head), io.colour_out) << '\n';
    for (const auto& [sign, text, ink] :
         {std::tuple{"- ", item.before, Ink::bad}, std::tuple{"+ ", item.after, Ink::good}}) {
      if (text.empty()) continue;
      // The sign stands in the indent of the first line.
      std::string lines = wrapped(harmless(text), io.width, 4);
      lines.replace(2, 2, sign);
      io.out << painted(ink, lines, io.colour_out);
    }
  }
}

/// Files in one folder on one line: "clips/  a.mp4, b.mp4".
void print_stale(const std::vector<Stale>& stale, Io& io) {
  io.out << "\nout of date:\n";
  std::map<std::string, std::string> folders;
  for (const Stale& file : stale) {
    const fs::path path = file.file;
    if (path.has_parent_path()) {
      std::string& names = folders[path.parent_path().generic_string()];
      names += (names.empty() ? "" : ", ") + path.filename().string();
      continue;
    }
    io.out << "  " << harmless(file.file) << '\n';
    for (const std::string& part : file.parts) io.out << wrapped(harmless(part), io.width, 4);
  }
  for (const auto& [folder, names] : folders) {
    io.out << "  " << harmless(folder) << "/\n" << wrapped(harmless(names), io.width, 4);
  }
}

int run_diff(const DiffOptions& options, Io& io) {
  if (!options.before || !options.after) {
    return complain(failure("missing-source", "two versions are needed to compare",
                            "name the older and the newer one"),
                    options.json, io);
  }
  const auto before = read_version(*options.before, options.json, io);
  if (!before.ok()) return complain(before.error(), options.json, io);
  auto after = read_version(*options.after, options.json, io);
  if (!after.ok()) return complain(after.error(), options.json, io);
  match_single_lessons(*before, after.value());
  const auto changes = film::compare(before->storyboard, after->storyboard);
  const auto stale = stale_files(*before, *after, changes);
  if (!stale.ok()) return complain(stale.error(), options.json, io);
  const std::string note = film::pinned_note(after->storyboard, changes);
  if (options.json) {
    io.out << to_line(diff_object(changes, *stale, note)) << '\n';
  } else if (options.note) {
    std::istringstream lines(note);
    for (std::string line; std::getline(lines, line);) io.out << harmless(line) << '\n';
  } else if (changes.empty()) {
    io.out << "nothing has changed\n";
  } else {
    print_changes(changes, io);
    if (!stale->empty()) print_stale(*stale, io);
  }
  return changes.empty() ? exit_fine : exit_no;
}

}  // namespace

void declare_diff(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<DiffOptions>();
  verb.options.argument("OLD", options->before, "The older version.");
  verb.options.argument("NEW", options->after, "The newer version.");
  verb.options.flag("--note", options->note, "Print a note to pin under the published lesson.");
  verb.options.flag("--json", options->json, "Answer with one JSON object.");
  verb.act = [options](Io& io) { return run_diff(*options, io); };
}

}  // namespace pointwright::app
