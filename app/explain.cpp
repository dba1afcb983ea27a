#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>

#include "app/json.hpp"
#include "app/options.hpp"
#include "app/suggest.hpp"
#include "app/topics.hpp"
#include "app/verbs.hpp"
#include "rules/ruling.hpp"

namespace pointwright::app {
namespace {

struct ExplainOptions {
  std::optional<std::string> topic;
  bool json = false;
};

const Guide guide{
    .name = "explain",
    .summary = "Explain a rule, a house rule or a diagnostic.",
    .text =
        "Explains what stands behind a name that the program uses: a rule that refused a play, a "
        "house rule of a position line, a diagnostic of a lesson. Rules come with their source, an "
        "example position and a play that they refuse there. Without a name, all are listed.",
    .examples = {{.command = "pointwright explain bar-first",
                  .shows = "What does the referee mean by bar-first?"},
                 {.command = "pointwright explain jacoby", .shows = "What is this house rule?"},
                 {.command = "pointwright explain", .shows = "Everything that can be explained:"}}};

/// Why the rule refuses its own example, in the referee's words; empty where it refuses no play.
std::string example_proof(const Topic& topic) {
  if (topic.attempt.empty()) return {};
  const auto position = read_position(topic.example);
  const auto attempt = read_play(topic.attempt);
  if (!position.ok() || !position->roll || !attempt.ok()) return {};
  return rule_on(*position, *attempt).proof;
}

Json topic_object(const Topic& topic) {
  Json result{{"id", topic.id},
              {"kind", topic.kind},
              {"statement", topic.statement},
              {"explanation", topic.explanation}};
  if (!topic.source.empty()) result["source"] = topic.source;
  if (!topic.example.empty()) result["example"] = topic.example;
  if (!topic.attempt.empty()) {
    result["attempt"] = topic.attempt;
    result["proof"] = example_proof(topic);
  }
  return result;
}

void print_topic(const Topic& topic, Io& io) {
  io.out << painted(Ink::strong, topic.id, io.colour_out)
         << painted(Ink::quiet, fmt::format(" ({})", topic.kind), io.colour_out) << '\n'
         << wrapped(topic.statement, io.width, 2);
  if (!topic.explanation.empty()) io.out << '\n' << wrapped(topic.explanation, io.width, 2);
  if (!topic.example.empty()) {
    io.out << "\nExample\n" << fmt::format("  {}\n", topic.example);
    if (!topic.attempt.empty()) {
      io.out << wrapped(fmt::format("{} is refused. {}", topic.attempt, example_proof(topic)),
                        io.width, 2);
    }
  }
  if (!topic.source.empty()) {
    io.out << "\nSource\n" << wrapped(topic.source, io.width, 2);
  }
}

void print_list(const std::vector<Topic>& all, Io& io) {
  std::size_t widest = 0;
  for (const Topic& topic : all) widest = std::max(widest, topic.id.size());
  std::string_view group;
  for (const Topic& topic : all) {
    if (topic.group != group) {
      if (!group.empty()) io.out << '\n';
      io.out << painted(Ink::strong, topic.group, io.colour_out) << '\n';
      group = topic.group;
    }
    const int indent = static_cast<int>(widest) + 4;
    std::string statement = wrapped(topic.statement, io.width, indent);
    // The first line carries the name in its margin.
    statement.replace(2, topic.id.size(), topic.id);
    io.out << statement;
  }
}

int run_explain(const ExplainOptions& options, Io& io) {
  const std::vector<Topic> all = topics();
  if (!options.topic) {
    if (!options.json) {
      print_list(all, io);
      return exit_fine;
    }
    Json list = Json::array();
    for (const Topic& topic : all) list.push_back(topic_object(topic));
    io.out << to_line({{"topics", std::move(list)}}) << '\n';
    return exit_fine;
  }
  // A position line turns a house rule off by "no-".
  std::string_view wanted = *options.topic;
  const auto find = [&] {
    return std::find_if(all.begin(), all.end(), [&](const Topic& t) { return t.id == wanted; });
  };
  auto topic = find();
  if (topic == all.end() && wanted.starts_with("no-")) {
    wanted.remove_prefix(3);
    topic = find();
  }
  if (topic == all.end()) {
    std::vector<std::string> known;
    for (const Topic& each : all) known.emplace_back(each.id);
    return complain(
        failure("unknown-topic",
                fmt::format("there is nothing called `{}` to explain", *options.topic),
                did_you_mean(*options.topic, known, "`pointwright explain` lists what there is")),
        options.json, io);
  }
  if (options.json) {
    io.out << to_line(topic_object(*topic)) << '\n';
  } else {
    print_topic(*topic, io);
  }
  return exit_fine;
}

}  // namespace

void declare_explain(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<ExplainOptions>();
  std::vector<std::string> names;
  for (const Topic& topic : topics()) names.emplace_back(topic.id);
  verb.options.argument("NAME", options->topic, "What to explain; without it, all is listed.",
                        std::move(names));
  verb.options.flag("--json", options->json, "Answer with one JSON object.");
  verb.act = [options](Io& io) { return run_explain(*options, io); };
}

}  // namespace pointwright::app
