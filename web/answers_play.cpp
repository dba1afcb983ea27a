// What may be played.

#include <algorithm>

#include "rules/book/must_play.hpp"
#include "rules/notation.hpp"
#include "rules/obligation.hpp"
#include "rules/score.hpp"
#include "web/answers.hpp"
#include "web/turn.hpp"

namespace pointwright::web {
namespace {

/// The position of a request that needs a roll, or the answer that says what is missing.
Result<Position, Json> rolled(const Request& request) {
  auto position = position_of(request);
  if (!position) return faults_object(position.error());
  if (!position->turn || !position->roll)
    return error_object("no-roll",
                        "The position says neither whose turn it is nor what was rolled.");
  return *position;
}

Json ruling_object(const Ruling& ruling) {
  Json answer = Json::object();
  answer.set("allowed", ruling.allowed);
  if (ruling.allowed)
    return answer.set("play", to_text(ruling.play)).set("after", to_text(ruling.after));
  answer.set("proof", ruling.proof);
  if (ruling.rule != nullptr)
    answer.set("rule", ruling.rule->id).set("statement", ruling.rule->statement);
  Json alternatives = Json::list();
  for (const Play& play : ruling.alternatives) alternatives.add(to_text(play));
  return answer.set("alternatives", alternatives);
}

/// Moves that were made in a turn, with the board that they led to.
struct Made {
  Board board;
  std::string text;
};

/// Makes each move as it is written. Nothing where one cannot be made.
std::optional<Made> make(const Position& position, std::string_view moves) {
  Made made{position.board, {}};
  if (moves.empty()) return made;
  const auto attempt = read_play(moves);
  if (!attempt) return std::nullopt;
  for (const Journey& journey : attempt->journeys) {
    for (std::size_t i = 0; i + 1 < journey.stops.size(); ++i) {
      const Place from = journey.stops[i];
      const Place to = journey.stops[i + 1];
      if (made.board.count(*position.turn, from) == 0 || to >= bar_place) return std::nullopt;
      const bool hit = make_move(made.board, *position.turn, from, to);
      made.text +=
          (made.text.empty() ? "" : " ") + to_text(from) + "/" + to_text(to) + (hit ? "*" : "");
    }
  }
  return made;
}

Json steps_list(const std::vector<Move>& steps) {
  Json list = Json::list();
  for (const Move& step : steps)
    list.add(Json::list().add(static_cast<int>(step.from)).add(static_cast<int>(step.to)));
  return list;
}

/// Why a move may not be next: the referee's ruling on the turn with it.
Json refusal_of(const Position& position, const Made& made, std::string_view from,
                std::string_view to, const SideNames& names) {
  const std::string text =
      made.text + (made.text.empty() ? "" : " ") + std::string(from) + "/" + std::string(to);
  const auto attempt = read_play(text);
  if (!attempt) return faults_object(attempt.error());
  const Ruling ruling = rule_on(position, *attempt, names);
  if (!ruling.allowed) return ruling_object(ruling);
  // The moves make a legal play, but only in an order in which this one cannot be next.
  return Json::object()
      .set("allowed", false)
      .set("proof",
           "From here the play " + to_text(ruling.play) + " cannot be completed in that order.");
}

}  // namespace

Json answer_plays(const Request& request) {
  const auto position = rolled(request);
  if (!position) return position.error();
  Json plays = Json::list();
  for (const LegalPlay& legal : legal_plays(position->board, *position->turn, *position->roll)) {
    plays.add(Json::object().set("play", to_text(legal.play)).set("after", to_text(legal.after)));
  }
  return Json::object()
      .set("position", to_text(*position))
      .set("plays", plays)
      .set("duty", explain_obligation(*position, names_of(request)));
}

Json answer_rule(const Request& request) {
  const auto position = rolled(request);
  if (!position) return position.error();
  const auto attempt = read_play(request.value("play"));
  if (!attempt) return faults_object(attempt.error());
  return ruling_object(rule_on(*position, *attempt, names_of(request)));
}

Json answer_turn(const Request& request) {
  const auto position = rolled(request);
  if (!position) return position.error();
  const auto made = make(*position, request.value("moves"));
  if (!made) return error_object("no-moves", "The moves made so far cannot be read.");
  const TurnGuide guide(position->board, *position->turn, *position->roll);
  const std::vector<Journeying> journeys = guide.journeys(made->board);
  Json can = Json::list();
  for (const Journeying& journey : journeys) {
    can.add(Json::object()
                .set("from", static_cast<int>(journey.from))
                .set("to", static_cast<int>(journey.to))
                .set("steps", steps_list(journey.steps)));
  }
  Json left = Json::list();
  for (const int die : guide.dice_left(made->board)) left.add(die);
  Position now = *position;
  now.board = made->board;
  const bool over = winner_of(now.board).has_value();
  if (over) {
    now.turn.reset();
    now.roll.reset();
  }
  Json answer = Json::object();
  answer.set("moves", made->text)
      .set("position", to_text(now))
      .set("complete", guide.is_complete(made->board))
      .set("astray", !guide.is_on_the_way(made->board))
      .set("can", can)
      .set("left", left);
  if (guide.is_complete(made->board)) {
    for (const LegalPlay& legal : legal_plays(position->board, *position->turn, *position->roll))
      if (legal.after == made->board) answer.set("play", to_text(legal.play));
    if (!over) now.turn = opponent(*position->turn);
    now.roll.reset();
    answer.set("next", to_text(now));
  }
  if (request.has("from"))
    answer.set("refused", refusal_of(*position, *made, request.value("from"), request.value("to"),
                                     names_of(request)));
  return answer;
}

}  // namespace pointwright::web
