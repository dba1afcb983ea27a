#include "finder/drill.hpp"

#include <algorithm>
#include <array>
#include <functional>
#include <optional>
#include <set>

#include "finder/judged_exercises.hpp"
#include "finder/tempting.hpp"
#include "judge/search.hpp"
#include "judge/shipped.hpp"

namespace pointwright::finder {
namespace {

constexpr int apart = 3;  // checkers by which any two positions of a set differ

Topic rule_topic(const Rule& rule) {
  Topic topic;
  topic.id = std::string(rule.id);
  topic.title = std::string(rule.statement);
  topic.says = "Is the play allowed, and if not, by which rule?";
  topic.question = Topic::Question::ruling;
  topic.rule = &rule;
  const bool of_doubles = rule.id == "whole-double";
  const std::string base = topic.id + (of_doubles ? " and must play 2 to 3 of 4" : "");
  topic.queries = {
      base, base + " and checkers light at least 3 and contact",
      base + " and checkers light at least 4 and checkers dark at least 5 and contact"};
  return topic;
}

Topic topic(std::string id, std::string title, std::string says, Topic::Question question,
            std::vector<std::string> queries, std::string event = "", bool from_games = false) {
  Topic result;
  result.id = std::move(id);
  result.title = std::move(title);
  result.says = std::move(says);
  result.question = question;
  result.queries = std::move(queries);
  result.event = std::move(event);
  result.from_games = from_games;
  return result;
}

std::vector<Topic> all_topics() {
  using Question = Topic::Question;
  std::vector<Topic> topics;
  for (const Temptation& temptation : temptations()) topics.push_back(rule_topic(*temptation.rule));
  topics.push_back(topic("must-play", "How much must be played",
                         "Play a roll of which not everything can be played.", Question::play,
                         {"both-dice and plays 1 to 4", "must play larger and plays 1 to 3",
                          "must play smaller and plays 1 to 3 and checkers light at least 2",
                          "must play 1 to 3 of 4 and plays 1 to 4 and checkers light at least 3",
                          "both-dice and plays 1 to 3 and contact and checkers light at least 4"}));
  topics.push_back(
      topic("bearing-off", "Bearing off", "Play a roll with the checkers at home.", Question::play,
            {"highest-first and plays 1 to 4", "bearing off and plays 1 to 3 and checkers light 4",
             "highest-first and contact and plays 1 to 4 and checkers light at least 4",
             "all-home and plays 1 to 4"}));
  topics.push_back(
      topic("coming-in", "Coming in", "Play a roll with a checker on the bar.", Question::play,
            {"bar 1 and plays 1 to 3 and home points dark 2 and checkers light at least 2",
             "bar-first and plays 1 to 4 and home points dark at least 3",
             "bar 2 and plays 1 to 4 and home points dark at least 2 and checkers light 4"}));
  topics.push_back(
      topic("shots", "Counting shots", "Count the rolls that hit.", Question::chance,
            {"chance hit 2/36 to 34/36 and checkers light 1 and checkers dark 1",
             "chance hit 2/36 to 34/36 and blots dark 1 and points dark 2 and checkers light 2",
             "chance hit 2/36 to 34/36 and blots dark 2 and points dark 2 and checkers light 3"},
            "hit"));
  topics.push_back(topic(
      "entering", "Entering", "Count the rolls that bring a checker in.", Question::chance,
      {"bar 1 and checkers light 2 and home points dark 1 to 3 and chance enter 1/36 to 35/36",
       "bar 1 and home points dark 4 to 5 and chance enter 1/36 to 35/36",
       "bar 2 and home points dark 2 to 4 and chance enter 1/36 to 35/36"},
      "enter"));
  topics.push_back(topic("pip-counts", "Pip counts", "Count the pips of one side.", Question::pips,
                         {"pips at least 20"}, "", true));
  topics.push_back(topic("race", "Who is ahead", "Say who leads in the race, and by how much.",
                         Question::race, {"no contact and lead -12 to 12 and not lead 0"}, "",
                         true));
  topics.push_back(topic("opening-plays", "The first play",
                         "Find the best of several plays of an opening roll.", Question::best_play,
                         {}));
  topics.back().opening = true;
  topics.push_back(topic(
      "best-plays", "The best play", "Find the best of several plays, in positions met in games.",
      Question::best_play, {"best by at least 0.100 and contact and plays at least 5"}, "", true));
  topics.push_back(topic("cubes", "Double? Take?",
                         "Decide about the cube when both sides bear off.", Question::cube, {}));
  return topics;
}

/// Puts the simplest first and says to which third of the set each exercise belongs.
void grade(std::vector<Exercise>& set) {
  std::stable_sort(set.begin(), set.end(),
                   [](const Exercise& a, const Exercise& b) { return a.measure < b.measure; });
  for (std::size_t i = 0; i < set.size(); ++i)
    set[i].grade = 1 + static_cast<int>(3 * i / set.size());
}

using Make = std::function<std::optional<Exercise>(const Finding&, int number)>;

/// Makes a set from queries in turn, and grades it.
std::vector<Exercise> make_set(std::string_view id, const std::vector<std::string>& queries,
                               bool from_games, const DrillOptions& options, const Make& make) {
  std::vector<Exercise> set;
  std::set<std::uint64_t> known;
  std::vector<Finding> findings;
  const int share =
      (options.count + static_cast<int>(queries.size()) - 1) / static_cast<int>(queries.size());
  for (const std::string& text : queries) {
    const auto query = read_query(text);
    if (!query.ok() || static_cast<int>(set.size()) >= options.count) continue;
    const Wanted wanted{*query, options.side, std::nullopt, apart};
    Options search;
    search.seed = options.seed;
    search.road = from_games ? Road::games : Road::build;
    search.count = 4 * share + 4;  // some will not serve
    search.effort.work_to_choose = 60'000;
    int made = 0;
    find(wanted, search, [&](const Found& found) {
      const bool far = std::all_of(findings.begin(), findings.end(), [&](const Finding& other) {
        return difference(found.finding, other) >= apart;
      });
      auto exercise = far ? make(found.finding, static_cast<int>(set.size())) : std::nullopt;
      if (!exercise) return true;
      exercise->topic = std::string(id);
      if (!known.insert(likeness(*exercise)).second) return true;
      findings.push_back(found.finding);
      set.push_back(std::move(*exercise));
      return ++made < share && static_cast<int>(set.size()) < options.count;
    });
  }
  grade(set);
  return set;
}

/// The rolls that can open a game, in an order of their own for each seed.
std::vector<Exercise> opening_set(const Topic& topic, const DrillOptions& options,
                                  judge::Search& search, Random& random) {
  std::vector<Roll> rolls;
  for (const Roll roll : all_rolls()) {
    if (!roll.is_double()) rolls.push_back(roll);
  }
  for (std::size_t i = rolls.size(); i > 1; --i)
    std::swap(rolls[i - 1], rolls[static_cast<std::size_t>(random.below(static_cast<int>(i)))]);
  std::vector<Exercise> set;
  for (const Roll roll : rolls) {
    if (static_cast<int>(set.size()) >= options.count) break;
    auto exercise = ask_best_play({starting_board(), roll}, options.side, options.names, search);
    if (!exercise) continue;
    exercise->topic = topic.id;
    set.push_back(std::move(*exercise));
  }
  grade(set);
  return set;
}

/// Races at home; each answer is right about as often as the others.
std::vector<Exercise> cube_set(const Topic& topic, const DrillOptions& options, Random& random) {
  constexpr int most_tries = 200'000;
  std::vector<Exercise> set;
  std::set<std::uint64_t> known;
  std::array<int, 3> answers{};
  for (int i = 0; i < most_tries && static_cast<int>(set.size()) < options.count; ++i) {
    auto exercise = ask_cube(random_cube_race(random), options.side, options.names);
    if (!exercise) continue;
    // The claims end in hold, double take and double drop.
    const std::size_t answer = exercise->claim.ends_with("hold")   ? 0
                               : exercise->claim.ends_with("take") ? 1
                                                                   : 2;
    if (answers[answer] > *std::min_element(answers.begin(), answers.end())) continue;
    exercise->topic = topic.id;
    if (!known.insert(likeness(*exercise)).second) continue;
    ++answers[answer];
    set.push_back(std::move(*exercise));
  }
  grade(set);
  return set;
}

/// One play in three is allowed, where any is, so that "refused" is not always right.
std::optional<Exercise> ask_ruling_in_turn(const Rule& rule, const Finding& finding, int number,
                                           const DrillOptions& options, Random& random) {
  if (number % 3 == 2) {
    if (auto allowed = ask_ruling(finding, options.side, rule, false, options.names, random))
      return allowed;
  }
  return ask_ruling(finding, options.side, rule, true, options.names, random);
}

/// The first rule of play, or event's chance, that a query speaks of.
template <class Has>
const Predicate* first_with(const Query& query, const Has& has) {
  for (const Predicate* predicate : query.predicates()) {
    if (has(*predicate)) return predicate;
  }
  return nullptr;
}

}  // namespace

const std::vector<Topic>& drill_topics() {
  static const std::vector<Topic> topics = all_topics();
  return topics;
}

const Topic* find_topic(std::string_view id) {
  for (const Topic& topic : drill_topics()) {
    if (topic.id == id) return &topic;
  }
  return nullptr;
}

std::vector<Exercise> drill(const Topic& topic, const DrillOptions& options) {
  Random random(options.seed);
  std::optional<judge::Search> own;
  if (options.search == nullptr) own.emplace(judge::shipped_evaluator());
  judge::Search& search = own ? *own : *options.search;
  if (topic.opening) return opening_set(topic, options, search, random);
  if (topic.question == Topic::Question::cube) return cube_set(topic, options, random);
  const auto make = [&](const Finding& finding, int number) -> std::optional<Exercise> {
    switch (topic.question) {
      case Topic::Question::ruling:
        return ask_ruling_in_turn(*topic.rule, finding, number, options, random);
      case Topic::Question::play:
        return ask_play(finding, options.side, options.names);
      case Topic::Question::chance:
        return ask_chance(finding, options.side, *chance::read_query(topic.event), options.names);
      case Topic::Question::pips:
        return ask_pips(finding, options.side, options.names);
      case Topic::Question::race:
        return ask_race(finding, options.side, options.names, random);
      case Topic::Question::best_play:
        return ask_best_play(finding, options.side, options.names, search);
      case Topic::Question::cube:
        break;
    }
    return std::nullopt;
  };
  return make_set(topic.id, topic.queries, topic.from_games, options, make);
}

std::vector<Exercise> drill(const Query& query, const DrillOptions& options) {
  Random random(options.seed);
  const Predicate* of_rule =
      first_with(query, [](const Predicate& p) { return p.rule && p.play_text.empty(); });
  const Predicate* of_chance =
      first_with(query, [](const Predicate& p) { return p.event && p.kind->name == "chance"; });
  const auto make = [&](const Finding& finding, int number) -> std::optional<Exercise> {
    if (of_rule != nullptr)
      return ask_ruling_in_turn(*of_rule->rule, finding, number, options, random);
    if (of_chance != nullptr)
      return ask_chance(finding, options.side, *of_chance->event, options.names);
    if (!finding.roll) return ask_pips(finding, options.side, options.names);
    if (auto play = ask_play(finding, options.side, options.names)) return play;
    return ask_count(finding, options.side, options.names);
  };
  return make_set("query", {to_text(query)}, false, options, make);
}

}  // namespace pointwright::finder
