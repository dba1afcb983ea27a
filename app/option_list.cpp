#include "app/option_list.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "app/suggest.hpp"

namespace pointwright::app {
namespace {

std::vector<std::string> split(const std::string& names) {
  std::vector<std::string> result;
  std::istringstream text(names);
  for (std::string name; std::getline(text, name, ',');) result.push_back(name);
  return result;
}

}  // namespace

OptionList::OptionList() : reader_(std::make_unique<CLI::App>()) {
  reader_->allow_extras();
  reader_->set_help_flag("-h,--help");
}
OptionList::~OptionList() = default;
OptionList::OptionList(OptionList&&) noexcept = default;
OptionList& OptionList::operator=(OptionList&&) noexcept = default;

void OptionList::flag(const std::string& names, bool& value, const std::string& text) {
  reader_->add_flag(names, value);
  options_.push_back({.names = split(names), .text = text});
}

void OptionList::value(const std::string& names, const std::string& placeholder,
                       std::optional<std::string>& value, const std::string& text) {
  reader_->add_option(names, value);
  options_.push_back({.names = split(names), .value = placeholder, .text = text});
}

void OptionList::values(const std::string& names, const std::string& placeholder,
                        std::vector<std::string>& values, const std::string& text) {
  // One value each time: otherwise an argument after the option would be taken for another.
  reader_->add_option(names, values)->allow_extra_args(false);
  options_.push_back({.names = split(names), .value = placeholder, .text = text, .repeats = true});
}

void OptionList::pair(const std::string& names, const std::string& placeholder,
                      std::vector<std::string>& values, const std::string& text) {
  reader_->add_option(names, values)->expected(2);
  options_.push_back({.names = split(names), .value = placeholder, .text = text});
}

void OptionList::choice(const std::string& names, std::vector<std::string> words,
                        std::optional<std::string>& value, const std::string& text) {
  this->value(names, fmt::format("{}", fmt::join(words, "|")), value, text);
  options_.back().choices = words;
  choices_.push_back(
      {.name = options_.back().names.back(), .words = std::move(words), .value = &value});
}

void OptionList::argument(const std::string& placeholder, std::optional<std::string>& value,
                          const std::string& text, std::vector<std::string> known) {
  reader_->add_option(placeholder, value);
  arguments_.push_back(
      {.names = {placeholder}, .text = text, .choices = std::move(known), .is_argument = true});
}

void OptionList::arguments(const std::string& placeholder, std::vector<std::string>& values,
                           const std::string& text) {
  reader_->add_option(placeholder, values);
  arguments_.push_back(
      {.names = {placeholder}, .text = text, .is_argument = true, .repeats = true});
}

std::vector<Parameter> OptionList::parameters() const {
  std::vector<Parameter> result = arguments_;
  result.insert(result.end(), options_.begin(), options_.end());
  result.push_back({.names = {"-h", "--help"}, .text = "Show this help."});
  return result;
}

Failure OptionList::left_over(const std::string& verb, const std::string& word) const {
  const std::string help = fmt::format("see `pointwright {} --help`", verb);
  if (word.starts_with('-') && word.size() > 1) {
    const std::string option = word.substr(0, word.find('='));
    std::vector<std::string> known;
    for (const Parameter& parameter : parameters()) {
      if (parameter.is_argument) continue;
      known.insert(known.end(), parameter.names.begin(), parameter.names.end());
    }
    return failure("unknown-option", fmt::format("`{}` has no option `{}`", verb, option),
                   did_you_mean(option, known, help));
  }
  return failure("too-many-arguments",
                 fmt::format("`{}` was not expected after the arguments of `{}`", word, verb),
                 "put an argument that contains spaces or semicolons between quotes; " + help);
}

std::optional<Failure> OptionList::wrong_choice() const {
  for (const Choice& choice : choices_) {
    if (!*choice.value) continue;
    const std::string& word = **choice.value;
    if (std::find(choice.words.begin(), choice.words.end(), word) != choice.words.end()) continue;
    return failure(
        "unknown-word", fmt::format("{} cannot be `{}`", choice.name, word),
        did_you_mean(word, choice.words, fmt::format("write {}", fmt::join(choice.words, " or "))));
  }
  return std::nullopt;
}

OptionList::Parsed OptionList::parse(const std::string& verb, std::vector<std::string> arguments) {
  try {
    std::reverse(arguments.begin(), arguments.end());  // the order in which CLI11 takes them
    reader_->parse(std::move(arguments));
  } catch (const CLI::CallForHelp&) {
    return {.help = true, .failure = std::nullopt};
  } catch (const CLI::ParseError& error) {
    return {.help = false,
            .failure = failure("bad-option", error.what(),
                               fmt::format("see `pointwright {} --help`", verb))};
  }
  const std::vector<std::string> extra = reader_->remaining();
  if (!extra.empty()) return {.help = false, .failure = left_over(verb, extra.front())};
  return {.help = false, .failure = wrong_choice()};
}

}  // namespace pointwright::app
