#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <ranges>

#include "app/advice.hpp"
#include "app/draw_parts.hpp"
#include "app/files.hpp"
#include "app/json.hpp"
#include "app/numbers.hpp"
#include "app/options.hpp"
#include "app/verbs.hpp"
#include "chance/event.hpp"
#include "chance/next_roll.hpp"
#include "judge/grade.hpp"
#include "press/answer_card.hpp"
#include "rules/notation.hpp"
#include "rules/ruling.hpp"

namespace pointwright::app {
namespace {

struct AnswerOptions {
  std::optional<std::string> position;
  std::optional<std::string> play;
  std::optional<std::string> best;
  std::optional<std::string> chance;
  std::optional<std::string> names;
  std::optional<std::string> bottom;
  std::optional<std::string> link;
  std::optional<std::string> output;
  bool json = false;
};

const Guide guide{
    .name = "answer",
    .summary = "Answer a learner's question with a picture and a reason to send back.",
    .text =
        "Three questions can be asked of a position. --play asks \"was that allowed?\": the answer "
        "is the ruling with its reason, and the picture shows the play, crossed out if it is "
        "refused. --chance asks \"how likely was that?\" of the side that is to roll: the answer "
        "is a count out of 36 with the rolls, which is exact. --best asks \"was that the best "
        "play?\": the answer is what the play costs beside the best one, looked at one roll ahead "
        "as "
        "`pointwright advise` does, and why.\n\n"
        "The answer is printed as plain text to paste. With --output it is drawn too, as a PNG "
        "with the board above the words; what the picture shows is written in the file in words, "
        "for "
        "those who hear it, and --json gives the same as \"description\", to be used as the "
        "alternative text where the picture is posted.\n\n"
        "With --link the answer ends in a link that opens the position, to the page that "
        "`pointwright bench` writes: give the address at which you have put it.\n\n"
        "With --json the answer is {\"position\", \"answer\", \"reason\", \"known\", "
        "\"description\", \"link\", \"picture\"}; the last two are null when they were not asked "
        "for. A play that is refused is an answer, so the exit code is 0.",
    .examples = {
        {.command =
             "pointwright answer \"light barx1 6x2; dark 5x2 3x2; light to play 6-4\" --play "
             "6/2 --output card.png",
         .shows = "Whether a play was allowed, with a picture:"},
        {.command = "pointwright answer \"light 8x1; dark 24x2 20x1; light to roll\" --chance hit",
         .shows = "How likely a hit was:"},
        {.command = "pointwright answer \"start; light to play 4-1\" --best \"13/9 6/5\"",
         .shows = "Whether it was the best play:"}}};

/// An answer before it is drawn.
struct Answer {
  press::AnswerCard card;
  std::string known{known_exact};  ///< a word of app/numbers.hpp
};

std::vector<Arrow> arrows_of(Side side, const Play& play) {
  std::vector<Arrow> arrows;
  for (const Move& move : play) arrows.push_back({side, move.from, move.to, false});
  return arrows;
}

std::vector<Arrow> arrows_of(Side side, const Attempt& attempt) {
  std::vector<Arrow> arrows;
  for (const Journey& journey : attempt.journeys) {
    for (std::size_t i = 1; i < journey.stops.size(); ++i) {
      arrows.push_back({side, journey.stops[i - 1], journey.stops[i], true});
    }
  }
  return arrows;
}

/// "Legal here: A, B or C", of at most three plays.
std::string legal_words(const std::vector<Play>& plays) {
  if (plays.empty()) return {};
  constexpr std::size_t most = 3;
  std::string words =
      plays.size() == 1 ? " The only legal play is " : " Allowed are, for example: ";
  for (std::size_t i = 0; i < std::min(plays.size(), most); ++i) {
    words += (i == 0 ? "" : "; ") + to_text(plays[i]);
  }
  return words + ".";
}

Result<Answer, Failure> answer_play(const AnswerOptions& options, press::AnswerCard card) {
  const SideNames& names = card.picture.names;
  const auto attempt = read_play(*options.play);
  if (!attempt.ok()) {
    return Failure{.text = *options.play, .origin = "argument", .faults = attempt.error()};
  }
  const Side side = *card.position.turn;
  const Ruling ruling = rule_on(card.position, *attempt, names);
  if (!ruling.allowed) {
    card.picture.arrows = arrows_of(side, *attempt);
    card.answer = fmt::format("{} is refused", *options.play);
    card.reason = fmt::format("{} {}{}", ruling.proof, ruling.rule->statement,
                              legal_words(ruling.alternatives));
    return Answer{std::move(card)};
  }
  const std::string roll = to_text(*card.position.roll);
  card.picture.arrows = arrows_of(side, ruling.play);
  card.answer = fmt::format("{} is allowed", to_text(ruling.play));
  const std::size_t all = legal_plays(card.position.board, side, *card.position.roll).size();
  card.reason = all == 1 ? fmt::format("It is the only play that {} leaves {}.", roll, names[side])
                         : fmt::format("It is one of the {} plays that {} leaves {}.", all, roll,
                                       names[side]);
  return Answer{std::move(card)};
}

Result<Answer, Failure> answer_best(const AnswerOptions& options, press::AnswerCard card) {
  const SideNames& names = card.picture.names;
  const auto attempt = read_play(*options.best);
  if (!attempt.ok()) {
    return Failure{.text = *options.best, .origin = "argument", .faults = attempt.error()};
  }
  const Side side = *card.position.turn;
  const Ruling ruling = rule_on(card.position, *attempt, names);
  if (!ruling.allowed) {
    AnswerOptions as_play = options;
    as_play.play = options.best;
    return answer_play(as_play, std::move(card));
  }
  const auto valuation = judge::valuation_of(card.position, side);
  if (!valuation) {
    return failure("no-advice", "the match is over, or longer than the match table",
                   "give another score, or leave the match out");
  }
  card.picture.arrows = arrows_of(side, ruling.play);
  const std::string play = to_text(ruling.play);
  const Advice advice = advise(card.position, *valuation, {}, ruling.after);
  if (advice.plays.size() < 2) {
    card.answer = fmt::format("{} is the only play", play);
    card.reason =
        fmt::format("{} leaves {} nothing else.", to_text(*card.position.roll), names[side]);
    return Answer{std::move(card)};
  }
  const std::size_t asked = index_of(advice, ruling.after);
  const AdvisedPlay& of_it = advice.plays[asked];
  const double cost = std::max(0.0, of_it.cost);
  if (asked == 0) {
    card.answer = fmt::format("{} is the best play", play);
  } else {
    card.answer =
        fmt::format("{} costs {:.3f} points a game, {}; best is {}", play, cost,
                    judge::grade_of(cost).name, to_text(advice.plays[0].ranked.play.play));
  }
  // How much the plays differ, and the largest part of it.
  constexpr std::size_t enough = 2;
  const Why reason = why(advice, 0, asked == 0 ? 1 : asked, names);
  for (const judge::Reason& sentence : reason.reasons | std::views::take(enough)) {
    card.reason += (card.reason.empty() ? "" : " ") + sentence.text;
  }
  card.reason += fmt::format(" (Known: {}.)", known_words(of_it));
  return Answer{std::move(card), std::string{known_word(of_it)}};
}

Result<Answer, Failure> answer_chance(const AnswerOptions& options, press::AnswerCard card) {
  const auto query = chance::read_query(*options.chance);
  if (!query.ok()) {
    return Failure{.text = *options.chance, .origin = "argument", .faults = query.error()};
  }
  // The question is about the next roll, whatever lies on the board.
  card.position.roll.reset();
  const chance::NextRoll next(card.position.board, *card.position.turn);
  card.answer = fmt::format("{} of 36 rolls", chance::count(next, *query).ways);
  card.reason = chance::explain(next, *query, card.picture.names) + " (Known: exact.)";
  return Answer{std::move(card)};
}

Result<Answer, Failure> answer_of(const AnswerOptions& options, Io& io) {
  const int asked = static_cast<int>(options.play.has_value()) +
                    static_cast<int>(options.best.has_value()) +
                    static_cast<int>(options.chance.has_value());
  if (asked != 1) {
    return failure(
        "missing-question",
        asked == 0 ? "it is not said what is asked" : "several questions are asked at once",
        "ask one: --play \"8/5 6/5\", --best \"8/5 6/5\", or --chance hit");
  }
  if (!options.position) {
    return failure("missing-position", "there is no position to answer about",
                   "write one between quotes, such as \"start; light to play 3-1\"");
  }
  const auto given = fetch_line(*options.position, io);
  if (!given.ok()) return given.error();
  const auto position =
      options.chance ? read_position_with_turn(*given) : read_position_with_roll(*given);
  if (!position.ok()) return position.error();
  press::AnswerCard card;
  card.position = *position;
  if (options.names) {
    const auto names = read_side_names(*options.names);
    if (!names.ok()) return names.error();
    card.picture.names = *names;
  }
  if (options.bottom == "dark") card.picture.view.bottom = Side::dark;
  card.picture.view.numbering = *position->turn;
  if (options.play) return answer_play(options, std::move(card));
  if (options.best) return answer_best(options, std::move(card));
  return answer_chance(options, std::move(card));
}

int run_answer(const AnswerOptions& options, Io& io) {
  const auto answer = answer_of(options, io);
  if (!answer.ok()) return complain(answer.error(), options.json, io);
  const press::AnswerCard& card = answer->card;
  const std::string link =
      options.link ? *options.link + "#" + to_url_text(card.position) : std::string{};
  if (options.output) {
    const auto png = press::answer_png(card);
    if (!png.ok()) {
      return complain(
          failure("cannot-print", fmt::format("the picture cannot be made: {}", png.error().reason),
                  "free some memory, and try again"),
          options.json, io);
    }
    if (const auto wrong = write_file(*options.output, *png)) {
      return complain(*wrong, options.json, io);
    }
  }
  if (options.json) {
    io.out << to_line({{"position", to_text(card.position)},
                       {"answer", card.answer},
                       {"reason", card.reason},
                       {"known", answer->known},
                       {"description", press::answer_description(card)},
                       {"link", options.link ? Json(link) : Json(nullptr)},
                       {"picture", options.output ? Json(*options.output) : Json(nullptr)}})
           << '\n';
    return exit_fine;
  }
  // One paragraph a line: whoever pastes it has lines of another width.
  io.out << harmless(to_text(card.position)) << '\n'
         << painted(Ink::strong, harmless(card.answer) + ".", io.colour_out) << '\n'
         << (io.out_is_terminal ? wrapped(harmless(card.reason), io.width)
                                : harmless(card.reason) + "\n");
  if (options.link) io.out << harmless(link) << '\n';
  return exit_fine;
}

}  // namespace

void declare_answer(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<AnswerOptions>();
  OptionList& list = verb.options;
  list.argument("POSITION", options->position,
                "A position line between quotes; `start` for the position of a new game; a file "
                "whose first line is a position line; or - for standard input.");
  list.value("--play", "PLAY", options->play, "Ask whether this play was allowed.");
  list.value("--best", "PLAY", options->best, "Ask whether this play was the best.");
  list.value("--chance", "EVENT", options->chance,
             "Ask how likely this was, as `pointwright chances` takes it.");
  list.value("-o,--output", "FILE", options->output, "Draw the answer to this file, as PNG.");
  list.value("--names", "LIGHT,DARK", options->names,
             "What the sides are called, such as Ivory,Walnut.");
  list.choice("--bottom", {"light", "dark"}, options->bottom,
              "Whose home is at the bottom; light unless this says otherwise.");
  list.value("--link", "ADDRESS", options->link,
             "End the text in a link to the position at this address.");
  list.flag("--json", options->json, "Answer with one JSON object.");
  verb.act = [options](Io& io) { return run_answer(*options, io); };
}

}  // namespace pointwright::app
