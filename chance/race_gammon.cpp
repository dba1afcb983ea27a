#include "chance/race_gammon.hpp"

#include <algorithm>
#include <unordered_map>
#include <vector>

#include "chance/bearoff_steps.hpp"

namespace pointwright {
namespace {

/// The distinct ranks after each roll, found when first asked for.
class PlaysOnDemand {
 public:
  explicit PlaysOnDemand(const BearoffFamily& family) : family_(family) {}

  using Lists = std::array<std::vector<std::uint32_t>, 21>;
  const Lists& of(std::uint32_t rank) {
    const auto [found, is_new] = lists_.try_emplace(rank);
    if (is_new) {
      for (std::size_t i = 0; i < 21; ++i) found->second[i] = find(rank, all_rolls()[i]);
    }
    return found->second;
  }

 private:
  using Ranks = std::vector<std::uint32_t>;

  [[nodiscard]] Ranks step(const Ranks& from, int die) const {
    Ranks result;
    for (const std::uint32_t rank : from) {
      const BearoffSteps steps(family_, rank);
      result.insert(result.end(), steps.of(die).begin(), steps.of(die).end());
    }
    std::sort(result.begin(), result.end());
    result.erase(std::unique(result.begin(), result.end()), result.end());
    return result;
  }

  [[nodiscard]] Ranks find(std::uint32_t rank, Roll roll) const {
    Ranks result{rank};
    if (roll.is_double()) {
      for (int dice = 0; dice < 4; ++dice) result = step(result, roll.high());
      return result;
    }
    Ranks other = step(step(result, roll.low()), roll.high());
    result = step(step(result, roll.high()), roll.low());
    Ranks both;
    std::set_union(result.begin(), result.end(), other.begin(), other.end(),
                   std::back_inserter(both));
    return both;
  }

  const BearoffFamily& family_;
  std::unordered_map<std::uint32_t, Lists> lists_;
};

/// Solves the race to the first checker off, pair by pair, with a memory.
class GammonRace {
 public:
  GammonRace(const BearoffFamily& leader, const BearoffFamily& trailer, std::size_t most_pairs)
      : trailer_(trailer),
        leader_plays_(leader),
        trailer_plays_(trailer),
        most_pairs_(most_pairs) {}

  /// Gammon chance with the leader to roll, or with the other side. Meaningless once too_large().
  double chance(std::uint32_t leader, std::uint32_t trailer, bool leader_rolls) {
    const std::uint64_t key =
        (std::uint64_t{leader} << 33) | (std::uint64_t{trailer} << 1) | (leader_rolls ? 1U : 0U);
    if (const auto found = known_.find(key); found != known_.end()) return found->second;
    if (too_large()) return 0;
    double sum = 0;
    for (std::size_t i = 0; i < 21; ++i) {
      // A copy: solving the pairs below may move the lists.
      const std::vector<std::uint32_t> plays =
          leader_rolls ? leader_plays_.of(leader)[i] : trailer_plays_.of(trailer)[i];
      double best = leader_rolls ? 0 : 1;
      for (const std::uint32_t after : plays) {
        best = leader_rolls ? std::max(best, after == 0 ? 1 : chance(after, trailer, false))
                            : std::min(best, has_one_off(after) ? 0 : chance(leader, after, true));
        if (too_large()) return 0;
      }
      sum += all_rolls()[i].ways() * best;
    }
    return known_[key] = sum / 36;
  }

  [[nodiscard]] bool too_large() const { return known_.size() > most_pairs_; }
  [[nodiscard]] std::size_t pairs() const { return known_.size(); }

 private:
  [[nodiscard]] bool has_one_off(std::uint32_t rank) {
    const auto [found, is_new] = off_.try_emplace(rank);
    if (is_new) found->second = trailer_.camp(rank)[off_place] > 0;
    return found->second;
  }

  const BearoffFamily& trailer_;
  PlaysOnDemand leader_plays_;
  PlaysOnDemand trailer_plays_;
  std::size_t most_pairs_;
  std::unordered_map<std::uint64_t, double> known_;
  std::unordered_map<std::uint32_t, bool> off_;
};

/// The number of rolls until the first checker is off, each roll played for the least mean of it.
class FirstOff {
 public:
  explicit FirstOff(const BearoffFamily& family) : family_(family), plays_(family) {}

  struct Need {
    double mean = 0;
    std::vector<double> chances;  ///< [k]: exactly k rolls
  };

  const Need& of(std::uint32_t rank) {
    if (const auto found = needs_.find(rank); found != needs_.end()) return found->second;
    Need need;
    if (family_.camp(rank)[off_place] > 0) {
      need.chances = {1.0};
      return needs_[rank] = need;
    }
    const PlaysOnDemand::Lists plays = plays_.of(rank);
    for (std::size_t i = 0; i < 21; ++i) {
      const Need* best = nullptr;
      for (const std::uint32_t after : plays[i]) {
        const Need& next = of(after);
        if (best == nullptr || next.mean < best->mean) best = &next;
      }
      const double weight = all_rolls()[i].ways() / 36.0;
      need.mean += weight * (1 + best->mean);
      if (need.chances.size() < best->chances.size() + 1) {
        need.chances.resize(best->chances.size() + 1);
      }
      for (std::size_t k = 0; k < best->chances.size(); ++k) {
        need.chances[k + 1] += weight * best->chances[k];
      }
    }
    return needs_[rank] = need;
  }

 private:
  const BearoffFamily& family_;
  PlaysOnDemand plays_;
  std::unordered_map<std::uint32_t, Need> needs_;  ///< stable: node-based
};

constexpr Certainty gammon_exact{
    Certainty::Kind::exact, 1e-12,
    "exact: every pair of positions that can follow was solved, the leader playing for the gammon "
    "and the other side to save it"};
constexpr Certainty gammon_convolved{
    Certainty::Kind::convolution, convolution_error,
    "the exact chances of needing so many rolls were combined, each side playing for its own mean; "
    "the error is that of win chances found in this way"};

/// Whether the leader, needing `leader` rolls, is off before the other side needs its `trailer`.
template <class Real>
double gammon_by_convolution(const RollSpread<Real>& leader, const std::vector<double>& trailer,
                             bool leader_rolls) {
  double chance = 0;
  for (int k = leader.first; k <= leader.last(); ++k) {
    // By its k-th roll the other side has had k - 1 rolls if the leader started, else k.
    const auto rolls = static_cast<std::size_t>(leader_rolls ? k - 1 : k);
    double saved = 0;
    for (std::size_t j = 0; j <= rolls && j < trailer.size(); ++j) saved += trailer[j];
    chance += leader.exactly(k) * (1 - saved);
  }
  return chance;
}

}  // namespace

std::optional<GammonAnswer> gammon_chance(const Board& board, Side leader, Side on_roll,
                                          std::size_t most_pairs) {
  static const BearoffFamily home(last_home_point, checkers_per_side);
  static const BearoffFamily outfield(outfield_points, checkers_per_side);
  const Camp& ahead = board.of(leader);
  const Camp& behind = board.of(opponent(leader));
  const bool is_gammon_race = behind[off_place] == 0 && ahead[off_place] > 0 &&
                              ahead[off_place] < checkers_per_side && !has_contact(board);
  if (!is_gammon_race || !outfield.contains(ahead) || !outfield.contains(behind)) {
    return std::nullopt;
  }
  const BearoffFamily& ahead_family = home.contains(ahead) ? home : outfield;
  const BearoffFamily& behind_family = home.contains(behind) ? home : outfield;
  const std::uint32_t ahead_rank = ahead_family.rank(ahead);
  const std::uint32_t behind_rank = behind_family.rank(behind);
  GammonRace race(ahead_family, behind_family, most_pairs);
  const double exact = race.chance(ahead_rank, behind_rank, leader == on_roll);
  if (!race.too_large()) return GammonAnswer{exact, gammon_exact, race.pairs()};
  FirstOff first_off(behind_family);
  const std::vector<double>& need = first_off.of(behind_rank).chances;
  const bool leader_rolls = leader == on_roll;
  const double convolved =
      home.contains(ahead)
          ? gammon_by_convolution(home_table().spread(ahead_rank), need, leader_rolls)
          : gammon_by_convolution(outfield_table().spread(ahead_rank), need, leader_rolls);
  return GammonAnswer{convolved, gammon_convolved, 0};
}

}  // namespace pointwright
