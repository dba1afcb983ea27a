// Chances and values.

#include "chance/next_roll.hpp"
#include "chance/race.hpp"
#include "judge/reasons.hpp"
#include "judge/shipped.hpp"
#include "rules/cube.hpp"
#include "rules/notation.hpp"
#include "web/answers.hpp"
#include "web/cube_advice.hpp"
#include "web/opponent.hpp"

namespace pointwright::web {
namespace {

std::string_view name(judge::Origin origin) {
  switch (origin) {
    case judge::Origin::game_over:
      return "game-over";
    case judge::Origin::exact_table:
      return "exact-table";
    case judge::Origin::table:
      return "table";
    case judge::Origin::race_net:
      return "race-net";
    case judge::Origin::contact_net:
      break;
  }
  return "contact-net";
}

/// Why the best play is better than the second.
Json reasons_list(const Position& position, const std::vector<judge::RankedPlay>& ranking,
                  const SideNames& names) {
  const Side side = *position.turn;
  const judge::Valuation stakes = stakes_of(position);
  const auto considered = [&](const judge::RankedPlay& ranked) {
    return judge::consider(judge::shipped_evaluator(), position.board, side, ranked.play, stakes);
  };
  Json list = Json::list();
  for (const judge::Reason& reason :
       judge::reasons(considered(ranking[0]), considered(ranking[1]), side, stakes, names))
    list.add(reason.text);
  return list;
}

Json to_roll() {
  return error_object("no-turn", "The position does not say whose turn it is.");
}

}  // namespace

Json evaluation_object(const judge::Evaluation& evaluation, int depth) {
  const judge::Chances& chances = evaluation.chances;
  const bool exact = evaluation.origin == judge::Origin::game_over ||
                     evaluation.origin == judge::Origin::exact_table;
  Json answer = Json::object();
  answer.set("win", chances.win)
      .set("winGammon", chances.win_gammon)
      .set("winBackgammon", chances.win_backgammon)
      .set("loseGammon", chances.lose_gammon)
      .set("loseBackgammon", chances.lose_backgammon)
      .set("origin", name(evaluation.origin))
      .set("known", exact ? "exact" : (depth > 0 ? "searched" : "estimated"));
  if (!exact && depth > 0) answer.set("depth", depth);
  return answer;
}

Json answer_chances(const Request& request) {
  const auto position = position_of(request);
  if (!position) return faults_object(position.error());
  if (!position->turn) return to_roll();
  const chance::NextRoll next(position->board, *position->turn);
  Json lines = Json::list();
  for (const chance::CardLine& line : chance::card(next)) {
    Json rolls = Json::list();
    for (const Roll roll : line.count.rolls) rolls.add(to_text(roll));
    lines.add(Json::object()
                  .set("query", to_text(line.query))
                  .set("verb", chance::verb(line.query.mode))
                  .set("phrase", chance::phrase(line.query.event))
                  .set("ways", line.count.ways)
                  .set("fraction", chance::fraction_of_36(line.count.ways))
                  .set("rolls", rolls)
                  .set("why", chance::explain(next, line.query, names_of(request))));
  }
  return Json::object().set("known", "exact").set("lines", lines);
}

Json answer_evaluation(const Request& request) {
  const auto position = position_of(request);
  if (!position) return faults_object(position.error());
  if (!position->turn) return to_roll();
  const judge::Evaluation evaluation =
      judge::shipped_evaluator().evaluate(position->board, *position->turn);
  Json answer = evaluation_object(evaluation);
  return answer.set("equity", evaluation.chances.equity())
      .set("side", pointwright::name(*position->turn))
      .set("contact", has_contact(position->board))
      .set("pips", Json::list()
                       .add(pip_count(position->board, Side::light))
                       .add(pip_count(position->board, Side::dark)));
}

Json answer_cube(const Request& request) {
  const auto position = position_of(request);
  if (!position) return faults_object(position.error());
  if (!position->turn) return to_roll();
  const Side side = *position->turn;
  const CubeRuling ruling = may_offer(*position, side, names_of(request));
  const auto advice = advise_cube(*position);
  Json answer = Json::object();
  answer.set("side", pointwright::name(side))
      .set("mayDouble", ruling.allowed && !ruling.dead && advice.has_value())
      .set("proof", ruling.proof);
  if (advice) {
    const judge::CubeDecision& decision = advice->decision;
    answer.set("action", name(decision.action))
        .set("reply", name(decision.reply))
        .set("hold", static_cast<float>(decision.hold))
        .set("take", static_cast<float>(decision.take))
        .set("drop", static_cast<float>(decision.drop))
        .set("known", advice->exact ? "exact" : "modelled")
        .set("chances", evaluation_object(advice->evaluation));
  }
  return answer;
}

Json answer_ranking(const Request& request) {
  const auto position = position_of(request);
  if (!position) return faults_object(position.error());
  if (!position->turn || !position->roll)
    return error_object("no-roll", "The position has no roll to be played.");
  const std::vector<judge::RankedPlay> ranking = rank_plays(*position);
  Json plays = Json::list();
  for (const judge::RankedPlay& ranked : ranking) {
    plays.add(Json::object()
                  .set("play", to_text(ranked.play.play))
                  .set("equity", ranked.equity)
                  .set("after", evaluation_object({ranked.chances, ranked.origin}, ranked.depth)));
  }
  Json answer = Json::object();
  answer.set("plays", plays);
  if (ranking.size() > 1)
    answer.set("reasons", reasons_list(*position, ranking, names_of(request)));
  return answer;
}

}  // namespace pointwright::web
