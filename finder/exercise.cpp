#include "finder/exercise.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>

#include "chance/next_roll.hpp"
#include "finder/tempting.hpp"
#include "rules/ruling_wording.hpp"

namespace pointwright::finder {
namespace {

using wording::sentence;

constexpr std::size_t most_accepted_plays = 4;
constexpr std::size_t most_wrong_plays = 4;

int occupied(const Board& board) {
  int places = 0;
  for (const Camp& camp : board.camps)
    places += static_cast<int>(
        std::count_if(camp.begin() + 1, camp.end(), [](std::uint8_t n) { return n > 0; }));
  return places;
}

/// Checkers, the places where they stand, and half of the plays: what has to be looked through.
int measure_of(const Board& board, int plays) {
  return in_play(board, Side::light) + in_play(board, Side::dark) + occupied(board) +
         std::min(plays, 20) / 2;
}

Exercise exercise_on(Exercise::Kind kind, const Finding& finding, Side side) {
  Exercise exercise;
  exercise.kind = kind;
  exercise.position.board = finding.board;
  exercise.position.turn = side;
  exercise.position.roll = finding.roll;
  return exercise;
}

std::string as_code(std::string_view play) {
  return "`" + std::string(play) + "`";
}

std::string refusal_choice(const Rule& rule) {
  return "Refused. " + std::string(rule.statement);
}

template <class T>
void shuffle(std::vector<T>& items, Random& random) {
  for (std::size_t i = items.size(); i > 1; --i)
    std::swap(items[i - 1], items[static_cast<std::size_t>(random.below(static_cast<int>(i)))]);
}

/// Rules of play other than that one, in an order of their own for each exercise.
std::vector<const Rule*> other_rules(const Rule& rule, Random& random) {
  std::vector<const Rule*> others;
  for (const Temptation& temptation : temptations()) {
    if (temptation.rule != &rule) others.push_back(temptation.rule);
  }
  shuffle(others, random);
  return others;
}

}  // namespace

std::uint64_t likeness(const Exercise& exercise) {
  Position position = exercise.position;
  if (position.turn == Side::dark) {
    position.board = swapped(position.board);
    position.turn = Side::light;
  }
  std::uint64_t mixed = hash(position);
  for (const char c : exercise.topic)
    mixed = mixed * 1'099'511'628'211U + static_cast<unsigned char>(c);
  return mixed;
}

std::optional<Exercise> ask_ruling(const Finding& finding, Side side, const Rule& rule,
                                   bool refused, const SideNames& names, Random& random) {
  if (!finding.roll) return std::nullopt;
  Exercise exercise = exercise_on(Exercise::Kind::choice, finding, side);
  Facts facts(side);
  facts.look_at(finding.board, finding.roll);
  std::string play;
  if (refused) {
    std::vector<Tempting> found;
    temptation_of(rule)->list(facts, 8, found);
    if (found.empty()) return std::nullopt;
    play = written(found[static_cast<std::size_t>(random.below(static_cast<int>(found.size())))]);
  } else {
    if (facts.plays().empty()) return std::nullopt;
    const int pick = random.below(static_cast<int>(facts.plays().size()));
    play = to_text(facts.plays()[static_cast<std::size_t>(pick)].play);
  }
  const auto attempt = read_play(play);
  if (!attempt.ok()) return std::nullopt;
  const Ruling ruling = rule_on(exercise.position, *attempt, names);
  if (ruling.allowed == refused || (refused && ruling.rule != &rule)) return std::nullopt;
  const std::string wish = play == "no play" ? "pass the turn" : "play " + as_code(play);
  exercise.ask = sentence(names[side] + " has rolled " + to_text(*finding.roll) +
                          " and would like to " + wish + ". What does the referee say?");
  exercise.why = ruling.proof;
  const auto others = other_rules(rule, random);
  if (refused) {
    exercise.claim = "illegal " + play + " because " + std::string(rule.id);
    exercise.right.push_back({refusal_choice(rule), ruling.proof});
    exercise.wrong.push_back({"Allowed.", "No, by " + std::string(rule.id) + ": " + ruling.proof});
  } else {
    exercise.claim = "legal " + play;
    exercise.right.push_back({"Allowed.", ruling.proof});
    exercise.wrong.push_back({refusal_choice(rule), "That rule is kept. " + ruling.proof});
  }
  for (std::size_t i = 0; i < 2; ++i) {
    exercise.wrong.push_back(
        {refusal_choice(*others[i]),
         refused ? "That is a rule, but another decides here, " + std::string(rule.id) + ": " +
                       ruling.proof
                 : "That rule, " + std::string(others[i]->id) + ", is kept. " + ruling.proof});
  }
  exercise.measure = measure_of(finding.board, static_cast<int>(facts.plays().size()));
  return exercise;
}

std::optional<Exercise> ask_play(const Finding& finding, Side side, const SideNames& names) {
  if (!finding.roll) return std::nullopt;
  Exercise exercise = exercise_on(Exercise::Kind::play, finding, side);
  Facts facts(side);
  facts.look_at(finding.board, finding.roll);
  const auto& plays = facts.plays();
  if (plays.empty() || plays.size() > most_accepted_plays) return std::nullopt;
  for (const LegalPlay& legal : plays) exercise.right.push_back({to_text(legal.play), ""});
  std::vector<Tempting> found;
  // The later rules tempt more; nobody has to be told that the other side's checkers are not his.
  const auto& all = temptations();
  for (auto at = all.rbegin(); at != all.rend() - 3; ++at) {
    const Temptation& temptation = *at;
    temptation.list(facts, 2, found);
    for (const Tempting& tempting : found) {
      const std::string play = written(tempting);
      const auto attempt = read_play(play);
      const bool known = std::any_of(exercise.wrong.begin(), exercise.wrong.end(),
                                     [&](const Choice& wrong) { return wrong.text == play; });
      if (play == "no play" || known || !attempt.ok()) continue;
      if (exercise.wrong.size() >= most_wrong_plays) break;
      const Ruling ruling = rule_on(exercise.position, *attempt, names);
      if (ruling.allowed || ruling.rule != temptation.rule) continue;
      exercise.wrong.push_back({play, std::string(ruling.rule->statement) + " " + ruling.proof});
    }
  }
  exercise.ask = sentence(names[side] + " has rolled " + to_text(*finding.roll) + ". Play it" +
                          (plays.size() == 1 ? "; there is only one way." : "."));
  exercise.why = explain_obligation(exercise.position, names);
  exercise.measure = measure_of(finding.board, static_cast<int>(plays.size())) +
                     2 * static_cast<int>(exercise.wrong.size());
  return exercise;
}

std::optional<Exercise> ask_chance(const Finding& finding, Side side, const chance::Query& query,
                                   const SideNames& names) {
  Exercise exercise = exercise_on(Exercise::Kind::number, finding, side);
  exercise.position.roll.reset();
  const chance::NextRoll next(finding.board, side);
  const chance::Count count = chance::count(next, query);
  exercise.number = count.ways;
  exercise.claim = "chance " + chance::to_text(query) + " " + std::to_string(count.ways) + "/36";
  exercise.ask = "With how many of the 36 rolls " + std::string(chance::verb(query.mode)) + " " +
                 names[side] + " " + chance::phrase(query.event) + "?";
  exercise.why = sentence(chance::explain(next, query, names));
  exercise.measure =
      measure_of(finding.board, 0) + 2 * std::min<int>(static_cast<int>(count.rolls.size()), 10);
  return exercise;
}

std::optional<Exercise> ask_pips(const Finding& finding, Side side, const SideNames& names) {
  Exercise exercise = exercise_on(Exercise::Kind::number, finding, side);
  exercise.position.roll.reset();
  exercise.number = pip_count(finding.board, side);
  exercise.claim = "pips " + std::string(name(side)) + " " + std::to_string(exercise.number);
  exercise.ask = "What is " + wording::possessive(names[side]) + " pip count?";
  const Camp& camp = finding.board.of(side);
  std::string sum;
  for (Place place = bar_place; place >= 1; --place) {
    if (camp[place] == 0) continue;
    sum += (sum.empty() ? "" : " + ") + std::to_string(camp[place]) + " x " + std::to_string(place);
  }
  exercise.why = sum + " = " + std::to_string(exercise.number) + ".";
  exercise.measure = 3 * occupied(finding.board) + in_play(finding.board, side);
  return exercise;
}

std::optional<Exercise> ask_race(const Finding& finding, Side side, const SideNames& names,
                                 Random& random) {
  Exercise exercise = exercise_on(Exercise::Kind::choice, finding, side);
  exercise.position.roll.reset();
  const Side other = opponent(side);
  const std::array<int, 2> pips{pip_count(finding.board, Side::light),
                                pip_count(finding.board, Side::dark)};
  const int lead = pips[index(other)] - pips[index(side)];
  if (lead == 0) return std::nullopt;
  const Side ahead = lead > 0 ? side : other;
  const int by = std::abs(lead);
  const auto says = [&](Side who, int pips_ahead) {
    return sentence(names[who] + ", by " + std::to_string(pips_ahead) + ".");
  };
  const std::string counts =
      sentence(names[side] + " has " + std::to_string(pips[index(side)]) + " pips to go, " +
               names[other] + " " + std::to_string(pips[index(other)]) + ".");
  exercise.ask = "Who is ahead in the race, and by how many pips?";
  exercise.claim = "pips " + std::string(name(ahead)) + " " + std::to_string(pips[index(ahead)]);
  exercise.right.push_back({says(ahead, by), counts});
  const int slip = by > 3 ? by - 1 - random.below(2) : by + 1 + random.below(3);
  exercise.wrong.push_back({says(ahead, slip), "Not quite. " + counts});
  exercise.wrong.push_back(
      {says(opponent(ahead), by), "The side with fewer pips to go is ahead. " + counts});
  exercise.why = counts;
  exercise.measure = 3 * occupied(finding.board) + std::max(0, 20 - by);
  return exercise;
}

std::optional<Exercise> ask_count(const Finding& finding, Side side, const SideNames& names) {
  if (!finding.roll) return std::nullopt;
  Exercise exercise = exercise_on(Exercise::Kind::number, finding, side);
  const auto plays = legal_plays(finding.board, side, *finding.roll);
  exercise.number = static_cast<int>(plays.size());
  exercise.claim = "plays " + std::to_string(exercise.number);
  exercise.ask = sentence(names[side] + " has rolled " + to_text(*finding.roll) +
                          ". How many legal plays are there, if plays that lead to the same board "
                          "count as one?");
  exercise.why = explain_obligation(exercise.position, names);
  exercise.measure = measure_of(finding.board, exercise.number);
  return exercise;
}

}  // namespace pointwright::finder
