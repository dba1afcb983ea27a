// The table: a record and what follows from it.

#include "rules/cube.hpp"
#include "rules/notation.hpp"
#include "rules/score.hpp"
#include "studio/wording.hpp"
#include "web/answers.hpp"
#include "web/game.hpp"
#include "web/opponent.hpp"

namespace pointwright::web {
namespace {

std::string_view name(Phase phase) {
  switch (phase) {
    case Phase::opening:
      return "opening";
    case Phase::to_roll:
      return "to-roll";
    case Phase::offered:
      return "offered";
    case Phase::beavered:
      return "beavered";
    case Phase::to_play:
      return "to-play";
    case Phase::over:
      break;
  }
  return "over";
}

/// The position as it stands, moves of the unfinished turn included. Once a side has borne off its
/// last checker nobody is to play, though the dice still lie.
Position standing(const Table& table) {
  Position now = table.position;
  now.board = table.board;
  if (winner_of(now.board)) {
    now.turn.reset();
    now.roll.reset();
  }
  return now;
}

std::string moves_text(const Table& table) {
  std::string text;
  for (const Move& move : table.moved)
    text += (text.empty() ? "" : " ") + to_text(move.from) + "/" + to_text(move.to) +
            (move.hit ? "*" : "");
  return text;
}

Json result_object(const Table& table, const SideNames& names) {
  const GameResult& result = *table.result;
  Json answer = Json::object();
  answer.set("winner", pointwright::name(result.winner))
      .set("kind", pointwright::name(result.kind))
      .set("dropped", result.dropped)
      .set("points", result.points)
      .set("words", explain(result, table.position, names));
  if (table.position.match) {
    const MatchScore after = after_game(*table.position.match, result.winner, result.points);
    answer.set("score", Json::list().add(after.points[0]).add(after.points[1]))
        .set("matchOver", match_over(after))
        .set("scoreWords", explain(*table.position.match, result.winner, result.points, names));
  }
  return answer;
}

void add_cube(Json& answer, const Table& table, const SideNames& names) {
  const Position& position = table.position;
  answer.set("cube", position.cube.value);
  if (position.cube.holder) answer.set("holder", pointwright::name(*position.cube.holder));
  answer.set("cubeInUse", position.house.cube);
  if (table.phase != Phase::to_roll) return;
  const CubeRuling ruling = may_offer(position, *position.turn, names);
  answer.set("mayOffer", ruling.allowed).set("offerDead", ruling.dead);
  if (!ruling.allowed) answer.set("offerProof", ruling.proof);
}

Json sheet_list(const GameSoFar& game) {
  Json list = Json::list();
  for (const SheetLine& line : game.sheet) {
    Json entry = Json::object();
    entry.set("game", line.game).set("text", line.text).set("line", static_cast<int>(line.line));
    if (line.side) entry.set("side", pointwright::name(*line.side));
    list.add(entry);
  }
  return list;
}

Json fault_object(const RecordFault& fault) {
  Json answer = Json::object();
  answer.set("line", static_cast<int>(fault.line)).set("proof", fault.reason);
  if (fault.rule != nullptr)
    answer.set("rule", fault.rule->id).set("statement", fault.rule->statement);
  Json alternatives = Json::list();
  for (const Play& play : fault.alternatives) alternatives.add(to_text(play));
  return answer.set("alternatives", alternatives);
}

}  // namespace

Json answer_table(const Request& request) {
  const Replay followed = replay(record_of(request));
  const GameSoFar& game = followed.so_far;
  const Table& table = game.table;
  const Position now = standing(table);
  Json answer = Json::object();
  answer.set("phase", name(table.phase))
      .set("game", game.game)
      .set("position", to_text(now))
      .set("before", to_text(table.position))
      .set("title", position_title(now, game.names))
      .set("spoken", spoken_position(now, game.names))
      .set("camps", camps_object(table.board))
      .set("names", Json::list().add(game.names[Side::light]).add(game.names[Side::dark]))
      .set("pips", Json::list()
                       .add(pip_count(table.board, Side::light))
                       .add(pip_count(table.board, Side::dark)))
      .set("moves", moves_text(table))
      .set("ties", table.ties)
      .set("throws", static_cast<int>(game.thrown.size()))
      .set("sheet", sheet_list(game));
  if (table.position.turn) answer.set("turn", pointwright::name(*table.position.turn));
  if (table.position.roll) answer.set("roll", to_text(*table.position.roll));
  if (table.position.match) {
    const MatchScore& match = *table.position.match;
    answer.set("match", match.length)
        .set("score", Json::list().add(match.points[0]).add(match.points[1]))
        .set("crawford", match.crawford);
  }
  const HouseRules house = in_force(table.position.house, table.position.match.has_value());
  answer.set("beavers", house.beavers);
  add_cube(answer, table, game.names);
  if (table.result) answer.set("result", result_object(table, game.names));
  if (followed.fault) answer.set("fault", fault_object(*followed.fault));
  return answer;
}

Json answer_decision(const Request& request) {
  const Replay followed = replay(record_of(request));
  if (followed.fault) return Json::object().set("fault", fault_object(*followed.fault));
  const Decision decision = decide(followed.so_far.table, followed.so_far.names);
  Json events = Json::list();
  for (const std::string& event : decision.events) events.add(event);
  return Json::object()
      .set("events", events)
      .set("throws", decision.throws)
      .set("reason", decision.reason);
}

}  // namespace pointwright::web
