#include <fmt/format.h>

#include "app/reference/reference.hpp"

namespace pointwright::app {
namespace {

std::string verb_list(const Program& program) {
  std::string result = "help";
  for (const Verb& verb : program.verbs()) result += fmt::format(" {}", verb.guide.name);
  return result;
}

/// The words that the first argument of a verb may be, where they are known.
std::string first_words(const Verb& verb) {
  for (const Parameter& parameter : verb.options.parameters()) {
    if (parameter.is_argument) return fmt::format("{}", fmt::join(parameter.choices, " "));
  }
  return {};
}

/// A text in single quotes for a POSIX-like shell; `quote` stands for a quote inside it.
std::string shell_quoted(std::string_view text, std::string_view quote) {
  std::string result = "'";
  for (const char c : text) {
    if (c == '\'') {
      result += quote;
    } else {
      result += c;
    }
  }
  return result + "'";
}

/// The first sentence of a text, for the narrow column beside a completion.
std::string first_sentence(std::string_view text) {
  return std::string{text.substr(0, text.find_first_of(".;"))};
}

/// A description inside an _arguments specification, where brackets and colons have a meaning.
std::string zsh_text(std::string_view text) {
  std::string result;
  for (const char c : first_sentence(text)) {
    if (c == '[' || c == ']' || c == ':' || c == '\\') result += '\\';
    result += c;
  }
  return result;
}

std::string zsh_option(const Parameter& parameter) {
  std::string result;
  for (const std::string& name : parameter.names) {
    std::string spec =
        fmt::format("{}{}[{}]", parameter.repeats ? "*" : "", name, zsh_text(parameter.text));
    if (!parameter.choices.empty()) {
      spec += fmt::format(":value:({})", fmt::join(parameter.choices, " "));
    } else if (!parameter.value.empty()) {
      spec += fmt::format(":{}:_files", zsh_text(parameter.value));
    }
    result += fmt::format("        {} \\\n", shell_quoted(spec, "'\\''"));
  }
  return result;
}

}  // namespace

std::string bash_completion(const Program& program) {
  std::string verbs;
  for (const Verb& verb : program.verbs()) {
    std::string options;
    std::string values;
    for (const Parameter& parameter : verb.options.parameters()) {
      if (parameter.is_argument) continue;
      options += fmt::format("{} ", fmt::join(parameter.names, " "));
      if (parameter.value.empty()) continue;
      // Without known words, a value may be a file.
      values += fmt::format("        {}) words=\"{}\" ;;\n", fmt::join(parameter.names, "|"),
                            fmt::join(parameter.choices, " "));
    }
    verbs += fmt::format("    {})\n      options=\"{}\"\n      first=\"{}\"\n", verb.guide.name,
                         options, first_words(verb));
    if (!values.empty()) {
      verbs +=
          fmt::format("      case $before in\n{}        *) takes_value= ;;\n      esac\n", values);
    } else {
      verbs += "      takes_value=\n";
    }
    verbs += "      ;;\n";
  }
  return fmt::format(R"(# Completion of pointwright for bash. Made from the program's own options.
_pointwright() {{
  local word=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD-1]}} verb=${{COMP_WORDS[1]}}
  local options= first= words= takes_value=yes
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "{0} --help --version" -- "$word"))
    return
  fi
  case $verb in
    help)
      COMPREPLY=($(compgen -W "{0}" -- "$word"))
      return
      ;;
{1}    *) return ;;
  esac
  if [ -n "$takes_value" ]; then
    :
  elif [[ $word == -* ]]; then
    words=$options
  elif [ "$COMP_CWORD" -eq 2 ]; then
    words=$first
  fi
  if [ -n "$words" ]; then
    COMPREPLY=($(compgen -W "$words" -- "$word"))
  else
    compopt -o filenames 2>/dev/null
    COMPREPLY=($(compgen -f -- "$word"))
  fi
}}
complete -F _pointwright pointwright
)",
                     verb_list(program), verbs);
}

std::string zsh_completion(const Program& program) {
  std::string summaries;
  std::string cases;
  for (const Verb& verb : program.verbs()) {
    summaries += fmt::format(
        "    {}\n",
        shell_quoted(fmt::format("{}:{}", verb.guide.name, first_sentence(verb.guide.summary)),
                     "'\\''"));
    cases += fmt::format("    {})\n      _arguments -S \\\n", verb.guide.name);
    for (const Parameter& parameter : verb.options.parameters()) {
      if (!parameter.is_argument) cases += zsh_option(parameter);
    }
    const std::string first = first_words(verb);
    if (!first.empty()) cases += fmt::format("        '1:word:({})' \\\n", first);
    cases += "        '*:file:_files'\n      ;;\n";
  }
  return fmt::format(R"(#compdef pointwright
# Completion of pointwright for zsh. Made from the program's own options.
_pointwright() {{
  local -a verbs
  verbs=(
{0}    'help:Show help'
  )
  if (( CURRENT == 2 )); then
    _describe 'verb' verbs
    return
  fi
  local verb=$words[2]
  shift words
  (( CURRENT-- ))
  case $verb in
{1}    help) _describe 'verb' verbs ;;
  esac
}}
_pointwright "$@"
)",
                     summaries, cases);
}

std::string fish_completion(const Program& program) {
  std::string result =
      "# Completion of pointwright for fish. Made from the program's own options.\n"
      "complete -c pointwright -n __fish_use_subcommand -l help -s h -d 'Show help'\n"
      "complete -c pointwright -n __fish_use_subcommand -l version -s V -d 'Show the version'\n";
  const auto quoted = [](std::string_view text) { return shell_quoted(text, "\\'"); };
  for (const Verb& verb : program.verbs()) {
    const std::string_view name = verb.guide.name;
    result += fmt::format("complete -c pointwright -f -n __fish_use_subcommand -a {} -d {}\n", name,
                          quoted(first_sentence(verb.guide.summary)));
    const std::string when =
        fmt::format("complete -c pointwright -n '__fish_seen_subcommand_from {}'", name);
    const std::string first = first_words(verb);
    if (!first.empty()) result += fmt::format("{} -a {}\n", when, quoted(first));
    for (const Parameter& parameter : verb.options.parameters()) {
      if (parameter.is_argument) continue;
      result += when;
      for (const std::string& option : parameter.names) {
        result += option.starts_with("--") ? fmt::format(" -l {}", option.substr(2))
                                           : fmt::format(" -s {}", option.substr(1));
      }
      if (!parameter.choices.empty()) {
        result += fmt::format(" -x -a '{}'", fmt::join(parameter.choices, " "));
      } else if (!parameter.value.empty()) {
        result += " -r";
      }
      result += fmt::format(" -d {}\n", quoted(first_sentence(parameter.text)));
    }
  }
  return result;
}

}  // namespace pointwright::app
