#include <memory>
#include <optional>

#include "app/claim_memory.hpp"
#include "app/compile.hpp"
#include "app/judging.hpp"
#include "app/options.hpp"
#include "app/verbs.hpp"

namespace pointwright::app {
namespace {

struct CheckOptions {
  std::optional<std::string> source;
  std::optional<std::string> threads;
  bool json = false;
};

const Guide guide{
    .name = "check",
    .summary = "Prove every claim in a lesson or a course.",
    .text =
        "Reads a lesson, or a course with all its chapters, and proves every claim and every right "
        "answer in it. What is false is shown at its line and column with what is true instead, "
        "the proof, and a correction to paste. All claims are checked, even after one fails.\n\n"
        "The exit code is 0 when all is proved, 1 when something is false, and 2 when something "
        "cannot be read. With --json the answer is one object: {\"outcome\", \"chapters\", "
        "\"claims\", \"answers\", \"diagnostics\"}.",
    .examples = {{.command = "pointwright check coming-in.md", .shows = "A single lesson:"},
                 {.command = "pointwright check first-evening",
                  .shows = "A course: the folder that holds course.yaml:"},
                 {.command = "pointwright check --json first-evening",
                  .shows = "The same for an editor or another program:"}}};

int run_check(const CheckOptions& options, Io& io) {
  if (!options.source) {
    return complain(failure("missing-source", "it is not said what to check",
                            "name a lesson file or a course folder"),
                    options.json, io);
  }
  const auto threads = threads_of(options.threads);
  if (!threads.ok()) return complain(threads.error(), options.json, io);
  ClaimMemory memory(memory_folder());
  const auto compilation = compile(*options.source, memory, *threads);
  memory.save();
  if (!compilation.ok()) return complain(compilation.error(), options.json, io);
  if (options.json) {
    io.out << to_line(compilation_object(*compilation)) << '\n';
    return exit_of(*compilation);
  }
  print_diagnostics(*compilation, io);
  const int exit = exit_of(*compilation);
  (exit == exit_fine ? io.out : io.err) << summary(*compilation) << '\n';
  return exit;
}

}  // namespace

void declare_check(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<CheckOptions>();
  verb.options.argument("SOURCE", options->source,
                        "A lesson file, or the folder of a course, which holds course.yaml.");
  verb.options.value("--threads", "NUMBER", options->threads,
                     "How many threads share searches and rollouts; as many as there are "
                     "processors if not given. The answers do not depend on it.");
  verb.options.flag("--json", options->json, "Answer with one JSON object.");
  verb.act = [options](Io& io) { return run_check(*options, io); };
}

}  // namespace pointwright::app
