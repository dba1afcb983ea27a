#include "judge/levels.hpp"

#include <algorithm>
#include <array>
#include <limits>

#include "judge/facts.hpp"

namespace pointwright::judge {
namespace {

/// Plays that a level of short sight thinks about: those that look best at once.
constexpr std::size_t considered = 6;
/// One roll ahead meets few positions again.
constexpr unsigned small_cache = 8;
/// A level that adapts errs by at most this, however much it is behind in errors.
constexpr double largest_blur = 0.4;

constexpr std::array<Level, 6> all_levels{{
    {.name = "newcomer",
     .statement = "Knows the rules, never thinks of being hit, and is often unsure.",
     .depth = 0,
     .blur = 0.25,
     .sight = Sight::none},
    {.name = "casual",
     .statement = "Sees the shots of a single die and overlooks the longer ones.",
     .depth = 0,
     .blur = 0.12,
     .sight = Sight::direct},
    {.name = "regular",
     .statement = "Sees every shot, and is unsure where plays are close.",
     .depth = 0,
     .blur = 0.06},
    {.name = "steady", .statement = "Plays what looks best at once.", .depth = 0},
    {.name = "strong", .statement = "Looks at every answer before it plays.", .depth = 1},
    {.name = "even",
     .statement = "Tries to err about as much as you do.",
     .depth = 0,
     .adapts = true},
}};

bool is_in_sight(const Board& board, Side side, const Move& hit, Sight sight) {
  if (sight == Sight::none) return false;
  return sight == Sight::all || is_within_a_die(board, side, mirrored(hit.to));
}

/// Whether the other side's play hits something of `side` that the sight overlooks.
bool is_overlooked(const Board& board, Side side, const Play& play, Sight sight) {
  return std::ranges::any_of(
      play, [&](const Move& move) { return move.hit && !is_in_sight(board, side, move, sight); });
}

}  // namespace

std::span<const Level> levels() {
  return all_levels;
}

const Level* find_level(std::string_view name) {
  const auto found = std::ranges::find(all_levels, name, &Level::name);
  return found == all_levels.end() ? nullptr : &*found;
}

double worth_in_sight(const Evaluator& evaluator, const Board& after, Side side, Sight sight,
                      const Valuation& valuation) {
  const Side other = opponent(side);
  if (has_won(after, side)) {
    return static_cast<double>(-valuation.reversed().equity(lost_game(after)));
  }
  const auto worth = [&](const Board& board) {
    return static_cast<double>(valuation.equity(evaluator.evaluate(board, side).chances));
  };
  double sum = 0;
  std::vector<LegalPlay> plays;
  for (const Roll roll : all_rolls()) {
    legal_plays(after, other, roll, plays);
    // What is overlooked counts only where there is nothing else to reckon with.
    double seen = std::numeric_limits<double>::infinity();
    double forced = std::numeric_limits<double>::infinity();
    for (const LegalPlay& play : plays) {
      const bool overlooked = is_overlooked(after, side, play.play, sight);
      double& least = overlooked ? forced : seen;
      least = std::min(least, worth(play.after));
    }
    if (plays.empty()) seen = worth(after);
    sum += roll.ways() * (seen < std::numeric_limits<double>::infinity() ? seen : forced);
  }
  return sum / 36;
}

double cost_at_once(const std::vector<RankedPlay>& ranked, const Board& after) {
  const auto played = std::ranges::find_if(
      ranked, [&](const RankedPlay& play) { return play.play.after == after; });
  if (played == ranked.end()) return 0;
  return static_cast<double>(ranked.front().equity - played->equity);
}

Opponent::Opponent(const Evaluator& evaluator, const Level& level, std::uint64_t seed)
    : level_(level), search_(evaluator, {.cache_bits = small_cache}), random_(seed) {}

void Opponent::look_short(Side side, const Valuation& valuation) {
  if (ranked_.size() > considered) {
    ranked_.erase(ranked_.begin() + considered, ranked_.end());
  }
  for (RankedPlay& play : ranked_) {
    play.equity = static_cast<float>(
        worth_in_sight(search_.evaluator(), play.play.after, side, level_.sight, valuation));
  }
  std::ranges::stable_sort(ranked_, std::ranges::greater{}, &RankedPlay::equity);
}

double Opponent::blur() const {
  if (!level_.adapts) return level_.blur;
  // What it may lose to have lost as much as the other side in as many decisions.
  const double allowed = others_.mean() * (own_.decisions + 1) - own_.total;
  return std::clamp(2 * allowed, 0.0, largest_blur);
}

LegalPlay Opponent::choose(const Board& board, Side side, Roll roll, const Valuation& valuation) {
  search_.rank(board, side, roll, level_.depth, valuation, ranked_);
  if (ranked_.size() == 1) return ranked_.front().play;
  if (level_.adapts) at_once_ = ranked_;
  if (level_.sight != Sight::all) look_short(side, valuation);
  const double blurred = blur();
  const auto best_equity = static_cast<double>(ranked_.front().equity);
  const RankedPlay* chosen = &ranked_.front();
  double best = -std::numeric_limits<double>::infinity();
  const int looked_at = ranked_.front().depth;
  for (const RankedPlay& play : ranked_) {
    // A play that a sieve held back is known less well, and may look better than it is.
    if (play.depth < looked_at && !is_final(play.origin)) continue;
    const auto value = static_cast<double>(play.equity);
    double seen = value;
    if (blurred > 0) {
      const double cost = std::max(0.0, best_equity - value);
      seen += blurred * random_.normal() / (1 + cost / blurred);
    }
    if (seen <= best) continue;
    best = seen;
    chosen = &play;
  }
  if (level_.adapts) {
    own_.total += cost_at_once(at_once_, chosen->play.after);
    ++own_.decisions;
  }
  return chosen->play;
}

void Opponent::observe(const Board& board, Side side, Roll roll, const Board& after,
                       const Valuation& valuation) {
  if (!level_.adapts) return;
  search_.rank(board, side, roll, 0, valuation, at_once_);
  if (at_once_.size() < 2) return;
  others_.total += cost_at_once(at_once_, after);
  ++others_.decisions;
}

}  // namespace pointwright::judge
