#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <string>
#include <vector>

#include "judge/evaluator.hpp"
#include "rules/notation.hpp"
#include "train/gradient.hpp"
#include "train/net_files.hpp"
#include "train/trainer.hpp"

/// Trains the nets by self-play, from nothing but the rules. See docs/training.md.
namespace pointwright::train {
namespace {

using judge::Weights;

struct Options {
  std::string folder = ".";
  bool resume = false;
  int hidden = 128;
  int race_hidden = 64;
  double report_every = 20;
  Training how;
};

/// The mean of nets that went on from the same one, weight by weight.
int average(const std::string& to, const std::vector<std::string>& from) {
  Weights sum = load_net(from.front());
  for (std::size_t n = 1; n < from.size(); ++n) {
    const Weights net = load_net(from[n]);
    if (net.hidden != sum.hidden) fail(from[n] + ": not as wide as " + from.front());
    for (const auto matrix : matrices) {
      for (std::size_t i = 0; i < (sum.*matrix).size(); ++i) (sum.*matrix)[i] += (net.*matrix)[i];
    }
  }
  for (const auto matrix : matrices) {
    for (float& value : sum.*matrix) value /= static_cast<float>(from.size());
  }
  save_net(to, sum);
  return 0;
}

/// The plays that the nets choose for the settled opening rolls.
std::string openings(const judge::Evaluator& evaluator) {
  std::string text;
  for (const Roll roll : {Roll(3, 1), Roll(4, 2), Roll(6, 1), Roll(5, 3), Roll(6, 5)}) {
    const auto plays = legal_plays(starting_board(), Side::light, roll);
    text +=
        "  " + to_text(roll) + " " + to_text(plays[evaluator.best_play(plays, Side::light)].play);
  }
  return text;
}

int run(const Options& options) {
  const auto seed = static_cast<unsigned>(options.how.seed);
  judge::WeightsByPhase nets;
  for (const judge::Phase phase : judge::all_phases) {
    const auto i = static_cast<std::size_t>(phase);
    const int hidden = phase == judge::Phase::race ? options.race_hidden : options.hidden;
    nets[i] = options.resume ? load_net(net_path(options.folder, phase))
                             : random_weights(hidden, seed + static_cast<unsigned>(i));
  }
  double next_report = options.report_every;
  train(nets, options.how, [&](const Report& report) {
    if (report.seconds < next_report && !report.last) return;
    next_report += options.report_every;
    const judge::Evaluator evaluator(nets);
    fmt::print("{:7.1f} s {:9} games  rate {:.6f}  rms step {:.5f}  gammons {:.1f}%{}\n",
               report.seconds, report.games, static_cast<double>(report.rate), report.rms_step,
               100 * report.gammons, openings(evaluator));
    (void)std::fflush(stdout);
    for (const judge::Phase phase : judge::all_phases)
      save_net(net_path(options.folder, phase), nets[static_cast<std::size_t>(phase)]);
  });
  return 0;
}

}  // namespace
}  // namespace pointwright::train

int main(int argc, char** argv) {
  pointwright::train::Options options;
  pointwright::train::Training& how = options.how;
  CLI::App app("Trains the nets of the judge by self-play.");
  const auto add = [&](const char* name, auto& value, const char* what) {
    app.add_option(name, value, what)->capture_default_str();
  };
  add("--nets", options.folder, "folder of PHASE.net, where they are written");
  app.add_flag("--resume", options.resume, "go on from the nets in that folder");
  add("--hidden", options.hidden, "units of the first layer, a multiple of 16");
  add("--race-hidden", options.race_hidden, "the same for races");
  add("--seed", how.seed, "of games and of the first weights");
  app.add_option("--workers", how.workers, "threads")
      ->capture_default_str()
      ->check(CLI::Range(1, 256));
  add("--batch", how.batch, "new positions between two steps of the weights");
  add("--reviews", how.reviews, "earlier positions studied again beside each new one");
  add("--steps", how.steps, "steps between two rounds of games");
  add("--rounds", how.rounds, "of games and steps, at most");
  add("--seconds", how.seconds, "at most; 0: no limit");
  add("--rate", how.first_rate, "how far a step goes at the start");
  add("--last-rate", how.last_rate, "and at the end");
  app.add_flag("--fall-evenly", how.fall_evenly, "the rate falls by the same amount each second");
  add("--lambda", how.lambda, "weight of later estimates at the start");
  add("--last-lambda", how.last_lambda, "and from half-way on");
  add("--wandering", how.wandering, "share of plays that are the best of half of them");
  add("--rehearsals", how.rehearsals, "share of games that begin at positions of rarer kinds");
  std::vector<std::string> nets;
  std::string mean;
  CLI::App& averaging =
      *app.add_subcommand("average", "instead: the mean of nets that went on from the same one");
  averaging.add_option("to", mean, "the net to write")->required();
  averaging.add_option("from", nets, "the nets")->required();
  CLI11_PARSE(app, argc, argv);
  if (averaging.parsed()) return pointwright::train::average(mean, nets);
  return pointwright::train::run(options);
}
