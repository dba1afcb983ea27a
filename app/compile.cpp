#include "app/compile.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "app/claim_memory.hpp"
#include "app/files.hpp"
#include "app/judging.hpp"
#include "judge/parallel_search.hpp"
#include "judge/shipped.hpp"
#include "table_store/parallel_host.hpp"

namespace pointwright::app {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view course_file = "course.yaml";

/// Whether a name in the folder is a link to somewhere else.
bool leads_out(const fs::path& folder, const std::string& name) {
  std::error_code error;
  const fs::path home = fs::canonical(folder.empty() ? "." : folder, error);
  if (error) return false;
  const fs::path file = fs::weakly_canonical(home / name, error);
  return error ||
         std::mismatch(home.begin(), home.end(), file.begin(), file.end()).first != home.end();
}

/// A host that reads the files of one folder.
lesson::Host host_of(const fs::path& folder, const lesson::Help& help, Reach reach) {
  return {
      .read = [folder, reach](const std::string& name) -> Result<std::string, lesson::ReadFailure> {
        if (reach == Reach::folder && leads_out(folder, name))
          return lesson::ReadFailure{.reason =
                                         "it is a symbolic link that leads out of the folder"};
        // One byte more than the compiler takes, so that it sees that a file is too large.
        const auto contents = read_file(folder / name, lesson::largest_file + 1);
        if (!contents.ok())
          return lesson::ReadFailure{.reason = contents.error().faults.front().reason};
        return *contents;
      },
      .help = help};
}

/// "1 claim", "2 claims".
std::string counted(std::size_t n, std::string_view one) {
  return fmt::format("{} {}{}", n, one, n == 1 ? "" : "s");
}
std::string counted(int n, std::string_view one) {
  return counted(static_cast<std::size_t>(n), one);
}

Json tally_object(const lesson::Tally& tally) {
  return {{"written", tally.written},
          {"proved", tally.proved},
          {"refuted", tally.refuted},
          {"unchecked", tally.unchecked()}};
}

std::string_view name(lesson::Outcome outcome) {
  switch (outcome) {
    case lesson::Outcome::proved:
      return "proved";
    case lesson::Outcome::false_claim:
      return "false-claim";
    case lesson::Outcome::bad_input:
      return "bad-input";
  }
  return {};
}

/// The diagnostic with its file named as seen from the current folder, for editors and terminals
/// that open what they are pointed at.
lesson::Diagnostic located(lesson::Diagnostic diagnostic, const Compiled& compiled) {
  diagnostic.file = (compiled.folder / diagnostic.file).string();
  return diagnostic;
}

}  // namespace

Result<Compiled, Failure> compile(const fs::path& source, Reach reach) {
  ClaimMemory memory(memory_folder());
  auto compiled = compile(source, memory, threads_by_default(), reach);
  memory.save();
  return compiled;
}

Result<Compiled, Failure> compile(const fs::path& source, lesson::Memo& memo, unsigned threads,
                                  Reach reach) {
  const BuildHost crew = parallel_host(threads);
  judge::ParallelSearch search(judge::shipped_evaluator(), crew, threads);
  const lesson::Help help{.memo = &memo, .search = &search, .workers = &crew};
  std::error_code error;
  const fs::file_status status = fs::status(source, error);
  if (!fs::exists(status)) {
    return failure("no-such-source", fmt::format("there is no `{}`", source.string()),
                   "name a lesson file or a course folder; `pointwright new` starts one");
  }
  if (fs::is_directory(status)) {
    if (!fs::exists(source / course_file, error)) {
      return failure("no-course",
                     fmt::format("`{}` is a folder without a {}", source.string(), course_file),
                     "name a course folder, or a single lesson file in this one");
    }
    return Compiled{lesson::compile_course(host_of(source, help, reach)), source};
  }
  const fs::path folder = source.parent_path();
  const lesson::Host host = host_of(folder, help, reach);
  const std::string file = source.filename().string();
  if (file == course_file) return Compiled{lesson::compile_course(host), folder};
  return Compiled{lesson::compile_lesson(host, file), folder};
}

std::string course_name(const std::filesystem::path& source) {
  std::error_code error;
  std::filesystem::path path = std::filesystem::weakly_canonical(source, error);
  if (error) path = source;
  if (path.filename() == "course.yaml") path = path.parent_path();
  const std::filesystem::path name =
      std::filesystem::is_directory(path, error) ? path.filename() : path.stem();
  return name.empty() ? "page" : name.string();
}

void print_diagnostics(const Compiled& compiled, Io& io) {
  for (const lesson::Diagnostic& diagnostic : compiled.diagnostics) {
    io.err << lesson::render(located(diagnostic, compiled), compiled.source_of(diagnostic),
                             {.width = io.width, .colour = io.colour_err})
           << '\n';
  }
}

Json compilation_object(const Compiled& compiled) {
  Json diagnostics = Json::array();
  for (const lesson::Diagnostic& diagnostic : compiled.diagnostics) {
    diagnostics.push_back(
        lesson::to_json(located(diagnostic, compiled), compiled.source_of(diagnostic)));
  }
  return {{"outcome", name(compiled.outcome())},
          {"chapters", compiled.storyboard.chapters.size()},
          {"claims", tally_object(compiled.claims)},
          {"answers", tally_object(compiled.answers)},
          {"diagnostics", std::move(diagnostics)}};
}

std::string summary(const lesson::Compilation& compilation) {
  const lesson::Tally& claims = compilation.claims;
  const lesson::Tally& answers = compilation.answers;
  const std::string of =
      fmt::format("{}: ", counted(compilation.storyboard.chapters.size(), "chapter"));
  if (compilation.outcome() == lesson::Outcome::proved) {
    return of + fmt::format("{} and {} proved", counted(claims.written, "claim"),
                            counted(answers.written, "answer"));
  }
  std::size_t errors = 0;
  for (const lesson::Diagnostic& diagnostic : compilation.diagnostics) {
    if (diagnostic.kind->severity == lesson::Severity::error) ++errors;
  }
  return of + fmt::format("{}; {} of {} proved, {} of {} proved", counted(errors, "error"),
                          claims.proved, counted(claims.written, "claim"), answers.proved,
                          counted(answers.written, "answer"));
}

int exit_of(const lesson::Compilation& compilation) {
  switch (compilation.outcome()) {
    case lesson::Outcome::proved:
      return exit_fine;
    case lesson::Outcome::false_claim:
      return exit_no;
    case lesson::Outcome::bad_input:
      return exit_bad_input;
  }
  return exit_bad_input;
}

}  // namespace pointwright::app
