#include "judge/tally.hpp"

#include <algorithm>
#include <limits>

namespace pointwright::judge {
namespace {

constexpr std::uint64_t low_mask = 0xFFFFFFFFULL;

}  // namespace

void Moments::add(double value) {
  const auto rounded =
      static_cast<std::int64_t>(std::llround(std::clamp(value, -largest, largest) / unit));
  sum += rounded;
  const auto size = static_cast<std::uint64_t>(rounded < 0 ? -rounded : rounded);
  const std::uint64_t square = size * size;  // below 2^64: size is below 2^32
  squares_high += square >> 32U;
  squares_low += square & low_mask;
  squares_high += squares_low >> 32U;
  squares_low &= low_mask;
}

void Moments::add(const Moments& other) {
  sum += other.sum;
  squares_high += other.squares_high;
  squares_low += other.squares_low;
  squares_high += squares_low >> 32U;
  squares_low &= low_mask;
}

double Moments::mean(std::uint64_t trials) const {
  return static_cast<double>(sum) * unit / static_cast<double>(trials);
}

double Moments::error(std::uint64_t trials) const {
  if (trials < 2) return std::numeric_limits<double>::infinity();
  const auto n = static_cast<double>(trials);
  const double squares =
      (static_cast<double>(squares_high) * 4294967296.0 + static_cast<double>(squares_low)) * unit *
      unit;
  const double mean_value = mean(trials);
  return std::sqrt(std::max(0.0, squares / n - mean_value * mean_value) / (n - 1));
}

Tally::Tally(std::size_t start_count)
    : starts(start_count), differences(start_count * (start_count - 1) / 2) {}

void Tally::add(const std::vector<Outcome>& outcomes) {
  ++trials;
  std::size_t pair = 0;
  for (std::size_t i = 0; i < starts.size(); ++i) {
    starts[i].equity.add(outcomes[i].equity);
    for (std::size_t k = 0; k < outcomes[i].chances.size(); ++k)
      starts[i].chances[k].add(outcomes[i].chances[k]);
    for (std::size_t j = i + 1; j < starts.size(); ++j)
      differences[pair++].add(outcomes[i].equity - outcomes[j].equity);
  }
}

void Tally::merge(const Tally& other) {
  trials += other.trials;
  for (std::size_t i = 0; i < starts.size(); ++i) {
    starts[i].equity.add(other.starts[i].equity);
    for (std::size_t k = 0; k < starts[i].chances.size(); ++k)
      starts[i].chances[k].add(other.starts[i].chances[k]);
  }
  for (std::size_t i = 0; i < differences.size(); ++i) differences[i].add(other.differences[i]);
}

Tally Tally::only(const std::vector<std::size_t>& kept) const {
  Tally tally(kept.size());
  tally.trials = trials;
  std::size_t pair = 0;
  for (std::size_t i = 0; i < kept.size(); ++i) {
    tally.starts[i] = starts[kept[i]];
    for (std::size_t j = i + 1; j < kept.size(); ++j)
      tally.differences[pair++] = difference(kept[i], kept[j]);
  }
  return tally;
}

const Moments& Tally::difference(std::size_t first, std::size_t second) const {
  // Rows before `first` hold n-1, n-2 ... pairs.
  const std::size_t n = starts.size();
  return differences[first * (2 * n - first - 1) / 2 + (second - first - 1)];
}

Chances Tally::chances(std::size_t start) const {
  const auto& sums = starts[start].chances;
  const auto mean = [&](std::size_t k) { return static_cast<float>(sums[k].mean(trials)); };
  return {mean(0), mean(1), mean(2), mean(3), mean(4)};
}

double Tally::lead_error(std::size_t a, std::size_t b) const {
  if (a == b) return 0;
  return difference(std::min(a, b), std::max(a, b)).error(trials);
}

std::size_t Tally::best() const {
  std::size_t best = 0;
  for (std::size_t i = 1; i < starts.size(); ++i) {
    if (starts[i].equity.sum > starts[best].equity.sum) best = i;
  }
  return best;
}

}  // namespace pointwright::judge
