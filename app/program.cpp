#include "app/program.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/failure.hpp"
#include "app/help.hpp"
#include "app/suggest.hpp"
#include "app/verbs.hpp"

namespace pointwright::app {
namespace {

std::vector<std::string> verb_names(const Program& program) {
  std::vector<std::string> names;
  for (const Verb& verb : program.verbs()) names.emplace_back(verb.guide.name);
  names.emplace_back("help");
  return names;
}

std::vector<std::string> option_names(const Verb& verb) {
  std::vector<std::string> names{"--help"};
  for (const Parameter& parameter : parameters(verb)) {
    if (parameter.is_argument) continue;
    names.insert(names.end(), parameter.names.begin(), parameter.names.end());
  }
  return names;
}

Failure unknown_verb(const Program& program, const std::string& word) {
  return failure("unknown-verb", fmt::format("there is no verb `{}`", word),
                 did_you_mean(word, verb_names(program), "`pointwright --help` lists the verbs"));
}

Failure left_over(const Verb& verb, const std::string& word) {
  const std::string help = fmt::format("see `pointwright {} --help`", verb.guide.name);
  if (word.starts_with('-') && word.size() > 1) {
    const std::string option = word.substr(0, word.find('='));
    return failure("unknown-option",
                   fmt::format("`{}` has no option `{}`", verb.guide.name, option),
                   did_you_mean(option, option_names(verb), help));
  }
  return failure(
      "too-many-arguments",
      fmt::format("`{}` was not expected after the arguments of `{}`", word, verb.guide.name),
      "put an argument that contains spaces or semicolons between quotes; " + help);
}

}  // namespace

Program::Program() {
  declare_plays(*this);
  declare_rule(*this);
  declare_explain(*this);
  declare_new(*this);
}

Verb& Program::declare(Guide guide) {
  Verb& verb = verbs_.emplace_back();
  verb.options = std::make_unique<CLI::App>(std::string{guide.summary});
  verb.options->allow_extras();
  verb.options->set_help_flag("-h,--help", "Show this help.");
  verb.guide = std::move(guide);
  return verb;
}

const Verb* Program::find(std::string_view name) const {
  const auto found = std::find_if(verbs_.begin(), verbs_.end(),
                                  [&](const Verb& verb) { return verb.guide.name == name; });
  return found == verbs_.end() ? nullptr : &*found;
}

int Program::run(const std::vector<std::string>& arguments, Io& io) const {
  if (arguments.empty()) {
    io.err << help_screen(*this, io);
    return exit_bad_input;
  }
  const std::string& first = arguments.front();
  const std::vector<std::string> rest(arguments.begin() + 1, arguments.end());
  int exit = exit_fine;
  if (first == "--version" || first == "-V") {
    io.out << version_line() << '\n';
  } else if (first == "--help" || first == "-h" || first == "help") {
    exit = help(rest, io);
  } else if (const Verb* verb = find(first)) {
    exit = run_verb(*verb, rest, io);
  } else if (first.starts_with('-')) {
    exit = complain(
        failure("unknown-option", fmt::format("there is no option `{}` before the verb", first),
                did_you_mean(first, {"--help", "--version"},
                             "options follow the verb: `pointwright plays --json POSITION`")),
        io);
  } else {
    exit = complain(unknown_verb(*this, first), io);
  }
  io.out.flush();
  if (!io.out.good()) {
    return complain(failure("cannot-write", "the answer cannot be written to standard output",
                            "see whether the disk is full or the pipe is closed"),
                    io);
  }
  return exit;
}

int Program::run_verb(const Verb& verb, std::vector<std::string> arguments, Io& io) const {
  try {
    std::reverse(arguments.begin(), arguments.end());  // the order in which CLI11 takes them
    verb.options->parse(std::move(arguments));
  } catch (const CLI::CallForHelp&) {
    io.out << help_screen(verb, io);
    return exit_fine;
  } catch (const CLI::ParseError& error) {
    return complain(failure("bad-option", error.what(),
                            fmt::format("see `pointwright {} --help`", verb.guide.name)),
                    io);
  }
  const std::vector<std::string> extra = verb.options->remaining();
  if (!extra.empty()) return complain(left_over(verb, extra.front()), io);
  return verb.act(io);
}

int Program::help(const std::vector<std::string>& arguments, Io& io) const {
  if (arguments.empty()) {
    io.out << help_screen(*this, io);
    return exit_fine;
  }
  const Verb* verb = find(arguments.front());
  if (verb == nullptr) return complain(unknown_verb(*this, arguments.front()), io);
  io.out << help_screen(*verb, io);
  return exit_fine;
}

}  // namespace pointwright::app
