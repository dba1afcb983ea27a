#pragma once

#include <atomic>
#include <memory>
#include <vector>

#include "chance/table_build.hpp"
#include "judge/search.hpp"

namespace pointwright::judge {

/// A search that shares its work out: each position that is to be looked at falls into its 21
/// rolls, and the rolls of all positions go to whoever is free. Its answers are those of `Search`,
/// to the last bit, for any number of workers: a roll's part does not depend on who works it out,
/// and the parts are added up in one order.
///
/// It starts no threads itself: `host` does, if it has any (table_store/parallel_host.hpp). To its
/// caller it is like any search, for one thread at a time.
class ParallelSearch final : public Search {
 public:
  /// `workers`: how many threads the host works on, this one included, so that each finds memory of
  /// its own; if there are more, they wait for one another. Fewer than one counts as one.
  ParallelSearch(const Evaluator& evaluator, BuildHost host, unsigned workers,
                 const SearchOptions& options = {});
  ParallelSearch(ParallelSearch&&) = delete;

 protected:
  void value_all(std::span<const Board> boards, Side on_roll, int depth, const Valuation& valuation,
                 std::span<Evaluation> values) override;

 private:
  /// A search for whoever holds the desk. The first desk's is this one.
  struct Desk {
    std::unique_ptr<Search> own;
    Search* search = nullptr;
    std::atomic<bool> taken = false;
  };
  Desk& take_desk();

  BuildHost host_;
  std::vector<Desk> desks_;
  std::vector<std::size_t> open_;  ///< which of the positions nobody knows yet
  std::vector<Evaluation> parts_;  ///< of each open position, 21 of them
};

}  // namespace pointwright::judge
