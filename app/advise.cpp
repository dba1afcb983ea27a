#include "app/advise.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "app/batch.hpp"
#include "app/judging.hpp"
#include "app/numbers.hpp"
#include "app/options.hpp"
#include "app/rule.hpp"
#include "app/verbs.hpp"
#include "judge/grade.hpp"
#include "rules/notation.hpp"
#include "rules/score.hpp"
#include "rules/text.hpp"

namespace pointwright::app {
namespace {

struct AdviseOptions : PositionOptions {
  std::optional<std::string> play;
  std::optional<std::string> top;
  std::optional<std::string> depth;
  std::optional<std::string> rollout;
  std::optional<std::string> threads;
};

constexpr std::uint64_t usual_top = 5;
constexpr std::uint64_t largest_top = 10'000;
constexpr std::uint64_t most_trials = 1'000'000;

const Guide guide{
    .name = "advise",
    .summary = "Rank the plays of a roll, and say why the best is best.",
    .text =
        "Lists the best plays of a roll with what each is worth on average, what it costs beside "
        "the best, and how often it wins, wins a gammon and loses one; then says why the best play "
        "is better than the second, or than the one that --play names. Numbers belong to the side "
        "to play, in points a game, without a further turn of the cube; in a match they are "
        "chances of winning the match, scaled so that a single win is +1 and a single loss -1.\n\n"
        "The numbers are estimates by nets that learned from nothing but the rules "
        "(docs/training.md), looked at as many rolls ahead as --depth says; where the rules or an "
        "exact table know more, they answer. How each number is known stands beside it. --rollout "
        "plays the best of them on many times and states the standard error.\n\n"
        "The reason is measured, not guessed: the other side's best answer to each of its 21 rolls "
        "is found after both plays, and the sentences say which rolls make the difference and how "
        "much of it, the largest part first. Then come counts that anybody can make on the board. "
        "\"A shade\", \"a slip\", \"a stumble\" and \"a fall\" stand for costs of at least 0.01, "
        "0.03, 0.08 and 0.16 points; less is \"level\".\n\n"
        "A play that the rules refuse is refused here as by `rule`, and the exit code is 1.\n\n"
        "With --batch, each line of standard input is POSITION or POSITION | PLAY and each line of "
        "the answer is {\"position\", \"played_for\", \"depth\", \"legal\", \"plays\", \"why\"}; a "
        "line that cannot be answered gets {\"error\": …, \"input\": …} in its place.",
    .examples = {
        {.command = "pointwright advise \"start; light to play 6-4\"",
         .shows = "The opening roll of 6-4:"},
        {.command = "pointwright advise \"start; light to play 5-1\" --play \"24/18\" --depth 2",
         .shows = "Why not this one? Looked at two rolls ahead:"},
        {.command = "pointwright advise --json \"start; dark to play 3-1; match to 5 score 4-1\"",
         .shows = "At a match score, for programs:"}}};

/// "for points", or how the match stands.
std::string played_for(const Position& position) {
  if (!position.match) {
    return judge::valuation_of(position, *position.turn) == judge::Valuation::singles()
               ? "points, gammons not counted"
               : "points";
  }
  return fmt::format("a match to {}, score {}-{}{}", position.match->length,
                     position.match->points[0], position.match->points[1],
                     position.match->crawford ? ", Crawford game" : "");
}

std::string effort_words(const Advice& advice) {
  if (advice.trials > 0) {
    return fmt::format("rolled out {} times", with_commas(static_cast<long long>(advice.trials)));
  }
  if (advice.depth == 0) return "valued at once";
  return fmt::format("{} {} ahead", advice.depth, advice.depth == 1 ? "roll" : "rolls");
}

/// "0.041 a slip"; nothing for the best play.
std::string cost_words(const AdvisedPlay& play, bool best) {
  if (best) return {};
  const double cost = std::max(0.0, play.cost);
  return fmt::format("{:.3f} {}", cost, judge::grade_of(cost).name);
}

void print_row(const Advice& advice, std::size_t i, std::size_t widest, Io& io) {
  const AdvisedPlay& play = advice.plays[i];
  const judge::Chances& chances = play.ranked.chances;
  const std::string text = to_text(play.ranked.play.play);
  io.out << fmt::format("{:>4}  {}{}  {}  {:<16} {:>6} {:>6} {:>6}   {}\n", i + 1,
                        i == 0 ? painted(Ink::good, text, io.colour_out) : text,
                        std::string(widest - text.size(), ' '),
                        equity(static_cast<double>(play.ranked.equity)), cost_words(play, i == 0),
                        percent(static_cast<double>(chances.win), 1),
                        percent(static_cast<double>(chances.win_gammon), 1),
                        percent(static_cast<double>(chances.lose_gammon), 1), known_words(play));
}

void print_table(const Advice& advice, const AdviceView& view, Io& io) {
  std::vector<std::size_t> rows;
  for (std::size_t i = 0; i < advice.plays.size(); ++i) {
    if (i < view.top || i == view.asked) rows.push_back(i);
  }
  std::size_t widest = 4;
  for (const std::size_t i : rows) {
    widest = std::max(widest, to_text(advice.plays[i].ranked.play.play).size());
  }
  io.out << fmt::format("      {:<{}}  worth   {:<16} {:>6} {:>6} {:>6}   known\n", "play", widest,
                        "costs", "wins", "gammon", "loses");
  for (const std::size_t i : rows) print_row(advice, i, widest, io);
}

/// The two plays that are compared: the best, and the one asked about or the second.
std::optional<std::size_t> compared(const Advice& advice, const AdviceView& view) {
  if (advice.plays.size() < 2) return std::nullopt;
  return view.asked && *view.asked != 0 ? *view.asked : 1;
}

/// What the ranking says of the two where the reasons look less far, or otherwise.
std::string afterword(const Advice& advice, std::size_t other) {
  const AdvisedPlay& play = advice.plays[other];
  const std::string text = to_text(play.ranked.play.play);
  if (play.error) {
    return fmt::format("Rolled out, {} costs {:.3f} points, with a standard error of {:.3f}.", text,
                       play.cost, play.cost_error);
  }
  if (advice.depth == 2 && play.ranked.depth == 2) {
    return fmt::format("Two rolls ahead, {} costs {:.3f} points.", text, play.cost);
  }
  return {};
}

void print_why(const Advice& advice, const AdviceView& view, Io& io) {
  const auto other = compared(advice, view);
  if (!other) return;
  const Why reason = why(advice, 0, *other);
  io.out << '\n'
         << painted(Ink::strong,
                    fmt::format("Why {} and not {}", to_text(reason.first.play.play),
                                to_text(reason.second.play.play)),
                    io.colour_out)
         << '\n';
  for (const judge::Reason& sentence : reason.reasons) {
    io.out << wrapped(sentence.text, io.width, 2);
  }
  const std::string last = afterword(advice, *other);
  if (!last.empty()) io.out << wrapped(last, io.width, 2);
}

void print_advice(const Advice& advice, const AdviceView& view, Io& io) {
  const Position& position = advice.position;
  const std::string who =
      fmt::format("{} to play {}", name(*position.turn), to_text(*position.roll));
  if (advice.plays.empty()) {
    io.out << who << ": no legal move\n";
    return;
  }
  const std::size_t count = advice.plays.size();
  io.out << painted(Ink::strong,
                    fmt::format("{}: {}, {}, for {}", who,
                                count == 1 ? "the only legal play"
                                           : fmt::format("the best of {} plays", count),
                                effort_words(advice), played_for(position)),
                    io.colour_out)
         << '\n';
  print_table(advice, view, io);
  print_why(advice, view, io);
}

Json chances_object(const judge::Chances& chances) {
  const auto number = [](float chance) { return rounded(static_cast<double>(chance), 4); };
  return {{"win", number(chances.win)},
          {"win_gammon", number(chances.win_gammon)},
          {"win_backgammon", number(chances.win_backgammon)},
          {"lose_gammon", number(chances.lose_gammon)},
          {"lose_backgammon", number(chances.lose_backgammon)}};
}

Json play_object(const AdvisedPlay& play) {
  Json result{{"play", to_text(play.ranked.play.play)},
              {"after", to_text(play.ranked.play.after)},
              {"equity", rounded(static_cast<double>(play.ranked.equity), 4)},
              {"cost", rounded(std::max(0.0, play.cost), 4)},
              {"grade", judge::grade_of(std::max(0.0, play.cost)).name},
              {"chances", chances_object(play.ranked.chances)},
              {"known", known_word(play)}};
  if (play.error) {
    result["error"] = rounded(*play.error, 4);
    result["cost_error"] = rounded(play.cost_error, 4);
  } else {
    result["depth"] = play.ranked.depth;
  }
  return result;
}

Json why_object(const Why& reason) {
  Json groups = Json::array();
  if (!reason.first.look.replies.empty() && !reason.second.look.replies.empty()) {
    for (const judge::ReplyGroup& group : judge::compare(reason.first.look, reason.second.look)) {
      Json rolls = Json::array();
      for (const Roll roll : group.rolls) rolls.push_back(to_text(roll));
      groups.push_back({{"rolls", std::move(rolls)},
                        {"ways", group.ways},
                        {"after_first", judge::phrase(group.first)},
                        {"after_second", judge::phrase(group.second)},
                        {"mean", rounded(group.mean, 4)},
                        {"share", rounded(group.share, 4)}});
    }
  }
  Json sentences = Json::array();
  for (const judge::Reason& sentence : reason.reasons) sentences.push_back(sentence.text);
  return {{"first", to_text(reason.first.play.play)},
          {"second", to_text(reason.second.play.play)},
          {"difference", rounded(reason.first.look.worth - reason.second.look.worth, 4)},
          {"rolls", std::move(groups)},
          {"sentences", std::move(sentences)}};
}

struct Work {
  AdviceEffort effort;
  std::size_t top = usual_top;
};

Result<Work, Failure> work_of(const AdviseOptions& options) {
  const auto top = number_of(options.top, "--top", usual_top, 1, largest_top);
  if (!top.ok()) return top.error();
  const auto depth = number_of(options.depth, "--depth", 1, 0, judge::most_depth);
  if (!depth.ok()) return depth.error();
  const auto trials = number_of(options.rollout, "--rollout", 0, 36, most_trials);
  if (!trials.ok()) return trials.error();
  const auto threads = threads_of(options.threads);
  if (!threads.ok()) return threads.error();
  return Work{
      .effort = {.depth = static_cast<int>(*depth), .most_trials = *trials, .threads = *threads},
      .top = static_cast<std::size_t>(*top)};
}

int run_advise(const AdviseOptions& options, Io& io) {
  if (const auto wrong = misuse(options)) return complain(*wrong, io);
  const auto work = work_of(options);
  if (!work.ok()) return complain(work.error(), options.json, io);
  const auto search = make_search(work->effort.depth, work->effort.threads);
  if (options.batch) {
    return answer_batch(io, [&](std::string_view line) {
      return answer_advise(*search, line, work->effort, work->top);
    });
  }
  const auto question = ask_with_roll(options, io);
  if (!question.ok()) return complain(question.error(), options.json, io);
  const Position& position = question->position;
  if (const auto wrong = unfit(position, question->given)) {
    return complain(*wrong, options.json, io);
  }
  std::optional<Board> wanted;
  if (options.play) {
    const auto attempt = read_play(*options.play);
    if (!attempt.ok()) {
      return complain({.text = *options.play, .origin = "argument", .faults = attempt.error()},
                      options.json, io);
    }
    const Ruling ruling = rule_on(position, *attempt);
    if (!ruling.allowed) {
      io.out << (options.json ? to_line(ruling_object(position, *options.play, ruling)) + "\n"
                              : refusal_text(ruling, io));
      return exit_no;
    }
    wanted = ruling.after;
  }
  const auto valuation = judge::valuation_of(position, *position.turn);
  const Advice advice = advise(*search, position, *valuation, work->effort, wanted);
  AdviceView view{.top = work->top};
  if (wanted && !advice.plays.empty()) view.asked = index_of(advice, *wanted);
  if (options.json) {
    io.out << to_line(advice_object(advice, view)) << '\n';
  } else {
    print_advice(advice, view, io);
  }
  return exit_fine;
}

}  // namespace

Json advice_object(const Advice& advice, const AdviceView& view) {
  Json plays = Json::array();
  for (std::size_t i = 0; i < advice.plays.size(); ++i) {
    if (i < view.top || i == view.asked) plays.push_back(play_object(advice.plays[i]));
  }
  Json result{{"position", to_text(advice.position)},
              {"played_for", played_for(advice.position)},
              {"depth", advice.depth}};
  if (advice.trials > 0) result["trials"] = advice.trials;
  result["legal"] = advice.plays.size();
  result["plays"] = std::move(plays);
  if (const auto other = compared(advice, view)) result["why"] = why_object(why(advice, 0, *other));
  return result;
}

Result<Json, Failure> answer_advise(judge::Search& search, std::string_view line,
                                    const AdviceEffort& effort, std::size_t top) {
  const Halves parts = halves(line);
  const GivenLine given{.text = std::string{parts.first}, .origin = "standard input"};
  const auto position = read_position_with_roll(given);
  if (!position.ok()) {
    return Failure{
        .text = std::string{line}, .origin = "standard input", .faults = position.error().faults};
  }
  if (const auto wrong = unfit(*position, given)) return *wrong;
  std::optional<Board> wanted;
  if (parts.has_second) {
    const auto attempt = read_play(parts.second);
    if (!attempt.ok()) {
      Faults faults = attempt.error();
      for (Fault& fault : faults) {
        fault.where.begin += parts.second_at;
        fault.where.end += parts.second_at;
      }
      return Failure{.text = std::string{line}, .origin = "standard input", .faults = faults};
    }
    const Ruling ruling = rule_on(*position, *attempt);
    if (!ruling.allowed) return ruling_object(*position, without_ends(parts.second), ruling);
    wanted = ruling.after;
  }
  const auto valuation = judge::valuation_of(*position, *position->turn);
  const Advice advice = advise(search, *position, *valuation, effort, wanted);
  AdviceView view{.top = top};
  if (wanted && !advice.plays.empty()) view.asked = index_of(advice, *wanted);
  return advice_object(advice, view);
}

void declare_advise(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<AdviseOptions>();
  add_position_options(verb.options, *options, "POSITION or POSITION | PLAY");
  verb.options.value("--play", "PLAY", options->play,
                     "Why not this one? Compares the best play with it.");
  verb.options.value("--top", "N", options->top, "How many plays to list; 5 if not given.");
  verb.options.choice("--depth", {"0", "1", "2"}, options->depth,
                      "How many rolls to look ahead; 1 if not given.");
  verb.options.value("--rollout", "TRIALS", options->rollout,
                     "Play the best plays on, up to so many times each, with the same dice; stops "
                     "once the best leads the others by four standard errors.");
  verb.options.value("--threads", "NUMBER", options->threads,
                     "How many threads share a search two rolls ahead, or the trials; as many as "
                     "there are processors if not given. The numbers do not depend on it.");
  verb.act = [options](Io& io) { return run_advise(*options, io); };
}

}  // namespace pointwright::app
