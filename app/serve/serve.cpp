#include <fmt/format.h>

#include <chrono>
#include <memory>
#include <optional>
#include <thread>

#include "app/compile.hpp"
#include "app/interrupt.hpp"
#include "app/options.hpp"
#include "app/serve/preview.hpp"
#include "app/serve/watch.hpp"
#include "app/verbs.hpp"
#include "rules/text.hpp"
#include "serve/server.hpp"

namespace pointwright::app {
namespace {

namespace fs = std::filesystem;

constexpr int usual_port = 3612;
constexpr int largest_port = 65535;
constexpr std::chrono::milliseconds between_looks{150};

struct ServeOptions {
  std::optional<std::string> source;
  std::optional<std::string> port;
  bool json = false;
};

const Guide guide{
    .name = "serve",
    .summary = "Show a lesson in a browser while it is written.",
    .text =
        "Checks the lesson or course, shows its page under an address of this computer, and does "
        "so again whenever a file is saved; a browser that shows the page loads it anew by itself. "
        "What is false or cannot be read stands in the page where it stands in the lesson, with "
        "its line, what is true instead, and a correction to paste; the rest is shown around "
        "it.\n\n"
        "Only browsers on this computer get an answer, and only pages that came from here. Files "
        "beside the lesson, such as a handout, can be reached by its links; hidden files, "
        "symbolic links and everything outside the folder cannot, and a chapter that is a link "
        "out of the folder is not read.\n\n"
        "Ctrl-C ends it. The exit code is then 0, whatever the lesson holds. With --json each "
        "line is an object: first {\"address\"}, then for each version of the lesson what "
        "`check --json` says.",
    .examples = {{.command = "pointwright serve first-evening",
                  .shows = "A course, shown at http://127.0.0.1:3612/:"},
                 {.command = "pointwright serve coming-in.md --port 8080",
                  .shows = "One lesson, at another port:"}}};

Result<int, Failure> port_of(const ServeOptions& options) {
  if (!options.port) return usual_port;
  const auto port = text::number(*options.port, largest_port);
  if (!port) {
    return failure("bad-port", fmt::format("`{}` is no port", harmless(*options.port)),
                   fmt::format("give a number up to {}; 0 lets the system choose", largest_port));
  }
  return static_cast<int>(*port);
}

Failure no_server(const serve::NoServer& why, int port) {
  if (why.port_is_taken) {
    return failure("port-taken", fmt::format("port {} is used by another program", port),
                   "end that program, or choose another port with --port; --port 0 lets the "
                   "system choose");
  }
  return failure("no-server", fmt::format("port {} cannot be used: {}", port, why.reason),
                 "choose another port with --port, such as --port 0 for any that is free");
}

/// The folder whose files are shown and watched.
fs::path folder_of(const fs::path& source) {
  std::error_code error;
  return fs::is_directory(source, error) ? source : source.parent_path();
}

void report(const Result<Compiled, Failure>& compiled, bool json, Io& io) {
  if (!compiled.ok()) {
    complain(compiled.error(), json, io);
  } else if (json) {
    io.out << to_line(compilation_object(*compiled)) << '\n';
  } else {
    print_diagnostics(*compiled, io);
    io.err << summary(*compiled) << '\n';
  }
  io.out.flush();
  io.err.flush();
}

/// Checks the lesson and shows it whenever its folder has changed, until somebody stops it.
void keep_showing(const fs::path& source, serve::Server& server, std::string state,
                  const ServeOptions& options, Io& io) {
  const fs::path folder = folder_of(source);
  while (!InterruptWatch::interrupted() && io.out.good()) {
    std::this_thread::sleep_for(between_looks);
    // The state is taken before the lesson is read, so that nothing saved meanwhile is missed.
    std::string now = state_of(folder);
    if (now == state) continue;
    state = std::move(now);
    const auto compiled = compile(source, Reach::folder);
    server.show(compiled.ok() ? preview_page(*compiled) : preview_page(compiled.error()));
    report(compiled, options.json, io);
  }
}

int run_serve(const ServeOptions& options, Io& io) {
  if (!options.source) {
    return complain(failure("missing-source", "it is not said what to show",
                            "name a lesson file or a course folder"),
                    options.json, io);
  }
  const auto port = port_of(options);
  if (!port.ok()) return complain(port.error(), options.json, io);
  const fs::path source = *options.source;
  std::string state = state_of(folder_of(source));
  const auto compiled = compile(source, Reach::folder);
  if (!compiled.ok()) return complain(compiled.error(), options.json, io);

  const InterruptWatch watch;
  auto server = serve::Server::start(folder_of(source), *port);
  if (!server.ok()) return complain(no_server(server.error(), *port), options.json, io);
  serve::Server& shown = *server.value();
  shown.show(preview_page(*compiled));
  const std::string address = fmt::format("http://127.0.0.1:{}/", shown.port());
  if (options.json) {
    io.out << to_line({{"address", address}}) << '\n';
  } else {
    io.out << address << '\n';
  }
  report(compiled, options.json, io);
  keep_showing(source, shown, std::move(state), options, io);
  return exit_fine;
}

}  // namespace

void declare_serve(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<ServeOptions>();
  verb.options.argument("SOURCE", options->source,
                        "A lesson file, or the folder of a course, which holds course.yaml.");
  verb.options.value("--port", "NUMBER", options->port,
                     fmt::format("The port of the address; {} unless this says otherwise, and any "
                                 "that is free with 0.",
                                 usual_port));
  verb.options.flag("--json", options->json, "Answer with JSON objects, one a line.");
  verb.act = [options](Io& io) { return run_serve(*options, io); };
}

}  // namespace pointwright::app
