#include "lesson/show.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "lesson/claim_reader.hpp"
#include "lesson/suggest.hpp"
#include "lesson/turn.hpp"
#include "rules/cube.hpp"
#include "rules/ruling.hpp"
#include "rules/text.hpp"

namespace pointwright::lesson {
namespace {

using text::quoted;

const std::vector<std::string>& action_words() {
  static const std::vector<std::string> words{"say",  "roll", "try",  "double",
                                              "take", "drop", "mark", "board"};
  return words;
}

/// Whether an action is a play: it begins with a place, or says `no play`.
bool looks_like_play(std::string_view first) {
  return text::is_digit(first.front()) || text::same_word(first.substr(0, 3), "bar") ||
         text::same_word(first, "no");
}

std::vector<Arrow> arrows_of(Side side, const Attempt& attempt) {
  std::vector<Arrow> arrows;
  for (const Journey& journey : attempt.journeys) {
    for (std::size_t i = 1; i < journey.stops.size(); ++i)
      arrows.push_back({side, journey.stops[i - 1], journey.stops[i], true});
  }
  return arrows;
}

std::string moves_text(const std::vector<Move>& moves) {
  Play play;
  for (const Move& move : moves) play.push(move);
  return to_text(play);
}

}  // namespace

Stage::Stage(Position position, const SideNames& names)
    : position_(position), names_(&names), board_(position.board) {}

Position Stage::now() const {
  Position position = position_;
  position.board = board_;
  return position;
}

void Stage::pass_turn() {
  const Side mover = *position_.turn;
  position_.board = board_;
  position_.roll.reset();
  position_.turn = opponent(mover);
  if (has_won(board_, mover)) {
    position_.turn.reset();
    over_ = "the game is over: " + (*names_)[mover] + " has borne off the last checker";
  }
  written_ = {};
  made_.clear();
  roll_announced_ = false;
}

bool Stage::end_turn() {
  if (!position_.roll || !may_end(position_.board, *position_.turn, *position_.roll, board_))
    return false;
  pass_turn();
  return true;
}

bool Stage::dice_lie(TextSpan where, std::string_view action, Report& report) const {
  if (!over_.empty()) {
    report.add(kinds::step_refused, where, fmt::format("{} comes too late", quoted(action))).proof =
        over_ + ".";
    return false;
  }
  if (position_.turn && position_.roll && !offered_) return true;
  Diagnostic& diagnostic =
      report.add(kinds::step_refused, where,
                 fmt::format("{} comes before the dice have been thrown", quoted(action)));
  if (offered_) diagnostic.proof = "The cube has been offered and not yet answered.";
  diagnostic.hints.emplace_back(offered_ ? "put take or drop before it"
                                         : "put a line like `roll 3-1` before it");
  return false;
}

bool Stage::roll(TextSpan where, Step& step, Report& report) {
  const auto words = text::words(report.source().text(), where, false);
  const bool sided = words.size() == 3 && side_named(words[1].text);
  const auto roll = words.size() == 2 || sided ? roll_named(words.back().text) : std::nullopt;
  if (!roll) {
    report
        .add(kinds::bad_step, where,
             fmt::format("{} gives no roll", quoted(report.source().text(where))))
        .hints.emplace_back("write it like: roll 3-1");
    return false;
  }
  step.kind = Step::Kind::roll;
  step.action = to_text(*roll);
  const auto refuse = [&](std::string message, std::string proof, std::string hint) {
    Diagnostic& diagnostic = report.add(kinds::step_refused, where, std::move(message));
    diagnostic.proof = std::move(proof);
    if (!hint.empty()) diagnostic.hints.push_back(std::move(hint));
    return false;
  };
  if (!over_.empty()) return refuse("nobody rolls here", over_ + ".", "");
  if (offered_)
    return refuse("the cube has been offered and not yet answered", "",
                  "put take or drop before it");
  if (position_.roll && position_.roll == roll && made_.empty() && !roll_announced_) {
    roll_announced_ = true;
    return true;
  }
  if (position_.roll && !end_turn()) {
    return refuse(fmt::format("{} has not finished its turn: the roll is {}",
                              (*names_)[*position_.turn], to_text(*position_.roll)),
                  made_.empty()
                      ? "It can still move."
                      : fmt::format("It has played {} and must play on.", moves_text(made_)),
                  "");
  }
  if (sided && position_.turn && *position_.turn != *side_named(words[1].text)) {
    return refuse(fmt::format("it is not the turn of {}", (*names_)[*side_named(words[1].text)]),
                  fmt::format("The turn is with {}.", (*names_)[*position_.turn]), "");
  }
  if (sided) position_.turn = side_named(words[1].text);
  if (!position_.turn) {
    return refuse("the board does not say whose turn it is", "",
                  fmt::format("write it like: roll light {}", to_text(*roll)));
  }
  position_.roll = roll;
  roll_announced_ = true;
  return true;
}

bool Stage::move(TextSpan where, Step& step, Report& report) {
  const std::string_view text = report.source().text(where);
  auto attempt = read_play(text);
  if (!attempt) {
    report.add_faults(kinds::bad_play, attempt.error(), where.begin);
    return false;
  }
  if (!dice_lie(where, text, report)) return false;
  const Side side = *position_.turn;
  step.kind = Step::Kind::move;
  Attempt whole = written_;
  whole.journeys.insert(whole.journeys.end(), attempt->journeys.begin(), attempt->journeys.end());
  whole.text += (whole.text.empty() ? "" : " ") + attempt->text;

  if (attempt->journeys.empty() && end_turn()) {
    step.action = "no play";
    return true;
  }
  const auto moves = go_on(position_.board, side, *position_.roll, whole, made_);
  if (!moves) {
    const Ruling ruling = rule_on(position_, whole, *names_);
    Diagnostic& diagnostic = report.add(
        kinds::step_refused, where,
        fmt::format("{} cannot be played here with {}", quoted(text), to_text(*position_.roll)));
    if (ruling.rule != nullptr) diagnostic.detail = ruling.rule->id;
    diagnostic.proof = ruling.proof;
    if (!ruling.alternatives.empty())
      diagnostic.hints.push_back("a legal play is " + to_text(ruling.alternatives.front()));
    if (!made_.empty())
      diagnostic.hints.push_back(
          fmt::format("{} was played before in this turn", moves_text(made_)));
    return false;
  }
  const std::vector<Move> added(moves->begin() + static_cast<std::ptrdiff_t>(made_.size()),
                                moves->end());
  for (const Move& made : added) {
    make_move(board_, side, made.from, made.to);
    step.arrows.push_back({side, made.from, made.to, false});
  }
  step.action = moves_text(added);
  written_ = std::move(whole);
  made_ = *moves;
  // The turn ends by itself when nothing more can be played; where one die has done the work of
  // two, the author may still go on.
  const auto legal = legal_plays(position_.board, side, *position_.roll);
  if (has_won(board_, side) || static_cast<int>(made_.size()) == legal.front().play.size())
    end_turn();
  return true;
}

bool Stage::attempt(TextSpan where, Step& step, Report& report) {
  const std::string_view text = report.source().text(where);
  auto tried = read_play(text);
  if (!tried) {
    report.add_faults(kinds::bad_play, tried.error(), where.begin);
    return false;
  }
  if (!dice_lie(where, text, report)) return false;
  Attempt whole = written_;
  whole.journeys.insert(whole.journeys.end(), tried->journeys.begin(), tried->journeys.end());
  whole.text += (whole.text.empty() ? "" : " ") + tried->text;
  const Ruling ruling = rule_on(position_, whole, *names_);
  if (ruling.allowed) {
    Diagnostic& diagnostic =
        report.add(kinds::try_allowed, where,
                   fmt::format("{} is tried, and the referee allows it", quoted(text)));
    diagnostic.proof = ruling.proof;
    diagnostic.hints.emplace_back("leave out `try` to play it");
    return false;
  }
  step.kind = Step::Kind::attempt;
  step.action = std::string(text);
  step.arrows = arrows_of(*position_.turn, *tried);
  step.ruling = ruling.proof;
  return true;
}

bool Stage::cube(std::string_view action, TextSpan where, Step& step, Report& report) {
  const auto refuse = [&](std::string message, std::string_view rule, std::string proof) {
    Diagnostic& diagnostic = report.add(kinds::step_refused, where, std::move(message));
    diagnostic.detail = rule;
    diagnostic.proof = std::move(proof);
    return false;
  };
  if (!over_.empty())
    return refuse(fmt::format("{} comes too late", quoted(action)), "", over_ + ".");
  if (text::same_word(action, "double")) {
    end_turn();
    if (!position_.turn) return refuse("the board does not say whose turn it is", "", "");
    if (offered_) return refuse("the cube has been offered already", "", "");
    const CubeRuling ruling = may_offer(now(), *position_.turn, *names_);
    if (!ruling.allowed) {
      return refuse(fmt::format("{} may not double here", (*names_)[*position_.turn]),
                    ruling.rule == nullptr ? "" : ruling.rule->id, ruling.proof);
    }
    offered_ = true;
    step.kind = Step::Kind::offer;
    step.action = fmt::format("{}", 2 * position_.cube.value);
    return true;
  }
  if (!offered_) {
    return refuse(fmt::format("{} answers an offer, and none has been made", quoted(action)), "",
                  "");
  }
  offered_ = false;
  if (text::same_word(action, "take")) {
    const auto taken = after_take(position_, *names_);
    if (!taken) return refuse("the offer cannot be taken", "", taken.error().proof);
    position_ = *taken;
    step.kind = Step::Kind::take;
    step.action = fmt::format("{}", position_.cube.value);
    return true;
  }
  const auto dropped = after_drop(position_, *names_);
  if (!dropped) return refuse("the offer cannot be dropped", "", dropped.error().proof);
  over_ = "the game is over: " + (*names_)[opponent(*position_.turn)] + " has dropped the cube";
  step.kind = Step::Kind::drop;
  step.action = fmt::format("{}", dropped->points);
  position_.turn.reset();
  return true;
}

bool Stage::place(TextSpan where, const Boards& boards, Step& step, Report& report) {
  const auto position = read_board_line(where, boards, report);
  if (!position) return false;
  *this = Stage(*position, *names_);
  step.kind = Step::Kind::place;
  return true;
}

bool Stage::act(const ShowLine& line, TextSpan whole, const Boards& boards, Step& step,
                Report& report) {
  const SourceText& source = report.source();
  const auto words = text::words(source.text(), line.action, false);
  const std::string_view first = words.empty() ? "" : words.front().text;
  const TextSpan rest =
      words.empty() ? line.action : trimmed(source, {words.front().where.end, line.action.end});
  const bool alone = rest.begin == rest.end;
  const auto bad = [&](TextSpan where, std::string message, std::string hint) {
    report.add(kinds::bad_step, where, std::move(message)).hints.push_back(std::move(hint));
    return false;
  };

  if (words.empty() || text::same_word(first, "say")) {
    if (!alone)
      return bad(rest, fmt::format("{} follows `say`", quoted(source.text(rest))),
                 "write it like: say \"Here we are.\"");
    if (!line.spoken) {
      report.add(kinds::bad_words, whole, "nothing is said")
          .hints.emplace_back("write it like: say \"Here we are.\"");
      return false;
    }
    return true;
  }
  if (looks_like_play(first)) return move(line.action, step, report);
  if (text::same_word(first, "roll")) return roll(line.action, step, report);
  if (text::same_word(first, "try")) return attempt(rest, step, report);
  if (text::same_word(first, "mark")) {
    const int before = report.errors();
    step.marks = read_marks(rest, report);
    return report.errors() == before;
  }
  if (text::same_word(first, "board")) return place(rest, boards, step, report);
  for (const std::string_view word : {"double", "take", "drop"}) {
    if (!text::same_word(first, word)) continue;
    if (alone) return cube(word, line.action, step, report);
    return bad(rest, fmt::format("{} follows `{}`", quoted(source.text(rest)), word),
               "put words in double quotes");
  }
  Diagnostic& diagnostic = report.add(kinds::bad_step, words.front().where,
                                      fmt::format("{} is not an action", quoted(first)));
  if (const auto meant = did_you_mean(first, action_words())) {
    diagnostic.hints.push_back(fmt::format("did you mean `{}`?", *meant));
    diagnostic.fix = Fix{words.front().where, *meant};
  } else {
    diagnostic.hints.push_back("a line begins with a play or with " +
                               one_of(action_words(), action_words().size()));
  }
  return false;
}

void Stage::run(const Fenced& block, const Boards& boards, Scene& scene, Report& report) {
  bool going = true;
  for (const TextSpan whole : block.lines) {
    if (report.source().text(whole).starts_with('#')) continue;
    const ShowLine line = read_show_line(whole, report);
    if (!going) continue;
    Step step;
    step.words = line.words;
    step.seconds = line.seconds;
    step.source = source_at(report.source(), whole);
    going = act(line, whole, boards, step, report);
    step.position = to_text(now());
    if (going) scene.steps.push_back(std::move(step));
  }
}

}  // namespace pointwright::lesson
