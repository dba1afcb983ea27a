#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "finder/exercise.hpp"
#include "finder/find.hpp"
#include "judge/search.hpp"

namespace pointwright::finder {

/// Something that can be practised: queries that find positions for it, easy ones first, and the
/// question that is asked about them.
struct Topic {
  enum class Question : std::uint8_t { ruling, play, chance, pips, race, best_play, cube };
  std::string id;
  std::string title;
  std::string says;  ///< one line on what is practised
  Question question = Question::ruling;
  std::vector<std::string> queries;
  std::string event;           ///< for chance: what is counted
  const Rule* rule = nullptr;  ///< for ruling: the rule
  bool from_games = false;     ///< positions come from games rather than being built
  bool opening = false;        ///< the position of a new game, with the rolls that can open it
};

/// Every topic: each rule of play, then the others.
const std::vector<Topic>& drill_topics();

/// The topic of that id, or nullptr.
const Topic* find_topic(std::string_view id);

struct DrillOptions {
  int count = 10;
  std::uint64_t seed = 1;
  Side side = Side::light;
  SideNames names;
  judge::Search* search = nullptr;  ///< finds best plays, by the shipped nets; null: one of its own
};

/// Exercises on a topic, the simplest first: no two alike, not even in mirror image. Fewer than
/// were wanted if no more could be found.
std::vector<Exercise> drill(const Topic& topic, const DrillOptions& options);

/// Exercises on what a query finds; what is asked follows from the query: the ruling where a rule
/// of play is in it, the chance where an event's is, else the play, the number of plays or the
/// pips.
std::vector<Exercise> drill(const Query& query, const DrillOptions& options);

}  // namespace pointwright::finder
