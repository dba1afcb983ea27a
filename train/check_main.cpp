#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <cstdio>
#include <random>
#include <string>
#include <vector>

#include "chance/two_sided.hpp"
#include "judge/search.hpp"
#include "table_store/table_store.hpp"
#include "train/judge_set.hpp"
#include "train/net_files.hpp"

/// Checks nets against exact tables, and the sieves of the search against a search without them.
/// See docs/judge-of-strength.md.
namespace pointwright::train {
namespace {

struct Options {
  std::string contact_file;
  std::string race_file;
  unsigned threads = 1;
  std::string three_checkers;
  std::size_t sample = 1'000'000;
  std::uint64_t seed = 1;
  std::string set = "judge-set.csv";
  std::size_t per_kind = 10;
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
    std::printf(
        "%s: %zu positions; chance to win off by %.5f (RMS), %+.5f on average, %.5f at "
        "most; equity %.5f (RMS)\n",
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
void check_contact(const judge::Net& net, const Options& options) {
  const auto stored = StoredThreeChecker::open(options.three_checkers);
  if (!stored.ok()) fail(stored.error().reason);
  const ThreeCheckerTable& exact = stored.value().table();
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
    errors.add(static_cast<double>(net.evaluate(board, Side::light).win),
               exact.win(board, Side::light));
  }
  errors.print("contact with at most three checkers a side, sampled, net alone");
}

int check_exact(const Options& options) {
  const Nets nets(options.contact_file, options.race_file);
  std::printf("%s\n", nets.text().c_str());
  check_races(judge::Net(nets.race));
  if (!options.three_checkers.empty()) check_contact(judge::Net(nets.contact), options);
  return 0;
}

/// What a search loses by looking at fewer plays than another one.
void compare(const judge::Evaluator& evaluator, const std::vector<const Judged*>& decisions,
             const judge::SearchOptions& fewer, const judge::SearchOptions& more, unsigned threads,
             const char* what) {
  std::vector<double> losses(decisions.size());
  std::atomic<std::size_t> next{0};
  in_parallel(threads, threads, [&](std::size_t) {
    judge::Search narrow(evaluator, fewer);
    judge::Search wide(evaluator, more);
    for (std::size_t i = next++; i < decisions.size(); i = next++) {
      const Judged& d = *decisions[i];
      const Board chosen = narrow.best_after(d.board, Side::light, d.roll, 2);
      const auto ranked = wide.rank(d.board, Side::light, d.roll, 2);
      const auto found = std::find_if(ranked.begin(), ranked.end(),
                                      [&](const auto& play) { return play.play.after == chosen; });
      losses[i] = static_cast<double>(ranked.front().equity - found->equity);
    }
  });
  double sum = 0;
  double squares = 0;
  std::size_t others = 0;
  for (const double loss : losses) {
    sum += loss;
    squares += loss * loss;
    others += loss > 0 ? 1U : 0U;
  }
  const auto n = static_cast<double>(losses.size());
  const double mean = sum / n;
  std::printf("%s: %.5f +- %.5f a decision; another play in %zu of %zu\n", what, mean,
              std::sqrt(std::max(0.0, squares / n - mean * mean) / n), others, losses.size());
  std::fflush(stdout);
}

int check_sieves(const Options& options) {
  const auto read = read_csv(read_file(options.set));
  if (!read) fail(options.set + ": " + read.error());
  const Nets nets(options.contact_file, options.race_file);
  const judge::Evaluator evaluator(nets.contact, nets.race);
  std::printf("%s\n", nets.text().c_str());
  std::vector<const Judged*> decisions;
  std::array<std::size_t, all_kinds.size()> of_kind{};
  for (const Judged& decision : *read) {
    if (of_kind[static_cast<std::size_t>(decision.kind)]++ < options.per_kind)
      decisions.push_back(&decision);
  }
  constexpr judge::Sieve everything{10'000, 100};
  const judge::SearchOptions usual;
  judge::SearchOptions plays = usual;
  plays.first = everything;
  plays.second = everything;
  judge::SearchOptions replies = usual;
  replies.reply = {4, 0.16F};
  compare(evaluator, decisions, usual, plays, options.threads,
          "two steps for some plays, against two steps for all");
  compare(evaluator, decisions, usual, replies, options.threads,
          "the best reply at once, against the best of up to four by one step");
  return 0;
}

int run(int argc, char** argv) {
  Options options;
  CLI::App app("Checks nets against exact tables, and the search against one without sieves.");
  app.require_subcommand(1);
  const auto add_common = [&](CLI::App& verb) {
    verb.add_option("--contact", options.contact_file, "net for contact, instead of the shipped");
    verb.add_option("--race", options.race_file, "net for races, instead of the shipped");
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
  sieves.add_option("--threads", options.threads, "")
      ->capture_default_str()
      ->check(CLI::Range(1, 256));
  CLI11_PARSE(app, argc, argv);
  return exact.parsed() ? check_exact(options) : check_sieves(options);
}

}  // namespace
}  // namespace pointwright::train

int main(int argc, char** argv) {
  return pointwright::train::run(argc, argv);
}
