#include "judge/search.hpp"

#include <algorithm>

namespace pointwright::judge {
namespace {

/// Stakes that the cache can tell apart at a time; more of them and it starts anew.
constexpr std::size_t most_valuations = 64;

Chances scaled(const Chances& chances, float by) {
  return {chances.win * by, chances.win_gammon * by, chances.win_backgammon * by,
          chances.lose_gammon * by, chances.lose_backgammon * by};
}

}  // namespace

bool Search::better(const Candidate& a, const Candidate& b) {
  return a.equity > b.equity || (a.equity == b.equity && a.index < b.index);
}

Search::Search(const Evaluator& evaluator, const SearchOptions& options)
    : evaluator_(evaluator), options_(options), cache_(options.cache_bits) {}

std::uint16_t Search::tag(int depth, const Valuation& valuation) {
  const auto known = std::find(known_valuations_.begin(), known_valuations_.end(), valuation);
  auto number = static_cast<std::size_t>(known - known_valuations_.begin());
  if (known == known_valuations_.end()) {
    if (number == most_valuations) {
      known_valuations_.clear();
      cache_.clear();
      number = 0;
    }
    known_valuations_.push_back(valuation);
  }
  return static_cast<std::uint16_t>(number * (most_depth + 1) + static_cast<std::size_t>(depth));
}

const Evaluation* Search::recall(const Board& board, Side on_roll, int depth,
                                 const Valuation& valuation) {
  return cache_.find(PositionCache::key(board, on_roll, tag(depth, valuation)));
}

void Search::remember(const Board& board, Side on_roll, int depth, const Valuation& valuation,
                      const Evaluation& value) {
  cache_.store(PositionCache::key(board, on_roll, tag(depth, valuation)), value);
}

Evaluation Search::value(const Board& board, Side on_roll, int depth, const Valuation& valuation) {
  if (depth == 0) return evaluator_.evaluate(board, on_roll, scratch_);
  const PositionCache::Key key = PositionCache::key(board, on_roll, tag(depth, valuation));
  if (const Evaluation* known = cache_.find(key)) return *known;
  Evaluation value = evaluator_.evaluate(board, on_roll, scratch_);
  if (!is_final(value.origin)) value = expand(board, on_roll, depth, valuation);
  cache_.store(key, value);
  return value;
}

void Search::value_all(std::span<const Board> boards, Side on_roll, int depth,
                       const Valuation& valuation, std::span<Evaluation> values) {
  for (std::size_t i = 0; i < boards.size(); ++i)
    values[i] = value(boards[i], on_roll, depth, valuation);
}

Evaluation Search::mean_of(RollParts parts, const Board& board) {
  Chances sum{0, 0, 0, 0, 0};
  for (std::size_t i = 0; i < parts.size(); ++i)
    sum.add(parts[i].chances, static_cast<float>(all_rolls()[i].ways()));
  return {scaled(sum, 1.0F / 36.0F), has_contact(board) ? Origin::contact_net : Origin::race_net};
}

Evaluation Search::expand(const Board& board, Side on_roll, int depth, const Valuation& valuation) {
  std::array<Evaluation, 21> parts;
  for (std::size_t i = 0; i < parts.size(); ++i)
    parts[i] = after_best_play(board, on_roll, all_rolls()[i], depth - 1, valuation);
  return mean_of(parts, board);
}

void Search::list_candidates(Level& level, const Board& board, Side side, Roll roll,
                             const Valuation& valuation) {
  legal_plays(board, side, roll, level.plays);
  if (level.plays.empty()) level.plays.push_back({Play{}, board});
  const Valuation theirs = valuation.reversed();
  const std::size_t count = level.plays.size();
  level.values.resize(count);
  level.candidates.resize(count);
  evaluator_.evaluate(level.plays, opponent(side), scratch_, level.values.data());
  for (std::size_t i = 0; i < count; ++i)
    level.candidates[i] = {-theirs.equity(level.values[i].chances), i};
}

Evaluation Search::after_best_play(const Board& board, Side side, Roll roll, int depth,
                                   const Valuation& valuation) {
  Level& level = levels_[static_cast<std::size_t>(depth)];
  list_candidates(level, board, side, roll, valuation);
  const std::size_t count = level.candidates.size();
  if (depth == 0) {
    const Candidate& best =
        *std::min_element(level.candidates.begin(), level.candidates.end(), better);
    const Evaluation& value = level.values[best.index];
    return {value.chances.reversed(), value.origin};
  }

  const Side other = opponent(side);
  const Valuation theirs = valuation.reversed();
  const auto looked_at =
      std::min(count, static_cast<std::size_t>(std::max(1, options_.reply.most)));
  std::partial_sort(level.candidates.begin(),
                    level.candidates.begin() + static_cast<std::ptrdiff_t>(looked_at),
                    level.candidates.end(), better);
  Evaluation best;
  float best_equity = 0;
  for (std::size_t k = 0; k < looked_at; ++k) {
    const Candidate& candidate = level.candidates[k];
    if (k > 0 && candidate.equity < level.candidates[0].equity - options_.reply.within) break;
    const Evaluation deeper = value(level.plays[candidate.index].after, other, depth, theirs);
    const float equity = -theirs.equity(deeper.chances);
    if (k > 0 && equity <= best_equity) continue;
    best = {deeper.chances.reversed(), deeper.origin};
    best_equity = equity;
  }
  return best;
}

void Search::look(const Board& board, Side on_roll, const Valuation& valuation, Look& look) {
  Level& level = levels_[0];
  Chances sum{0, 0, 0, 0, 0};
  for (std::size_t i = 0; i < look.chances.size(); ++i) {
    const Roll roll = all_rolls()[i];
    list_candidates(level, board, on_roll, roll, valuation);
    const Candidate& best =
        *std::min_element(level.candidates.begin(), level.candidates.end(), better);
    look.chances[i] = level.values[best.index].chances.reversed();
    look.after[i] = level.plays[best.index].after;
    sum.add(look.chances[i], static_cast<float>(roll.ways()));
  }
  look.mean = scaled(sum, 1.0F / 36.0F);
}

SearchedValue Search::worth(const Board& board, Side on_roll, int depth,
                            const Valuation& valuation) {
  const Evaluation at_once = evaluator_.evaluate(board, on_roll, scratch_);
  if (depth == 0 || is_final(at_once.origin))
    return {at_once.chances, valuation.equity(at_once.chances), 0, at_once.origin};
  Evaluation searched;
  value_all({&board, 1}, on_roll, depth, valuation, {&searched, 1});
  return {searched.chances, valuation.equity(searched.chances), depth, searched.origin};
}

void Search::deepen(std::vector<RankedPlay>& ranked, Side side, int depth, const Sieve& sieve,
                    const Valuation& valuation) {
  const auto wanted = std::min(ranked.size(), static_cast<std::size_t>(std::max(1, sieve.most)));
  const float limit = ranked.front().equity - sieve.within;
  std::size_t kept = 1;
  while (kept < wanted && ranked[kept].equity >= limit && ranked[kept].depth + 1 >= depth) ++kept;
  const Valuation theirs = valuation.reversed();
  asked_.clear();
  for (std::size_t i = 0; i < kept; ++i) {
    if (!is_final(ranked[i].origin)) asked_.push_back(ranked[i].play.after);
  }
  answers_.resize(asked_.size());
  value_all(asked_, opponent(side), depth, theirs, answers_);
  auto answer = answers_.cbegin();
  for (std::size_t i = 0; i < kept; ++i) {
    RankedPlay& play = ranked[i];
    play.depth = depth;  // even of a final one, so that it sorts with the others; `rank` mends it
    if (is_final(play.origin)) continue;
    play.chances = answer->chances.reversed();
    play.equity = -theirs.equity(answer->chances);
    play.origin = answer->origin;
    ++answer;
  }
  // By insertion: few plays, and equal ones keep their order.
  for (std::size_t i = 1; i < kept; ++i) {
    for (std::size_t k = i; k > 0 && ranked[k].equity > ranked[k - 1].equity; --k)
      std::swap(ranked[k], ranked[k - 1]);
  }
}

void Search::rank(const Board& board, Side side, Roll roll, int depth, const Valuation& valuation,
                  std::vector<RankedPlay>& ranked) {
  Level& level = levels_[most_depth];
  list_candidates(level, board, side, roll, valuation);
  std::sort(level.candidates.begin(), level.candidates.end(), better);
  ranked.clear();
  for (const Candidate& candidate : level.candidates) {
    const Evaluation& now = level.values[candidate.index];
    ranked.push_back(
        {level.plays[candidate.index], now.chances.reversed(), candidate.equity, 0, now.origin});
  }
  if (depth >= 1) deepen(ranked, side, 1, options_.first, valuation);
  if (depth >= 2) deepen(ranked, side, 2, options_.second, valuation);
  for (RankedPlay& play : ranked) {
    if (is_final(play.origin)) play.depth = 0;
  }
}

std::vector<RankedPlay> Search::rank(const Board& board, Side side, Roll roll, int depth,
                                     const Valuation& valuation) {
  std::vector<RankedPlay> ranked;
  rank(board, side, roll, depth, valuation, ranked);
  return ranked;
}

Board Search::best_after(const Board& board, Side side, Roll roll, int depth,
                         const Valuation& valuation) {
  rank(board, side, roll, depth, valuation, ranked_);
  return ranked_.front().play.after;
}

}  // namespace pointwright::judge
