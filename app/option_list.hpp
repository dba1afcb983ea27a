#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/failure.hpp"

namespace CLI {
class App;
}

namespace pointwright::app {

/// One option or argument of a verb, in words.
struct Parameter {
  std::vector<std::string> names{};  ///< "-o", "--output"; for an argument its placeholder alone
  std::string value{};               ///< placeholder of its value; empty for a flag
  std::string text{};
  std::vector<std::string> choices{};  ///< the only words that it may be; empty if it may be any
  bool is_argument = false;
  bool repeats = false;
};

/// The options and arguments of one verb: what help says about them and where their values go.
/// Reading the command line is left to CLI11, which no other file needs to know of.
class OptionList {
 public:
  OptionList();
  ~OptionList();
  OptionList(OptionList&&) noexcept;
  OptionList& operator=(OptionList&&) noexcept;

  /// Names are comma-separated: "-o,--output". The values must live as long as the list.
  void flag(const std::string& names, bool& value, const std::string& text);
  void value(const std::string& names, const std::string& placeholder,
             std::optional<std::string>& value, const std::string& text);
  /// An option that may be given several times.
  void values(const std::string& names, const std::string& placeholder,
              std::vector<std::string>& values, const std::string& text);
  /// An option that takes two values, one after the other; empty if it is not given.
  void pair(const std::string& names, const std::string& placeholder,
            std::vector<std::string>& values, const std::string& text);
  /// An option whose value is one of a few words.
  void choice(const std::string& names, std::vector<std::string> words,
              std::optional<std::string>& value, const std::string& text);
  /// An argument. Whether one may be left out is for the verb to say.
  void argument(const std::string& placeholder, std::optional<std::string>& value,
                const std::string& text, std::vector<std::string> known = {});
  /// All arguments that follow.
  void arguments(const std::string& placeholder, std::vector<std::string>& values,
                 const std::string& text);

  /// The arguments, then the options, each in the order in which they were declared, and --help.
  [[nodiscard]] std::vector<Parameter> parameters() const;

  struct Parsed {
    bool help = false;               ///< --help was given: nothing else counts
    std::optional<Failure> failure;  ///< an unknown option, a missing value, a word too many
  };
  /// Reads a verb's part of the command line into the values. `verb` is named in failures.
  [[nodiscard]] Parsed parse(const std::string& verb, std::vector<std::string> arguments);

 private:
  struct Choice {
    std::string name;
    std::vector<std::string> words;
    const std::optional<std::string>* value;
  };
  [[nodiscard]] Failure left_over(const std::string& verb, const std::string& word) const;
  [[nodiscard]] std::optional<Failure> wrong_choice() const;

  std::unique_ptr<CLI::App> reader_;
  std::vector<Parameter> arguments_;
  std::vector<Parameter> options_;
  std::vector<Choice> choices_;
};

}  // namespace pointwright::app
