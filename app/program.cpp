#include "app/program.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/failure.hpp"
#include "app/help.hpp"
#include "app/suggest.hpp"
#include "app/verbs.hpp"

namespace pointwright::app {
namespace {

auto named(auto& verbs, std::string_view name) {
  return std::find_if(verbs.begin(), verbs.end(),
                      [&](const Verb& verb) { return verb.guide.name == name; });
}

std::vector<std::string> verb_names(const Program& program) {
  std::vector<std::string> names;
  for (const Verb& verb : program.verbs()) names.emplace_back(verb.guide.name);
  names.emplace_back("help");
  return names;
}

Failure unknown_verb(const Program& program, const std::string& word) {
  return failure("unknown-verb", fmt::format("there is no verb `{}`", word),
                 did_you_mean(word, verb_names(program), "`pointwright --help` lists the verbs"));
}

}  // namespace

Program::Program() {
  declare_check(*this);
  declare_build(*this);
  declare_serve(*this);
  declare_table(*this);
  declare_bench(*this);
  declare_diff(*this);
  declare_draw(*this);
  declare_answer(*this);
  declare_plays(*this);
  declare_rule(*this);
  declare_explain(*this);
  declare_new(*this);
  declare_advise(*this);
  declare_play(*this);
  declare_worth(*this);
  declare_dice(*this);
  declare_chances(*this);
  declare_match(*this);
  declare_race(*this);
  declare_cube(*this);
  declare_tables(*this);
  declare_find(*this);
  declare_drill(*this);
}

Verb& Program::declare(Guide guide) {
  Verb& verb = verbs_.emplace_back();
  verb.guide = std::move(guide);
  return verb;
}

const Verb* Program::find(std::string_view name) const {
  const auto found = named(verbs_, name);
  return found == verbs_.end() ? nullptr : &*found;
}

int Program::run(const std::vector<std::string>& arguments, Io& io) {
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
  } else if (const auto verb = named(verbs_, first); verb != verbs_.end()) {
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

int Program::run_verb(Verb& verb, std::vector<std::string> arguments, Io& io) {
  const OptionList::Parsed parsed =
      verb.options.parse(std::string{verb.guide.name}, std::move(arguments));
  if (parsed.help) {
    io.out << help_screen(verb, io);
    return exit_fine;
  }
  return parsed.failure ? complain(*parsed.failure, io) : verb.act(io);
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
