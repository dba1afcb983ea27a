#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <atomic>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <memory>
#include <mutex>
#include <string>
#include <thread>

#include "judge/shipped.hpp"
#include "train/judge_set.hpp"

/// Makes the judge of strength, a set of decisions whose plays were rolled out, and measures
/// players against it. See docs/judge-of-strength.md.
namespace pointwright::train {
namespace {

using Clock = std::chrono::steady_clock;

struct Options {
  std::string file = "judge-set.csv";
  std::string contact_file;
  std::string race_file;
  unsigned threads = 1;
  JudgeSetOptions set;
  std::vector<int> depths{0, 1, 2};
  std::size_t most = 0;  ///< decisions of each kind and part that are measured; 0: all
};

[[noreturn]] void fail(const std::string& reason) {
  std::fprintf(stderr, "%s\n", reason.c_str());
  std::exit(2);
}

std::string read_file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) fail("cannot read " + path);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

judge::Weights load_net(const std::string& path) {
  const std::string raw = read_file(path);
  const std::vector<std::uint8_t> bytes(raw.begin(), raw.end());
  const auto weights = judge::weights_from_bytes(bytes);
  if (!weights) fail(path + ": " + weights.error().reason);
  return *weights;
}

judge::Weights shipped(std::span<const std::uint8_t> bytes) {
  return *judge::weights_from_bytes(bytes);
}

/// 64-bit FNV-1a of a net's bytes: says which net was used.
std::uint64_t fingerprint(const judge::Weights& weights) {
  std::uint64_t hash = 0xCBF29CE484222325ULL;
  for (const std::uint8_t byte : judge::to_bytes(weights)) hash = (hash ^ byte) * 0x100000001B3ULL;
  return hash;
}

struct Nets {
  judge::Weights contact;
  judge::Weights race;

  explicit Nets(const Options& options)
      : contact(options.contact_file.empty() ? shipped(judge::shipped_contact_net())
                                             : load_net(options.contact_file)),
        race(options.race_file.empty() ? shipped(judge::shipped_race_net())
                                       : load_net(options.race_file)) {}
  [[nodiscard]] std::string text() const {
    return fmt::format("nets: contact {:016x} ({} hidden), race {:016x} ({} hidden)",
                       fingerprint(contact), contact.hidden, fingerprint(race), race.hidden);
  }
};

/// Does `work` for 0 ... count-1 on some threads, in any order.
template <class Work>
void in_parallel(unsigned threads, std::size_t count, const Work& work) {
  std::atomic<std::size_t> next{0};
  std::vector<std::thread> crew;
  for (unsigned k = 0; k < std::max(1U, threads); ++k) {
    crew.emplace_back([&] {
      for (std::size_t i = next++; i < count; i = next++) work(i);
    });
  }
  for (std::thread& thread : crew) thread.join();
}

void write_whole(const std::string& path, const std::string& text) {
  const std::string temporary = path + ".new";
  std::ofstream out(temporary, std::ios::binary);
  out << text;
  out.close();
  if (!out || std::rename(temporary.c_str(), path.c_str()) != 0) fail("cannot write " + path);
}

int make(const Options& options, const std::string& command) {
  const Nets nets(options);
  const judge::Evaluator evaluator(nets.contact, nets.race);
  const auto start = Clock::now();
  const auto elapsed = [&] { return std::chrono::duration<double>(Clock::now() - start).count(); };
  double next_report = 0;
  auto decisions =
      choose_decisions(evaluator, options.set, [&](std::size_t found, std::uint64_t games) {
        if (elapsed() < next_report) return;
        next_report = elapsed() + 5;
        std::fprintf(stderr, "chosen %zu decisions from %lu games, %.0f s\n", found,
                     static_cast<unsigned long>(games), elapsed());
      });
  const double chosen_after = elapsed();
  std::mutex mutex;
  std::size_t done = 0;
  in_parallel(options.threads, decisions.size(), [&](std::size_t i) {
    judge_decision(evaluator, options.set, decisions[i]);
    const std::lock_guard lock(mutex);
    ++done;
    if (elapsed() < next_report && done != decisions.size()) return;
    next_report = elapsed() + 5;
    std::fprintf(stderr, "judged %zu of %zu, %.0f s\n", done, decisions.size(), elapsed());
  });
  const double wall = elapsed();
  const JudgeSetOptions& set = options.set;
  write_whole(
      options.file,
      to_csv(
          decisions,
          {"Decisions judged by rollouts: see docs/judge-of-strength.md.", "command: " + command,
           nets.text(),
           fmt::format("seed {}; trials cut off after {} rolls, plays at depth {}, ends at depth "
                       "{}; luck adjusted; {} to {} trials; a play {} standard errors behind is "
                       "dropped; enough when the leads of the others are known to {}",
                       set.seed, set.rollout.truncate_after, set.rollout.play_depth,
                       set.rollout.end_depth, set.least_trials, set.most_trials, set.clear_lead,
                       set.enough_error),
           fmt::format("{} decisions, {:.0f} s to choose, {:.0f} s to judge on {} threads",
                       decisions.size(), chosen_after, wall - chosen_after, options.threads),
           "All is seen by light, which plays. Plays with 0 trials are known by one step only."}));
  std::printf("%zu decisions: %.1f s to choose, %.1f s to judge, %.1f thread-ms a decision\n",
              decisions.size(), chosen_after, wall - chosen_after,
              1000 * (wall - chosen_after) * options.threads /
                  static_cast<double>(std::max<std::size_t>(1, decisions.size())));
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
  std::printf(
      "  %-14s %5zu  loss %.5f +- %.5f  ties as nought %.5f  not best %4.1f%%  outside %4.1f%%\n",
      kind, sums.decisions, mean, error, sums.loss_without_ties / n,
      100 * static_cast<double>(sums.not_best) / n, 100 * static_cast<double>(sums.outside) / n);
}

void print_errors(const char* kind, const Errors& e) {
  const auto n = static_cast<double>(std::max<std::size_t>(1, e.plays));
  std::printf(
      "  %-14s %5zu  win %.4f  gammon %.4f  equity %.4f  (rollouts' own error in equity %.4f)\n",
      kind, e.plays, std::sqrt(e.win / n), std::sqrt(e.gammon / n), std::sqrt(e.equity / n),
      std::sqrt(e.equity_noise / n));
}

Errors errors_of(const judge::Evaluator& evaluator, const std::vector<const Judged*>& decisions) {
  Errors errors;
  for (const Judged* decision : decisions) {
    for (const JudgedPlay& play : decision->plays) {
      if (play.trials == 0) continue;
      const judge::Chances now = evaluator.evaluate(play.after, Side::dark).chances.reversed();
      const auto square = [](double difference) { return difference * difference; };
      ++errors.plays;
      errors.win += square(static_cast<double>(now.win - play.chances.win));
      errors.gammon += square(static_cast<double>(now.win_gammon - play.chances.win_gammon)) / 2 +
                       square(static_cast<double>(now.lose_gammon - play.chances.lose_gammon)) / 2;
      errors.equity += square(static_cast<double>(now.equity()) - play.equity);
      errors.equity_noise += square(play.error);
    }
  }
  return errors;
}

Errors operator+(Errors a, const Errors& b) {
  return {a.plays + b.plays, a.win + b.win, a.gammon + b.gammon, a.equity + b.equity,
          a.equity_noise + b.equity_noise};
}

int measure(const Options& options) {
  const auto read = read_csv(read_file(options.file));
  if (!read) fail(options.file + ": " + read.error());
  const Nets nets(options);
  const judge::Evaluator evaluator(nets.contact, nets.race);
  std::printf("%s\n", nets.text().c_str());
  std::vector<std::unique_ptr<judge::Search>> searches;
  for (const Part part : {Part::tuning, Part::reporting}) {
    std::printf("%s half\n", part == Part::tuning ? "tuning" : "reporting");
    std::array<std::vector<const Judged*>, all_kinds.size()> by_kind;
    for (const Judged& decision : *read) {
      auto& of_kind = by_kind[static_cast<std::size_t>(decision.kind)];
      if (decision.part == part && (options.most == 0 || of_kind.size() < options.most))
        of_kind.push_back(&decision);
    }
    std::printf(" chances at once against rollouts, root mean square\n");
    Errors all_errors;
    for (const Kind kind : all_kinds) {
      const Errors errors = errors_of(evaluator, by_kind[static_cast<std::size_t>(kind)]);
      print_errors(std::string(name(kind)).c_str(), errors);
      all_errors = all_errors + errors;
    }
    print_errors("all", all_errors);
    for (const int depth : options.depths) {
      std::printf(" choosing at depth %d\n", depth);
      std::vector<const Judged*> flat;
      for (const auto& of_kind : by_kind) flat.insert(flat.end(), of_kind.begin(), of_kind.end());
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
      std::printf("  %.3f thread-ms a decision\n",
                  1000 * seconds * options.threads /
                      static_cast<double>(std::max<std::size_t>(1, flat.size())));
      std::fflush(stdout);
    }
  }
  return 0;
}

void add_common(CLI::App& verb, Options& options) {
  verb.add_option("file", options.file, "the set, as CSV")->capture_default_str();
  verb.add_option("--contact", options.contact_file, "net for contact, instead of the shipped one");
  verb.add_option("--race", options.race_file, "net for races, instead of the shipped one");
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
