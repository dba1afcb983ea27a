#include "app/cube_rollout.hpp"

#include <fmt/format.h>

#include <cmath>
#include <limits>

#include "app/cube_modelled.hpp"
#include "app/json.hpp"
#include "app/numbers.hpp"
#include "rules/text.hpp"

namespace pointwright::app {
namespace {

enum Start : std::size_t { holding, taken };

/// How many standard errors a decision must be ahead to count as settled.
constexpr double settled_errors = 3;

/// A cube decision as rolled out. What a drop is worth is known.
struct RolledCube {
  judge::CubeDecision decision;
  double action_error = 0;  ///< standard error of the action's margin
  double reply_error = 0;   ///< and of the answer's
  const judge::Tally& tally;

  RolledCube(const judge::CubeSituation& situation, const judge::Tally& found)
      : decision(judge::decide_between(found.equity(holding), found.equity(taken), situation)),
        tally(found) {
    const double times = decision.reply == judge::CubeReply::beaver ? 2 : 1;
    reply_error = times * found.error(taken);
    action_error = decision.reply == judge::CubeReply::drop ? found.error(holding)
                   : times == 1                             ? found.lead_error(holding, taken)
                                : std::hypot(found.error(holding), reply_error);
  }

  [[nodiscard]] bool action_settled() const {
    return decision.action_margin >= settled_errors * action_error;
  }
  [[nodiscard]] bool reply_settled() const {
    return decision.reply_margin >= settled_errors * reply_error;
  }
};

Json rolled_object(const Position& position, const RolledCube& cube) {
  const judge::CubeDecision& decision = cube.decision;
  Position asked = position;
  asked.roll.reset();
  return {{"position", to_text(asked)},
          {"on_roll", name(*position.turn)},
          {"action", name(decision.action)},
          {"answer", name(decision.reply)},
          {"hold", rounded(decision.hold, 4)},
          {"hold_error", rounded(cube.tally.error(holding), 5)},
          {"double_take", rounded(decision.take, 4)},
          {"double_take_error", rounded(cube.reply_error, 5)},
          {"double_drop", rounded(decision.drop, 4)},
          {"margin", rounded(decision.action_margin, 4)},
          {"margin_error", rounded(cube.action_error, 5)},
          {"settled", cube.action_settled()},
          {"answer_margin", rounded(decision.reply_margin, 4)},
          {"answer_margin_error", rounded(cube.reply_error, 5)},
          {"answer_settled", cube.reply_settled()},
          {"trials", cube.tally.trials},
          {"known", known_sampled}};
}

std::string margin_words(std::string_view what, double margin, double error, bool settled) {
  return fmt::format("{} {:.3f} +- {:.3f}{}", what, margin, error, settled ? "" : ", not settled");
}

void print_rolled(const Position& position, const RolledCube& cube, Io& io) {
  const judge::CubeDecision& decision = cube.decision;
  const bool beaver = decision.reply == judge::CubeReply::beaver;
  io.out << painted(Ink::strong, verdict(position, decision), io.colour_out) << '\n'
         << fmt::format("  hold         {} +- {:.3f}\n", equity(decision.hold),
                        cube.tally.error(holding));
  if (decision.action != judge::CubeAction::none) {
    io.out << fmt::format("  double, {:<5}{} +- {:.3f}\n  double, drop {}\n",
                          beaver ? "bvr" : "take", equity(decision.take), cube.reply_error,
                          equity(decision.drop))
           << wrapped(fmt::format(
                          "{}; {}.",
                          margin_words("Between doubling and holding lie", decision.action_margin,
                                       cube.action_error, cube.action_settled()),
                          margin_words("between taking and dropping", decision.reply_margin,
                                       cube.reply_error, cube.reply_settled())),
                      io.width, 2);
  }
  io.out << wrapped(
      fmt::format("Sampled: {} trials with the same dice, and both sides turn the cube as the "
                  "model tells them one roll ahead; +- is one standard error, and a decision less "
                  "than three ahead is not settled. Equities of {} {}.",
                  with_commas(static_cast<long long>(cube.tally.trials)), name(*position.turn),
                  equity_unit(position)),
      io.width);
}

/// Holding, and doubling that is taken, as starts of one rollout.
RolloutJob cube_job(const Position& position, const judge::CubeSituation& situation) {
  judge::CubeSituation doubled = situation;
  doubled.cube *= 2;
  doubled.access = CubeAccess::theirs;
  RolloutJob job = job_of(position);
  job.starts.resize(2, job.starts.front());
  job.starts[holding].cube = {situation, false, situation.cube};
  job.starts[taken].cube = {doubled, false, situation.cube};
  return job;
}

}  // namespace

int roll_cube_out(const RolloutOptions& options, const Position& position, bool json, Io& io) {
  const judge::CubeSituation situation = *judge::cube_situation(position, *position.turn);
  const RolloutJob job = cube_job(position, situation);
  return roll_out(options, job, json, io, [&](const judge::Tally& tally, std::string_view part) {
    const RolledCube cube(situation, tally);
    if (!json) {
      print_rolled(position, cube, io);
      if (!part.empty()) io.out << fmt::format("  part {}\n", part);
      return;
    }
    Json result = rolled_object(position, cube);
    if (!part.empty()) result["part"] = part;
    io.out << to_line(result) << '\n';
  });
}

Result<Json, Failure> rolled_cube(const RolloutOptions& options, const Position& position) {
  const judge::CubeSituation situation = *judge::cube_situation(position, *position.turn);
  const auto tally = rolled_out(options, cube_job(position, situation));
  if (!tally.ok()) return tally.error();
  return rolled_object(position, RolledCube(situation, *tally));
}

}  // namespace pointwright::app
