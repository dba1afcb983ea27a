#pragma once

#include <deque>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "app/io.hpp"
#include "app/option_list.hpp"

namespace pointwright::app {

/// A command to try, and what it shows.
struct Example {
  std::string_view command;
  std::string_view shows;
};

/// What is written about a verb. Help, the manual page, the shell completions and the reference are
/// all made from this and from the verb's options.
struct Guide {
  std::string_view name;
  std::string_view summary;  ///< one line
  std::string_view text;     ///< paragraphs, separated by empty lines
  std::vector<Example> examples;
};

/// One verb: what is written about it, what it reads, what it does.
struct Verb {
  Guide guide;
  OptionList options;
  std::function<int(Io&)> act;
};

/// The program: its verbs, and the way from a command line to one of them.
class Program {
 public:
  Program();

  /// Declares a verb. Its options are to be added to `options` of the result, and `act` to be set.
  Verb& declare(Guide guide);

  /// Runs the command line without the program's own name, once. Returns the exit code.
  int run(const std::vector<std::string>& arguments, Io& io);

  [[nodiscard]] const std::deque<Verb>& verbs() const { return verbs_; }
  [[nodiscard]] const Verb* find(std::string_view name) const;

 private:
  int run_verb(Verb& verb, std::vector<std::string> arguments, Io& io);
  int help(const std::vector<std::string>& arguments, Io& io) const;

  std::deque<Verb> verbs_;  ///< a deque, so that references to verbs stay good
};

}  // namespace pointwright::app
