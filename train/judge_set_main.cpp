#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <memory>
#include <mutex>
#include <string>
#include <thread>

#include "judge/search.hpp"
#include "train/judge_set.hpp"
#include "train/net_files.hpp"

/// Makes the judge of strength, a set of decisions whose plays were rolled out, and measures
/// players against it. See docs/judge-of-strength.md.
namespace pointwright::train {
namespace {

using Clock = std::chrono::steady_clock;

/// A set is written so often while it is made, in seconds.
constexpr double save_every = 15;

struct Options {
  std::string file = "judge-set.csv";
  std::string nets;
  unsigned threads = 1;
  bool resume = false;
  JudgeSetOptions set;
  std::vector<int> depths{0, 1, 2};
  std::size_t most = 0;  ///< decisions of each kind and part that are measured; 0: all
};

/// The head of a set. Sets whose `origin` is the same can be judged in several runs.
struct Head {
  std::string origin;
  std::vector<std::string> lines;
};

Head head_of(const Options& options, const Nets& nets, const std::string& command) {
  const JudgeSetOptions& set = options.set;
  Head head;
  head.origin = fmt::format(
      "{}; seed {}, {} decisions of each kind; trials cut off after {} rolls, plays at depth {}, "
      "ends at depth {}; luck adjusted; {} to {} trials; a play {} standard errors behind is "
      "dropped; enough when the leads of the others are known to {}",
      nets.text(), set.seed, set.per_kind, set.rollout.truncate_after, set.rollout.play_depth,
      set.rollout.end_depth, set.least_trials, set.most_trials, set.clear_lead, set.enough_error);
  head.lines = {"Decisions judged by rollouts: see docs/judge-of-strength.md.",
                "command: " + command, head.origin,
                "All is seen by light, which plays. Plays with 0 trials are known by one step "
                "only."};
  return head;
}

/// What an earlier run judged, into its place. Returns which decisions are judged.
std::vector<bool> taken_up(const Options& options, const Head& head,
                           std::vector<Judged>& decisions) {
  std::vector<bool> judged(decisions.size(), false);
  if (!options.resume || !std::ifstream(options.file)) return judged;
  const std::string csv = read_file(options.file);
  if (csv.find("# " + head.origin + "\n") == std::string::npos)
    fail(options.file +
         ": made by other nets or other settings; go on with those, or choose "
         "another file");
  const auto earlier = read_csv(csv);
  if (!earlier) fail(options.file + ": " + earlier.error());
  for (const Judged& decision : *earlier) {
    if (decision.id == 0 || decision.id > decisions.size())
      fail(fmt::format("{}: has a decision {}; there are {}", options.file, decision.id,
                       decisions.size()));
    judged[decision.id - 1] = true;
    decisions[decision.id - 1] = decision;
  }
  return judged;
}

int make(const Options& options, const std::string& command) {
  const Nets nets(options.nets);
  const judge::Evaluator evaluator(nets.by_phase);
  const auto start = Clock::now();
  const auto elapsed = [&] { return std::chrono::duration<double>(Clock::now() - start).count(); };
  double next_report = 0;
  auto decisions =
      choose_decisions(evaluator, options.set, [&](std::size_t found, std::uint64_t games) {
        if (elapsed() < next_report) return;
        next_report = elapsed() + 5;
        fmt::print(stderr, "chosen {} decisions from {} games, {:.0f} s\n", found, games,
                   elapsed());
      });
  const double chosen_after = elapsed();
  const Head head = head_of(options, nets, command);
  std::vector<bool> judged = taken_up(options, head, decisions);
  const auto count_judged = [&] {
    return static_cast<std::size_t>(std::count(judged.begin(), judged.end(), true));
  };
  const std::size_t before = count_judged();
  // Every kind in turn, so that a run that is cut off has some of each.
  std::vector<std::size_t> order;
  for (std::size_t k = 0; k < options.set.per_kind; ++k) {
    for (std::size_t i = k; i < decisions.size(); i += options.set.per_kind) {
      if (!judged[i]) order.push_back(i);
    }
  }
  const auto save = [&] {
    std::vector<Judged> done;
    for (std::size_t i = 0; i < decisions.size(); ++i) {
      if (judged[i]) done.push_back(decisions[i]);
    }
    Head now = head;
    now.lines.push_back(
        fmt::format("{} of {} decisions; {:.0f} s to choose, {:.0f} s to judge {} "
                    "on {} threads",
                    done.size(), decisions.size(), chosen_after, elapsed() - chosen_after,
                    done.size() - before, options.threads));
    write_file(options.file, to_csv(done, now.lines));
  };
  std::mutex mutex;
  double next_save = elapsed() + save_every;
  in_parallel(options.threads, order.size(), [&](std::size_t k) {
    Judged decision;
    {
      const std::lock_guard lock(mutex);
      decision = decisions[order[k]];
    }
    judge_decision(evaluator, options.set, decision);
    const std::lock_guard lock(mutex);
    decisions[order[k]] = std::move(decision);
    judged[order[k]] = true;
    if (elapsed() < next_save) return;
    next_save = elapsed() + save_every;
    save();
    fmt::print(stderr, "judged {} of {}, {:.0f} s\n", count_judged(), decisions.size(), elapsed());
  });
  save();
  const double wall = elapsed();
  fmt::print("{} decisions: {:.1f} s to choose; {} judged in {:.1f} s, {:.1f} thread-ms each\n",
             decisions.size(), chosen_after, order.size(), wall - chosen_after,
             1000 * (wall - chosen_after) * options.threads /
                 static_cast<double>(std::max<std::size_t>(1, order.size())));
  return 0;
}

/// What adds up over decisions.
struct Sums {
  std::size_t decisions = 0;
  double loss = 0;
  double loss_squares = 0;
  double loss_without_ties = 0;
  std::size_t outside = 0;
  std::size_t not_best = 0;

  void add(const Loss& choice) {
    ++decisions;
    loss += choice.equity;
    loss_squares += choice.equity * choice.equity;
    if (!choice.tie) loss_without_ties += choice.equity;
    outside += choice.outside ? 1U : 0U;
    not_best += choice.tie ? 0U : 1U;
  }
};

struct Errors {
  std::size_t plays = 0;
  double win = 0;
  double gammon = 0;
  double equity = 0;
  double equity_noise = 0;
};

void print_losses(const char* kind, const Sums& sums) {
  const auto n = static_cast<double>(std::max<std::size_t>(1, sums.decisions));
  const double mean = sums.loss / n;
  const double error = std::sqrt(std::max(0.0, sums.loss_squares / n - mean * mean) / n);
  fmt::print(
      "  {:14} {:5}  loss {:.5f} +- {:.5f}  ties as nought {:.5f}  not best {:4.1f}%  outside "
      "{:4.1f}%\n",
      kind, sums.decisions, mean, error, sums.loss_without_ties / n,
      100 * static_cast<double>(sums.not_best) / n, 100 * static_cast<double>(sums.outside) / n);
}

void print_errors(const char* kind, const Errors& e) {
  const auto n = static_cast<double>(std::max<std::size_t>(1, e.plays));
  fmt::print(
      "  {:14} {:5}  win {:.4f}  gammon {:.4f}  equity {:.4f}  (rollouts' own error in equity "
      "{:.4f})\n",
      kind, e.plays, std::sqrt(e.win / n), std::sqrt(e.gammon / n), std::sqrt(e.equity / n),
      std::sqrt(e.equity_noise / n));
}

Errors operator+(Errors a, const Errors& b) {
  return {a.plays + b.plays, a.win + b.win, a.gammon + b.gammon, a.equity + b.equity,
          a.equity_noise + b.equity_noise};
}

/// How far the search is from the rollouts of one decision's plays.
Errors errors_of(judge::Search& search, const Judged& decision, int depth) {
  Errors errors;
  for (const JudgedPlay& play : decision.plays) {
    if (play.trials == 0) continue;
    const judge::Chances now = has_won(play.after, Side::light)
                                   ? judge::lost_game(play.after).reversed()
                                   : search.worth(play.after, Side::dark, depth).chances.reversed();
    const auto square = [](double difference) { return difference * difference; };
    ++errors.plays;
    errors.win += square(static_cast<double>(now.win - play.chances.win));
    errors.gammon += square(static_cast<double>(now.win_gammon - play.chances.win_gammon)) / 2 +
                     square(static_cast<double>(now.lose_gammon - play.chances.lose_gammon)) / 2;
    errors.equity += square(static_cast<double>(now.equity()) - play.equity);
    errors.equity_noise += square(play.error);
  }
  return errors;
}

/// The same over many decisions, on some threads.
std::vector<Errors> errors_of(const judge::Evaluator& evaluator,
                              const std::vector<const Judged*>& decisions, int depth,
                              unsigned threads) {
  std::vector<Errors> errors(decisions.size());
  std::atomic<std::size_t> next{0};
  in_parallel(threads, threads, [&](std::size_t) {
    judge::Search search(evaluator);
    for (std::size_t i = next++; i < decisions.size(); i = next++)
      errors[i] = errors_of(search, *decisions[i], depth);
  });
  return errors;
}

void print_errors(const std::vector<const Judged*>& decisions, const std::vector<Errors>& errors,
                  int depth) {
  fmt::print(" chances at depth {} against rollouts, root mean square\n", depth);
  std::array<Errors, all_kinds.size()> of_kind;
  Errors all;
  for (std::size_t i = 0; i < decisions.size(); ++i) {
    Errors& kind = of_kind[static_cast<std::size_t>(decisions[i]->kind)];
    kind = kind + errors[i];
    all = all + errors[i];
  }
  for (const Kind kind : all_kinds)
    print_errors(std::string(name(kind)).c_str(), of_kind[static_cast<std::size_t>(kind)]);
  print_errors("all", all);
}

int measure(const Options& options) {
  const auto read = read_csv(read_file(options.file));
  if (!read) fail(options.file + ": " + read.error());
  const Nets nets(options.nets);
  const judge::Evaluator evaluator(nets.by_phase);
  fmt::print("{}\n", nets.text());
  std::vector<std::unique_ptr<judge::Search>> searches;
  for (const Part part : {Part::tuning, Part::reporting}) {
    fmt::print("{} half\n", part == Part::tuning ? "tuning" : "reporting");
    std::array<std::vector<const Judged*>, all_kinds.size()> by_kind;
    for (const Judged& decision : *read) {
      auto& of_kind = by_kind[static_cast<std::size_t>(decision.kind)];
      if (decision.part == part && (options.most == 0 || of_kind.size() < options.most))
        of_kind.push_back(&decision);
    }
    for (const int depth : options.depths) {
      std::vector<const Judged*> flat;
      for (const auto& of_kind : by_kind) flat.insert(flat.end(), of_kind.begin(), of_kind.end());
      print_errors(flat, errors_of(evaluator, flat, depth, options.threads), depth);
      fmt::print(" choosing at depth {}\n", depth);
      std::vector<Loss> losses(flat.size());
      const auto start = Clock::now();
      std::atomic<std::size_t> next{0};
      in_parallel(options.threads, options.threads, [&](std::size_t) {
        judge::Search search(evaluator);
        for (std::size_t i = next++; i < flat.size(); i = next++)
          losses[i] = loss_of(*flat[i],
                              search.best_after(flat[i]->board, Side::light, flat[i]->roll, depth));
      });
      const double seconds = std::chrono::duration<double>(Clock::now() - start).count();
      std::array<Sums, all_kinds.size()> sums;
      Sums all;
      for (std::size_t i = 0; i < flat.size(); ++i) {
        sums[static_cast<std::size_t>(flat[i]->kind)].add(losses[i]);
        all.add(losses[i]);
      }
      for (const Kind kind : all_kinds)
        print_losses(std::string(name(kind)).c_str(), sums[static_cast<std::size_t>(kind)]);
      print_losses("all", all);
      fmt::print("  {:.3f} thread-ms a decision\n",
                 1000 * seconds * options.threads /
                     static_cast<double>(std::max<std::size_t>(1, flat.size())));
      (void)std::fflush(stdout);
    }
  }
  return 0;
}

void add_common(CLI::App& verb, Options& options) {
  verb.add_option("file", options.file, "the set, as CSV")->capture_default_str();
  verb.add_option("--nets", options.nets, "folder of other nets than the shipped ones");
  verb.add_option("--threads", options.threads, "")
      ->capture_default_str()
      ->check(CLI::Range(1, 256));
}

int run(int argc, char** argv) {
  Options options;
  JudgeSetOptions& set = options.set;
  set.rollout.truncate_after = 8;
  CLI::App app("Makes a set of decisions judged by rollouts, or measures players against it.");
  app.require_subcommand(1);
  CLI::App& making = *app.add_subcommand("make", "choose decisions from self-play, roll them out");
  add_common(making, options);
  making.add_flag("--resume", options.resume, "go on from the file of a run that was cut off");
  making.add_option("--seed", set.seed, "")->capture_default_str();
  making.add_option("--per-kind", set.per_kind, "decisions of each of the 8 kinds")
      ->capture_default_str();
  making.add_option("--games", set.most_games, "most games to look through")->capture_default_str();
  making
      .add_option("--rolls", set.rollout.truncate_after, "trials are cut off after so many rolls")
      ->capture_default_str();
  making.add_option("--play-depth", set.rollout.play_depth, "how deeply trials are played")
      ->capture_default_str()
      ->check(CLI::Range(0, judge::most_depth));
  making.add_option("--end-depth", set.rollout.end_depth, "how deeply their ends are valued")
      ->capture_default_str()
      ->check(CLI::Range(0, judge::most_depth));
  making.add_option("--least-trials", set.least_trials, "")->capture_default_str();
  making.add_option("--most-trials", set.most_trials, "")->capture_default_str();
  making.add_option("--error", set.enough_error, "enough when the leads are known so well")
      ->capture_default_str();
  making.add_option("--lead", set.clear_lead, "plays so many standard errors behind are dropped")
      ->capture_default_str();
  CLI::App& measuring = *app.add_subcommand("measure", "loss of the nets against a set");
  add_common(measuring, options);
  measuring.add_option("--depths", options.depths, "0, 1 and 2")
      ->capture_default_str()
      ->check(CLI::Range(0, judge::most_depth));
  measuring.add_option("--most", options.most, "decisions of each kind and half; 0: all")
      ->capture_default_str();
  CLI11_PARSE(app, argc, argv);
  set.rollout.seed = set.seed;
  std::string command = "pointwright_judge_set";
  for (int i = 1; i < argc; ++i) command += std::string(" ") + argv[i];
  return making.parsed() ? make(options, command) : measure(options);
}

}  // namespace
}  // namespace pointwright::train

int main(int argc, char** argv) {
  return pointwright::train::run(argc, argv);
}
