#include "chance/bearoff.hpp"

#include <algorithm>
#include <array>
#include <limits>

#include "chance/bearoff_steps.hpp"

namespace pointwright {
namespace {

/// Longest spread that any family can need: fifteen checkers on the 24-point in rolls of 2-1.
constexpr std::size_t longest_spread = 128;

/// Under this a chance is left out of a table of floats.
constexpr double smallest_float_chance = 1e-9;

/// Where each number of dice of one face leads, played for the least mean: [die - 1][dice - 1].
using BestRanks = std::array<std::array<std::uint32_t, 3>, 6>;

/// The candidate of the least mean; the first of equals.
class Least {
 public:
  explicit Least(const std::vector<double>& means) : means_(means) {}
  void offer(std::uint32_t rank) {
    const double mean = means_[rank];
    if (mean < mean_) {
      mean_ = mean;
      rank_ = rank;
    }
  }
  [[nodiscard]] std::uint32_t rank() const { return rank_; }

 private:
  const std::vector<double>& means_;
  double mean_ = std::numeric_limits<double>::infinity();
  std::uint32_t rank_ = 0;
};

/// The best rank after a roll, from the steps of one die and what is best after them.
std::uint32_t best_after_roll(const BearoffSteps& steps, Roll roll,
                              const std::vector<BestRanks>& best,
                              const std::vector<double>& means) {
  const auto high = static_cast<std::size_t>(roll.high() - 1);
  const auto low = static_cast<std::size_t>(roll.low() - 1);
  Least least(means);
  if (roll.is_double()) {
    for (const std::uint32_t step : steps.of(roll.high())) least.offer(best[step][high][2]);
  } else {
    for (const std::uint32_t step : steps.of(roll.high())) least.offer(best[step][low][0]);
    for (const std::uint32_t step : steps.of(roll.low())) least.offer(best[step][high][0]);
  }
  return least.rank();
}

BestRanks best_of_one_face(const BearoffSteps& steps, const std::vector<BestRanks>& best,
                           const std::vector<double>& means) {
  BestRanks result{};
  for (std::size_t die = 0; die < 6; ++die) {
    for (std::size_t dice = 0; dice < 3; ++dice) {
      Least least(means);
      for (const std::uint32_t step : steps.of(static_cast<int>(die) + 1)) {
        least.offer(dice == 0 ? step : best[step][die][dice - 1]);
      }
      result[die][dice] = least.rank();
    }
  }
  return result;
}

/// Mixes the spreads after each roll, one roll later.
class SpreadMixer {
 public:
  template <class Real>
  void add(const RollSpread<Real>& after, double weight) {
    first_ = std::min(first_, after.first + 1);
    last_ = std::max(last_, after.last() + 1);
    auto at = static_cast<std::size_t>(after.first) + 1;
    for (const Real chance : after.chances) sum_[at++] += weight * static_cast<double>(chance);
  }
  /// Appends the mixture to a table and returns its first number of rolls.
  template <class Real>
  int append_to(std::vector<Real>& chances, double smallest) {
    while (first_ < last_ && sum_[static_cast<std::size_t>(first_)] < smallest) ++first_;
    while (last_ > first_ && sum_[static_cast<std::size_t>(last_)] < smallest) --last_;
    for (int i = first_; i <= last_; ++i) {
      chances.push_back(static_cast<Real>(sum_[static_cast<std::size_t>(i)]));
    }
    return first_;
  }

 private:
  std::array<double, longest_spread> sum_{};
  int first_ = longest_spread;
  int last_ = 0;
};

constexpr std::uint32_t ranks_between_reports = 1U << 14;

}  // namespace

template <class Real>
OneSidedTable<Real>::OneSidedTable(int points, int checkers, const BuildHost& host)
    : family_(points, checkers) {
  const std::uint32_t size = family_.size();
  const double smallest = sizeof(Real) == sizeof(float) ? smallest_float_chance : 1e-300;
  means_.resize(size);
  firsts_.resize(size);
  starts_.resize(std::size_t{size} + 1);
  std::vector<BestRanks> best(size);
  chances_.push_back(1);  // rank 0: no checker left, no roll needed
  starts_[1] = 1;
  for (std::uint32_t rank = 1; rank < size; ++rank) {
    if (rank % ranks_between_reports == 0 && !host.report(double{1} * rank / size)) return;
    const BearoffSteps steps(family_, rank);
    SpreadMixer mixer;
    double mean = 0;
    for (const Roll roll : all_rolls()) {
      const std::uint32_t after = best_after_roll(steps, roll, best, means_);
      mean += roll.ways() * means_[after];
      mixer.add(spread(after), roll.ways() / 36.0);
    }
    means_[rank] = 1 + mean / 36;
    best[rank] = best_of_one_face(steps, best, means_);
    firsts_[rank] = static_cast<std::uint8_t>(mixer.append_to(chances_, smallest));
    starts_[rank + 1] = static_cast<std::uint32_t>(chances_.size());
  }
  chances_.shrink_to_fit();
  complete_ = host.report(1.0);
}

template <class Real>
double OneSidedTable<Real>::variance(std::uint32_t rank) const {
  const RollSpread<Real> spread = this->spread(rank);
  double sum = 0;
  for (int rolls = spread.first; rolls <= spread.last(); ++rolls) {
    const double away = rolls - mean(rank);
    sum += away * away * spread.exactly(rolls);
  }
  return sum;
}

template <class Real>
std::uint32_t OneSidedTable<Real>::best_after(std::uint32_t rank, Roll roll) const {
  Least least(means_);
  const auto follow = [&](auto&& self, std::uint32_t from, int die, int dice) -> void {
    if (dice == 0) return least.offer(from);
    const BearoffSteps steps(family_, from);
    for (const std::uint32_t step : steps.of(die)) self(self, step, die, dice - 1);
  };
  if (roll.is_double()) {
    follow(follow, rank, roll.high(), 4);
    return least.rank();
  }
  const BearoffSteps steps(family_, rank);
  for (const std::uint32_t step : steps.of(roll.high())) follow(follow, step, roll.low(), 1);
  for (const std::uint32_t step : steps.of(roll.low())) follow(follow, step, roll.high(), 1);
  return least.rank();
}

template <class Real>
std::size_t OneSidedTable<Real>::bytes() const {
  return means_.size() * sizeof(double) + firsts_.size() + starts_.size() * sizeof(std::uint32_t) +
         chances_.size() * sizeof(Real);
}

template class OneSidedTable<float>;
template class OneSidedTable<double>;

WithinTable::WithinTable(int points, int checkers, int most_rolls) : family_(points, checkers) {
  const std::uint32_t size = family_.size();
  // value[rank][die - 1][dice]: the best chance with `dice` more dice of that face to play, and
  // then `rolls - 1` rolls.
  std::vector<std::array<std::array<double, 4>, 6>> value(size);
  layers_.assign(1, std::vector<double>(size, 0.0));
  layers_[0][0] = 1;
  for (int rolls = 1; rolls <= most_rolls; ++rolls) {
    const std::vector<double>& before = layers_.back();
    std::vector<double> layer(size, 1.0);
    for (auto& face : value[0]) face.fill(1.0);
    for (std::uint32_t rank = 1; rank < size; ++rank) {
      const BearoffSteps steps(family_, rank);
      for (int die = 1; die <= 6; ++die) {
        auto& face = value[rank][static_cast<std::size_t>(die - 1)];
        face = {before[rank], 0, 0, 0};
        for (std::size_t dice = 1; dice < 4; ++dice) {
          for (const std::uint32_t step : steps.of(die)) {
            face[dice] =
                std::max(face[dice], value[step][static_cast<std::size_t>(die - 1)][dice - 1]);
          }
        }
      }
      double sum = 0;
      for (const Roll roll : all_rolls()) {
        const auto high = static_cast<std::size_t>(roll.high() - 1);
        const auto low = static_cast<std::size_t>(roll.low() - 1);
        const std::size_t dice = roll.is_double() ? 3 : 1;
        double best = 0;
        for (const std::uint32_t step : steps.of(roll.high())) {
          best = std::max(best, value[step][low][dice]);
        }
        for (const std::uint32_t step : steps.of(roll.low())) {
          best = std::max(best, value[step][high][dice]);
        }
        sum += roll.ways() * best;
      }
      layer[rank] = sum / 36;
    }
    layers_.push_back(std::move(layer));
  }
}

const OneSidedTable<double>& home_table() {
  static const OneSidedTable<double> table(last_home_point, checkers_per_side);
  return table;
}

const OneSidedTable<float>& outfield_table() {
  static const OneSidedTable<float> table(10, checkers_per_side);
  return table;
}

}  // namespace pointwright
