#include "app/play_session.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/advice.hpp"
#include "app/batch.hpp"
#include "app/numbers.hpp"
#include "app/text_board.hpp"
#include "judge/grade.hpp"
#include "judge/shipped.hpp"
#include "rules/notation.hpp"
#include "rules/score.hpp"

namespace pointwright::app {
namespace {

/// Plays that cost less are not worth a second look.
constexpr double worth_a_look = 0.03;
constexpr std::size_t most_slips = 3;

constexpr std::string_view moving_help =
    "Type your moves, such as 8/5 6/5; `done` lifts your dice and ends the turn. Until then `back` "
    "takes the last move back and `back all` all of them. `hint` shows what the program would "
    "play, `board` the board, `quit` ends.";
constexpr std::string_view rolling_help =
    "`roll` (or an empty line) throws your dice, `double` offers the cube; `board` shows the "
    "board, `quit` ends.";
constexpr std::string_view offer_help = "`take` or `drop`; `board` shows the board, `quit` ends.";

/// A line typed by somebody, without the spaces around it.
std::string trimmed(std::string_view line) {
  return std::string{without_ends(line)};
}

}  // namespace

PlaySession::PlaySession(PlaySetup setup, Io& io)
    : setup_(std::move(setup)),
      io_(io),
      dice_(setup_.seed),
      opponent_(judge::shipped_evaluator(), *setup_.level, dice_.number_for("level")) {}

void PlaySession::say(const std::string& text) {
  io_.out << wrapped(text, io_.width);
}

std::optional<std::string> PlaySession::ask(const std::string& prompt) {
  if (setup_.asked) {
    setup_.asked({table_, prompt});
  } else {
    io_.out << prompt << (io_.out_is_terminal ? "> " : ">\n");
    io_.out.flush();
  }
  LineReader reader{io_.in};
  const auto line = reader.next();
  if (!line) return std::nullopt;
  std::string text = trimmed(line->text);
  return text == "quit" ? std::nullopt : std::optional{std::move(text)};
}

void PlaySession::show_board() {
  if (setup_.asked) return;  // the question brings the position
  Position shown = table_.position;
  shown.board = table_.board;
  io_.out << '\n' << text_board(shown, setup_.person) << '\n';
}

judge::Valuation PlaySession::valuation(Side side) const {
  // A match longer than the match table is played as if for points.
  return judge::valuation_of(table_.position, side).value_or(judge::Valuation::money());
}

bool PlaySession::run() {
  say(fmt::format("You are {} and play against {}: {}", name(setup_.person), setup_.level->name,
                  setup_.level->statement));
  say(
      fmt::format("The dice of this session follow from a seed. Its SHA-256 digest is {}; the seed "
                  "is shown at the end.",
                  web::commitment(dice_.seed())));
  std::optional<MatchScore> score;
  if (setup_.match) score = new_match(*setup_.match);
  table_ = new_game(setup_.house, score);
  bool finished = play_game();
  while (finished && setup_.match) {
    const TableEvent next = next_game(table_);
    if (!next.ok()) break;  // the match is over
    table_ = *next;
    const MatchScore& now = *table_.position.match;
    say(fmt::format("Next game. Light {}, dark {}, to {}{}.", now.points[0], now.points[1],
                    now.length, now.crawford ? ": the Crawford game, without the cube" : ""));
    finished = play_game();
  }
  tell_slips();
  tell_seed();
  return finished;
}

bool PlaySession::play_game() {
  open_game();
  while (table_.phase != Phase::over) {
    const bool offered = table_.phase == Phase::offered;
    const Side turn = *table_.position.turn;
    const Side acting = offered ? opponent(turn) : turn;
    if (acting == setup_.person) {
      if (!person_acts()) return false;
    } else {
      level_acts();
    }
  }
  tell_result();
  return true;
}

void PlaySession::open_game() {
  while (table_.phase == Phase::opening) {
    const auto [light, dark] = dice_.next();
    const TableEvent event = throw_opening(table_, light, dark);
    say(fmt::format("Opening: light throws {}, dark {}{}", light, dark,
                    light == dark ? "; again." : "."));
    table_ = *event;
  }
  say(fmt::format("{} begins with {}.", name(*table_.position.turn),
                  to_text(*table_.position.roll)));
  record_.begin(table_.position);
}

bool PlaySession::person_acts() {
  switch (table_.phase) {
    case Phase::to_roll:
      return before_roll();
    case Phase::offered:
      return answer_offer();
    default:
      return move_checkers();
  }
}

void PlaySession::put_up(const TableEvent& event) {
  if (event.ok()) {
    table_ = *event;
    return;
  }
  const Refusal& refusal = event.error();
  const std::string by =
      refusal.rule == nullptr ? "refused" : fmt::format("refused by {}", refusal.rule->id);
  io_.out << painted(Ink::bad, by, io_.colour_out) << '\n';
  if (refusal.rule != nullptr) io_.out << wrapped(refusal.rule->statement, io_.width, 2);
  io_.out << wrapped(refusal.proof, io_.width, 2);
  if (!refusal.alternatives.empty()) {
    io_.out << wrapped("For instance: " + to_text(refusal.alternatives.front()), io_.width, 2);
  }
}

void PlaySession::throw_for(Side side) {
  const auto [first, second] = dice_.next();
  table_ = *throw_dice(table_, side, {.first = first, .second = second});
  record_.roll(*table_.position.roll);
  say(fmt::format("{} rolls {}.", name(side), to_text(*table_.position.roll)));
}

bool PlaySession::before_roll() {
  // Without a choice about the cube there is nothing to ask.
  if (!may_offer(table_.position, setup_.person).allowed) {
    throw_for(setup_.person);
    return true;
  }
  show_board();
  while (true) {
    const auto line = ask(fmt::format("{}, roll or double", name(setup_.person)));
    if (!line) return false;
    if (line->empty() || *line == "roll") {
      throw_for(setup_.person);
      return true;
    }
    if (*line == "double") {
      put_up(offer_cube(table_, setup_.person));
      if (table_.phase != Phase::offered) continue;
      record_.offer();
      return true;
    }
    if (*line == "board") {
      show_board();
    } else {
      say(std::string{rolling_help});
    }
  }
}

bool PlaySession::answer_offer() {
  say(fmt::format("{} doubles, to {}.", name(opponent(setup_.person)),
                  2 * table_.position.cube.value));
  show_board();
  while (true) {
    const auto line = ask(fmt::format("{}, take or drop", name(setup_.person)));
    if (!line) return false;
    if (*line == "take") {
      put_up(take_cube(table_, setup_.person));
      record_.take();
      return true;
    }
    if (*line == "drop") {
      put_up(drop_cube(table_, setup_.person));
      record_.drop();
      return true;
    }
    if (*line == "board") {
      show_board();
    } else {
      say(std::string{offer_help});
    }
  }
}

bool PlaySession::move_checkers() {
  show_board();
  const Position before = table_.position;
  if (legal_plays(before.board, setup_.person, *before.roll).empty()) {
    say(fmt::format("No move is legal with {}.", to_text(*before.roll)));
    table_ = *lift_dice(table_, setup_.person);
    finish_turn(before, setup_.person);
    return true;
  }
  while (true) {
    const auto line = ask(fmt::format("{}, {}", name(setup_.person), to_text(*before.roll)));
    if (!line) return false;
    if (*line == "done") {
      put_up(lift_dice(table_, setup_.person));
      const bool lifted = table_.phase == Phase::over || table_.position.turn != before.turn;
      if (!lifted) continue;
      finish_turn(before, setup_.person);
      return true;
    }
    if (*line == "back") {
      put_up(take_back(table_));
    } else if (*line == "back all") {
      put_up(take_back_all(table_));
    } else if (*line == "hint") {
      hint();
    } else if (*line == "board") {
      show_board();
    } else if (line->empty() || *line == "help") {
      say(std::string{moving_help});
    } else {
      enter_moves(*line);
    }
  }
}

void PlaySession::enter_moves(const std::string& text) {
  const auto attempt = read_play(text);
  if (!attempt.ok()) {
    for (const Fault& fault : attempt.error()) {
      io_.out << wrapped(harmless(fault.reason) + "; " + harmless(fault.fix), io_.width, 2);
    }
    say(std::string{moving_help});
    return;
  }
  const Table start = table_;
  for (const Journey& journey : attempt->journeys) {
    for (std::size_t i = 0; i + 1 < journey.stops.size(); ++i) {
      const TableEvent event = move_checker(table_, journey.stops[i], journey.stops[i + 1]);
      if (!event.ok()) {
        table_ = start;  // all of a line or nothing
        put_up(event);
        return;
      }
      table_ = *event;
    }
  }
  io_.out << "  " << to_text(table_.board) << "\n";
}

void PlaySession::hint() {
  const Advice advice =
      advise(table_.position, valuation(setup_.person), {.depth = 1, .most_trials = 0});
  for (std::size_t i = 0; i < std::min<std::size_t>(3, advice.plays.size()); ++i) {
    const AdvisedPlay& play = advice.plays[i];
    io_.out << fmt::format("  {}  {} ({})\n", to_text(play.ranked.play.play),
                           equity(static_cast<double>(play.ranked.equity)), known_words(play));
  }
}

std::optional<judge::CubeDecision> PlaySession::cube_decision() const {
  const Position& position = table_.position;
  return judge::decide(judge::shipped_evaluator().evaluate(position.board, *position.turn).chances,
                       position);
}

bool PlaySession::level_doubles() const {
  const auto decision = cube_decision();
  return decision && decision->action == judge::CubeAction::offer;
}

bool PlaySession::level_takes() const {
  const auto decision = cube_decision();
  return !decision || decision->reply != judge::CubeReply::drop;
}

void PlaySession::level_acts() {
  const Side side = opponent(setup_.person);
  if (table_.phase == Phase::offered) {
    const bool takes = level_takes();
    put_up(takes ? take_cube(table_, side) : drop_cube(table_, side));
    takes ? record_.take() : record_.drop();
    say(fmt::format("{} {}.", name(side), takes ? "takes" : "drops"));
    return;
  }
  if (table_.phase == Phase::to_roll) {
    const CubeRuling cube = may_offer(table_.position, side);
    if (cube.allowed && !cube.dead && level_doubles()) {
      put_up(offer_cube(table_, side));
      record_.offer();
      return;
    }
    throw_for(side);
  }
  const Position before = table_.position;
  const LegalPlay chosen = opponent_.choose(before.board, side, *before.roll, valuation(side));
  for (const Move& move : chosen.play) table_ = *move_checker(table_, move.from, move.to);
  table_ = *lift_dice(table_, side);
  say(fmt::format("{} plays {}.", name(side), to_text(chosen.play)));
  finish_turn(before, side);
}

void PlaySession::finish_turn(const Position& before, Side side) {
  record_.play(*table_.last_play);
  if (side != setup_.person) return;
  const Board after = pointwright::after(before.board, side, *table_.last_play);
  opponent_.observe(before.board, side, *before.roll, after, valuation(side));
  note_cost(before, *table_.last_play, after);
}

void PlaySession::note_cost(const Position& before, const Play& play, const Board& after) {
  const Advice advice =
      advise(before, judge::valuation_of(before, setup_.person).value_or(judge::Valuation::money()),
             {.depth = 1, .most_trials = 0}, after);
  if (advice.plays.size() < 2) return;
  const double cost = std::max(0.0, advice.plays[index_of(advice, after)].cost);
  costs_.total += cost;
  ++costs_.decisions;
  if (cost < worth_a_look) return;
  slips_.push_back(
      {.position = before, .play = play, .best = advice.plays[0].ranked.play.play, .cost = cost});
}

void PlaySession::tell_result() {
  const std::string how = explain(*table_.result, table_.position);
  say(how);
  record_.remark(how);
  if (!table_.position.match) return;
  const MatchScore score =
      after_game(*table_.position.match, table_.result->winner, table_.result->points);
  if (const auto winner = match_winner(score)) {
    say(fmt::format("{} wins the match, {}-{}.", name(*winner), score.points[0], score.points[1]));
  }
}

void PlaySession::tell_slips() {
  if (costs_.decisions == 0) return;
  say(
      fmt::format("Your plays cost {:.3f} points a decision on average ({} decisions, valued one "
                  "roll ahead).",
                  costs_.mean(), costs_.decisions));
  std::ranges::stable_sort(slips_, std::ranges::greater{}, &Slip::cost);
  for (std::size_t i = 0; i < std::min(most_slips, slips_.size()); ++i) {
    const Slip& slip = slips_[i];
    say(fmt::format("{}: you played {}, which costs {:.3f} beside {}.",
                    judge::grade_of(slip.cost).name, to_text(slip.play), slip.cost,
                    to_text(slip.best)));
    io_.out << fmt::format("  pointwright advise \"{}\" --play \"{}\"\n", to_text(slip.position),
                           to_text(slip.play));
  }
}

void PlaySession::tell_seed() {
  say(fmt::format("The seed was {}; `printf %s SEED | sha256sum` gives the digest shown before.",
                  dice_.seed()));
  say("This makes the throws again:");
  say(fmt::format("  pointwright dice \"{}\" --count {} --seal {}", dice_.seed(), dice_.thrown(),
                  web::commitment(dice_.seed())));
}

std::string PlaySession::record() const {
  return record_.text(
      fmt::format("A game against {}", setup_.level->name),
      fmt::format("The person played {}. The dice follow from the seed `{}`, whose "
                  "SHA-256 digest is `{}`.",
                  name(setup_.person), dice_.seed(), web::commitment(dice_.seed())));
}

}  // namespace pointwright::app
