#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdio>
#include <random>
#include <string>
#include <vector>

#include "chance/two_sided.hpp"
#include "judge/search.hpp"
#include "table_store/table_store.hpp"
#include "train/cube_check.hpp"
#include "train/duel.hpp"
#include "train/judge_set.hpp"
#include "train/net_files.hpp"
#include "train/sieve_check.hpp"

/// Checks nets against exact tables, the sieves of the search against a search without them, and
/// the model of the cube against rollouts. See docs/judge-of-strength.md.
namespace pointwright::train {
namespace {

struct Options {
  std::string nets;
  std::string against;
  std::uint64_t pairs = 20'000;
  std::string three_checkers;
  std::size_t sample = 1'000'000;
  std::uint64_t seed = 1;
  std::string set = "judge-set.csv";
  std::size_t per_kind = 10;
  std::size_t positions = 60;
  std::uint64_t trials = 360;
  unsigned threads = 1;
};

/// How far chances lie from true ones.
class Errors {
 public:
  void add(double given, double exact) {
    const double error = given - exact;
    ++count_;
    sum_ += error;
    squares_ += error * error;
    largest_ = std::max(largest_, std::abs(error));
  }
  /// With no gammons about, an equity is twice the chance to win less one.
  void print(const char* what) const {
    const auto n = static_cast<double>(std::max<std::size_t>(1, count_));
    const double rms = std::sqrt(squares_ / n);
    fmt::print(
        "{}: {} positions; chance to win off by {:.5f} (RMS), {:+.5f} on average, {:.5f} at "
        "most; equity {:.5f} (RMS)\n",
        what, count_, rms, sum_ / n, largest_, 2 * rms);
  }

 private:
  std::size_t count_ = 0;
  double sum_ = 0;
  double squares_ = 0;
  double largest_ = 0;
};

/// Every race of at most six checkers a side, all home.
void check_races(const judge::Net& net) {
  const TwoSidedTable<double>& exact = small_races();
  const BearoffFamily& family = exact.family();
  judge::NetScratch scratch;
  Errors errors;
  Board board;
  for (std::uint32_t mine = 1; mine < family.size(); ++mine) {
    board.of(Side::light) = family.camp(mine);
    for (std::uint32_t theirs = 1; theirs < family.size(); ++theirs) {
      board.of(Side::dark) = family.camp(theirs);
      errors.add(static_cast<double>(net.evaluate(board, Side::light, scratch).win),
                 exact.values(mine, theirs).win);
    }
  }
  errors.print("races of at most six checkers a side, net alone");
}

/// Whether no point holds checkers of both sides.
bool can_stand(const Board& board) {
  for (Place place = 1; place <= 24; ++place) {
    if (board.count(Side::light, place) != 0 && board.count(Side::dark, mirrored(place)) != 0)
      return false;
  }
  return true;
}

/// Positions of at most three checkers a side in which the sides can still meet.
void check_contact(const Nets& nets, const Options& options) {
  const auto stored = StoredThreeChecker::open(options.three_checkers);
  if (!stored.ok()) fail(stored.error().reason);
  const ThreeCheckerTable& exact = stored.value().table();
  std::vector<judge::Net> nets_by_phase;
  for (const judge::Phase phase : judge::all_phases) nets_by_phase.emplace_back(nets.of(phase));
  std::mt19937_64 random(options.seed);
  Errors errors;
  Board board;
  for (std::size_t found = 0; found < options.sample;) {
    const auto any = [&] {
      return exact.index().camp(static_cast<std::uint32_t>(random() % exact.index().size()));
    };
    board.of(Side::light) = any();
    board.of(Side::dark) = any();
    if (!exact.covers(board) || !can_stand(board) || !has_contact(board)) continue;
    ++found;
    const judge::Net& net = nets_by_phase[static_cast<std::size_t>(judge::phase_of(board))];
    errors.add(static_cast<double>(net.evaluate(board, Side::light).win),
               exact.win(board, Side::light));
  }
  errors.print("contact with at most three checkers a side, sampled, net alone");
}

int check_exact(const Options& options) {
  const Nets nets(options.nets);
  fmt::print("{}\n", nets.text());
  check_races(judge::Net(nets.of(judge::Phase::race)));
  if (!options.three_checkers.empty()) check_contact(nets, options);
  return 0;
}

/// Kind after kind, with what was found so far after each.
int check_sieves(const Options& options) {
  const auto read = read_csv(read_file(options.set));
  if (!read) fail(options.set + ": " + read.error());
  const Nets nets(options.nets);
  const judge::Evaluator evaluator(nets.by_phase);
  fmt::print("{}\n", nets.text());
  SieveReport all = empty_report();
  SieveCheck check(evaluator);
  for (const Kind kind : all_kinds) {
    SieveReport of_kind = empty_report();
    for (const Judged& decision : *read) {
      if (decision.kind == kind && of_kind.decisions < options.per_kind)
        check.add(decision, {&of_kind, &all});
    }
    fmt::print("{}\n{}", name(kind), to_text(of_kind));
    (void)std::fflush(stdout);
  }
  fmt::print("all kinds\n{}", to_text(all));
  return 0;
}

void print_costs(const std::vector<CubeQuestion>& questions,
                 const std::vector<CubeAnswers>& answers) {
  for (const double life : {0.3, 0.4, 0.5, 0.55, 0.6, 0.65, 0.68, 0.7, 0.75, 0.8, 0.9, 1.0}) {
    MeanLoss action;
    MeanLoss reply;
    std::size_t same_action = 0;
    std::size_t same_reply = 0;
    for (std::size_t i = 0; i < questions.size(); ++i) {
      const CubeCost cost = cost_of(questions[i], answers[i], life);
      action.add(cost.action);
      reply.add(cost.reply);
      same_action += cost.same_action ? 1U : 0U;
      same_reply += cost.same_reply ? 1U : 0U;
    }
    fmt::print("  life {:.2f}: action as rolled out in {}, costs {}; answer in {}, costs {}\n",
               life, same_action, action.text(), same_reply, reply.text());
  }
}

void print_fit(const char* what, const std::vector<CubeQuestion>& questions,
               const std::vector<CubeAnswers>& answers, CubeWorth worth) {
  const FittedLife fitted = fitted_life(questions, answers, worth);
  fmt::print("  {}: life {:.3f} +- {:.3f}, then off by {:.3f} (RMS)\n", what, fitted.life,
             fitted.error, fitted.off);
}

int check_cube(const Options& options) {
  const Nets nets(options.nets);
  const judge::Evaluator evaluator(nets.by_phase);
  fmt::print("{}\n", nets.text());
  CubeCheckOptions how;
  how.seed = options.seed;
  how.positions = options.positions;
  how.trials = options.trials;
  const std::vector<CubeQuestion> questions = cube_questions(evaluator, how);
  std::vector<CubeAnswers> answers(questions.size());
  std::atomic<std::size_t> done{0};
  in_parallel(options.threads, questions.size(), [&](std::size_t i) {
    answers[i] = roll_out(evaluator, questions[i], how, i + 1);
    if (++done % 20 == 0) fmt::print(stderr, "{} of {}\n", done.load(), questions.size());
  });
  for (const CubeAccess access : {CubeAccess::centred, CubeAccess::mine}) {
    std::vector<CubeQuestion> some;
    std::vector<CubeAnswers> of_them;
    double error = 0;
    for (std::size_t i = 0; i < questions.size(); ++i) {
      if (questions[i].situation.access != access) continue;
      some.push_back(questions[i]);
      of_them.push_back(answers[i]);
      error += answers[i].lead_error;
    }
    if (some.empty()) continue;
    fmt::print("cube {}: {} positions, standard error of a difference {:.3f} on average\n",
               access == CubeAccess::centred ? "in the middle" : "with the side on roll",
               some.size(), error / static_cast<double>(some.size()));
    print_costs(some, of_them);
    print_fit("worth of holding", some, of_them, CubeWorth::hold);
    print_fit("worth of a double that is taken", some, of_them, CubeWorth::take);
  }
  return 0;
}

int check_duel(const Options& options) {
  const Nets first(options.nets);
  const Nets second(options.against);
  fmt::print("{}\nagainst {}\n", first.text(), second.text());
  const Duel duel = play_duel(judge::Evaluator(first.by_phase), judge::Evaluator(second.by_phase),
                              options.pairs, options.seed, options.threads);
  fmt::print("{} pairs of games: {:+.4f} +- {:.4f} points a game\n", duel.pairs, duel.points,
             duel.error);
  return 0;
}

int run(int argc, char** argv) {
  Options options;
  CLI::App app(
      "Checks nets against exact tables and other nets, the search against one without sieves, and "
      "the model of the cube against rollouts.");
  app.require_subcommand(1);
  const auto add_common = [&](CLI::App& verb) {
    verb.add_option("--nets", options.nets, "folder of other nets than the shipped ones");
  };
  CLI::App& exact = *app.add_subcommand("exact", "how far the nets alone are from exact endings");
  add_common(exact);
  exact.add_option("--three-checkers", options.three_checkers,
                   "file that `pointwright tables build --three-checker` made");
  exact.add_option("--sample", options.sample, "positions of that file")->capture_default_str();
  exact.add_option("--seed", options.seed, "of the sample")->capture_default_str();
  CLI::App& sieves = *app.add_subcommand("sieves", "what two steps lose by their sieves");
  add_common(sieves);
  sieves.add_option("set", options.set, "decisions, as CSV")->capture_default_str();
  sieves.add_option("--per-kind", options.per_kind, "decisions of each kind")
      ->capture_default_str();
  CLI::App& cube = *app.add_subcommand("cube", "the model of the cube against rollouts with it");
  add_common(cube);
  cube.add_option("--positions", options.positions, "with contact, from self-play")
      ->capture_default_str();
  cube.add_option("--trials", options.trials, "of each position, in 72s")->capture_default_str();
  cube.add_option("--seed", options.seed, "of games and trials")->capture_default_str();
  cube.add_option("--threads", options.threads, "that share the positions")
      ->capture_default_str()
      ->check(CLI::Range(1, 256));
  CLI::App& duel = *app.add_subcommand("duel", "games at once against other nets, for points");
  add_common(duel);
  duel.add_option("--against", options.against, "folder of the other side's nets");
  duel.add_option("--pairs", options.pairs, "of games with the same dice, the sides exchanged")
      ->capture_default_str()
      ->check(CLI::Range(2, 100'000'000));
  duel.add_option("--seed", options.seed, "of the games")->capture_default_str();
  duel.add_option("--threads", options.threads, "that share the games")
      ->capture_default_str()
      ->check(CLI::Range(1, 256));
  CLI11_PARSE(app, argc, argv);
  if (duel.parsed()) return check_duel(options);
  if (exact.parsed()) return check_exact(options);
  return sieves.parsed() ? check_sieves(options) : check_cube(options);
}

}  // namespace
}  // namespace pointwright::train

int main(int argc, char** argv) {
  return pointwright::train::run(argc, argv);
}
