#include "rules/house.hpp"
#include "tools/docs/pages.hpp"

namespace pointwright::docs {
namespace {

/// The rules in which a choice differs from the defaults, as a position line names them.
std::string words_of(const HouseRules& rules) {
  std::string words;
  for (const HouseRule& rule : house_rules()) {
    if (rules.*rule.member == rule.by_default) continue;
    if (!words.empty()) words += ' ';
    if (!(rules.*rule.member)) words += "no-";
    words += rule.name;
  }
  return words;
}

}  // namespace

std::string house_rules_page() {
  std::string page =
      "# House rules\n\n"
      "<!-- Made from rules/house.cpp by pointwright_docs; change it there. -->\n\n"
      "Players agree on some rules before they begin. Each is on or off by name; a position line "
      "writes\nthose that differ from the default after the word `house`: `house jacoby no-cube`.\n"
      "\n| name | by default | says |\n| --- | --- | --- |\n";
  for (const HouseRule& rule : house_rules()) {
    page += "| `" + std::string(rule.name) + "` | " + (rule.by_default ? "on" : "off") + " | " +
            std::string(rule.statement) + " |\n";
  }
  for (const HouseRule& rule : house_rules()) {
    page += "\n## " + std::string(rule.name) + "\n\n" + std::string(rule.statement) + "\n\n" +
            std::string(rule.explanation) + "\n\nBy default it is " +
            (rule.by_default ? "on; `no-" + std::string(rule.name) + "` turns it off"
                             : "off; `" + std::string(rule.name) + "` turns it on") +
            ". Source: " + std::string(rule.source) + ".\n";
  }
  page += "\n## Usual choices\n\n| name | for | house |\n| --- | --- | --- |\n";
  for (const HousePreset& preset : house_presets()) {
    const std::string words = words_of(preset.rules);
    page += "| " + std::string(preset.name) + " | " + std::string(preset.statement) + " | " +
            (words.empty() ? "the defaults" : "`house " + words + "`") + " |\n";
  }
  return page;
}

}  // namespace pointwright::docs
