#include "judge/parallel_search.hpp"

#include <algorithm>
#include <utility>

namespace pointwright::judge {
namespace {

constexpr std::size_t rolls = 21;

}  // namespace

ParallelSearch::ParallelSearch(const Evaluator& evaluator, BuildHost host, unsigned workers,
                               const SearchOptions& options)
    : Search(evaluator, options), host_(std::move(host)), desks_(std::max(1U, workers)) {
  desks_[0].search = this;
  for (std::size_t i = 1; i < desks_.size(); ++i) {
    desks_[i].own = std::make_unique<Search>(evaluator, options);
    desks_[i].search = desks_[i].own.get();
  }
}

ParallelSearch::Desk& ParallelSearch::take_desk() {
  // There is a desk for every worker, so one turns up in the first round.
  for (std::size_t i = 0;; i = (i + 1) % desks_.size()) {
    if (!desks_[i].taken.exchange(true, std::memory_order_acquire)) return desks_[i];
  }
}

void ParallelSearch::value_all(std::span<const Board> boards, Side on_roll, int depth,
                               const Valuation& valuation, std::span<Evaluation> values) {
  open_.clear();
  for (std::size_t i = 0; i < boards.size(); ++i) {
    if (const Evaluation* known = recall(boards[i], on_roll, depth, valuation)) {
      values[i] = *known;
      continue;
    }
    values[i] = evaluator().evaluate(boards[i], on_roll);
    if (!is_final(values[i].origin)) open_.push_back(i);
  }
  parts_.resize(open_.size() * rolls);
  host_.split(parts_.size(), [&](std::size_t begin, std::size_t end) {
    Desk& desk = take_desk();
    for (std::size_t k = begin; k < end; ++k) {
      parts_[k] = desk.search->after_best_play(boards[open_[k / rolls]], on_roll,
                                               all_rolls()[k % rolls], depth - 1, valuation);
    }
    desk.taken.store(false, std::memory_order_release);
  });
  for (std::size_t k = 0; k < open_.size(); ++k) {
    const Board& board = boards[open_[k]];
    values[open_[k]] = mean_of(RollParts{&parts_[k * rolls], rolls}, board);
    remember(board, on_roll, depth, valuation, values[open_[k]]);
  }
}

}  // namespace pointwright::judge
