#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <random>
#include <vector>

#include "finder/query.hpp"

/// Searching for positions that make a query true. Everything is decided by the query, the options
/// and the seed; time plays no part, so that a search can be repeated.
namespace pointwright::finder {

/// A position that makes the query true.
struct Finding {
  Board board;
  std::optional<Roll> roll;
  friend bool operator==(const Finding&, const Finding&) = default;
};

/// What is searched for, and what must differ.
struct Wanted {
  const Query& query;
  Side side = Side::light;   ///< whose roll it is
  std::optional<Roll> roll;  ///< the only roll to be tried; none: any
  int apart = 1;             ///< how many checkers any two findings differ by, at least
};

/// Takes a finding; returns whether the search is to go on.
using Take = std::function<bool(const Finding&)>;

/// The rolls that the query and the wish leave open: all that are not ruled out before the board
/// is known. If the query asks for no roll, one entry without a roll.
std::vector<std::optional<Roll>> open_rolls(const Wanted& wanted);

/// Checkers that would have to be moved to make one board the other, bar and off included; a
/// different roll counts one.
int difference(const Finding& a, const Finding& b);

/// Random numbers that are the same in every build: the standard engine, without the standard
/// distributions.
class Random {
 public:
  explicit Random(std::uint64_t seed) : engine_(seed) {}
  /// 0 to n - 1. Precondition: n > 0.
  int below(int n) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(n)); }
  std::uint64_t next() { return engine_(); }

 private:
  std::mt19937_64 engine_;
};

}  // namespace pointwright::finder
