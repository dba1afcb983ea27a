#include "app/topics.hpp"

#include <fmt/format.h>

#include "lesson/diagnostic.hpp"
#include "rules/house.hpp"
#include "rules/rulebook.hpp"

namespace pointwright::app {
namespace {

struct RuleGroup {
  std::string_view kind;
  std::string_view heading;
};

RuleGroup group_of(Rule::About about) {
  switch (about) {
    case Rule::About::play:
      return {.kind = "rule of play", .heading = "Which plays are allowed"};
    case Rule::About::turn:
      return {.kind = "rule of the turn", .heading = "The turn"};
    case Rule::About::game:
      return {.kind = "rule of the game", .heading = "The game"};
    case Rule::About::cube:
      return {.kind = "rule of the cube", .heading = "The cube"};
    case Rule::About::match:
      return {.kind = "rule of the match", .heading = "The match"};
  }
  return {};
}

void add_rules(std::vector<Topic>& topics) {
  for (const Rule::About about : {Rule::About::game, Rule::About::turn, Rule::About::play,
                                  Rule::About::cube, Rule::About::match}) {
    const RuleGroup group = group_of(about);
    for (const Rule* rule : rulebook()) {
      if (rule->about != about) continue;
      topics.push_back({.id = rule->id,
                        .kind = group.kind,
                        .group = group.heading,
                        .statement = std::string{rule->statement},
                        .explanation = rule->explanation,
                        .source = rule->source,
                        .example = rule->example,
                        .attempt = rule->attempt});
    }
  }
}

void add_house_rules(std::vector<Topic>& topics) {
  for (const HouseRule& rule : house_rules()) {
    topics.push_back({.id = rule.name,
                      .kind = rule.by_default ? "house rule, on unless a position says otherwise"
                                              : "house rule, off unless a position says otherwise",
                      .group = "House rules",
                      .statement = std::string{rule.statement},
                      .explanation = rule.explanation,
                      .source = rule.source});
  }
}

void add_diagnostics(std::vector<Topic>& topics) {
  for (const lesson::DiagnosticKind* kind : lesson::diagnostic_kinds()) {
    topics.push_back({.id = kind->id,
                      .kind = "diagnostic of a lesson",
                      .group = "Diagnostics of lessons",
                      .statement = std::string{kind->meaning}});
  }
}

}  // namespace

std::vector<Topic> topics() {
  std::vector<Topic> result;
  add_rules(result);
  add_house_rules(result);
  add_diagnostics(result);
  return result;
}

}  // namespace pointwright::app
