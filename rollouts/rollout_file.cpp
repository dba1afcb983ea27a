#include "rollouts/rollout_file.hpp"

#include <array>
#include <cstring>

#include "chance/table_file.hpp"
#include "table_store/mapped_file.hpp"

namespace pointwright {
namespace {

constexpr std::array<char, 8> magic{'P', 'W', 'R', 'O', 'L', 'L', '\r', '\n'};
constexpr std::uint64_t version = 1;
/// More starts or parts than anybody has: bounds what a damaged file can ask for.
constexpr std::uint64_t most_starts = 64;
constexpr std::uint64_t most_parts = 1'000'000;

/// The state as a list of 64-bit numbers, written in the order of this machine's bytes.
template <class Take>
void each_number(RolloutProgress& progress, const Take& take) {
  take(progress.job);
  for (std::uint64_t& blocks : progress.done) take(blocks);
  take(progress.tally.trials);
  const auto moments = [&](judge::Moments& m) {
    auto sum = static_cast<std::uint64_t>(m.sum);
    take(sum);
    m.sum = static_cast<std::int64_t>(sum);
    take(m.squares_high);
    take(m.squares_low);
  };
  for (judge::StartTally& start : progress.tally.starts) {
    moments(start.equity);
    for (judge::Moments& chance : start.chances) moments(chance);
  }
  for (judge::Moments& difference : progress.tally.differences) moments(difference);
}

std::uint64_t count_numbers(std::uint64_t starts, std::uint64_t parts) {
  constexpr std::uint64_t per_moments = 3;
  return 2 + parts + per_moments * (6 * starts + starts * (starts - 1) / 2);
}

constexpr std::size_t head_bytes = magic.size() + 3 * sizeof(std::uint64_t);

}  // namespace

std::string save(const std::filesystem::path& path, const RolloutProgress& progress) {
  std::vector<std::byte> bytes;
  const auto put = [&](std::uint64_t number) {
    std::array<std::byte, sizeof number> raw{};
    std::memcpy(raw.data(), &number, sizeof number);
    bytes.insert(bytes.end(), raw.begin(), raw.end());
  };
  const auto named = std::as_bytes(std::span(magic));
  bytes.insert(bytes.end(), named.begin(), named.end());
  put(version);
  put(progress.tally.starts.size());
  put(progress.done.size());
  RolloutProgress copy = progress;
  each_number(copy, put);
  put(table_checksum(bytes));

  const auto cannot = [&](const std::string& why) {
    return "cannot write " + path.string() + ": " + why;
  };
  auto file = NewFile::create(path, bytes.size());
  if (!file) return cannot(file.error());
  if (!file.value().write_at(0, bytes)) return cannot("the disk took no more");
  const std::string problem = file.value().finish();
  return problem.empty() ? "" : cannot(problem);
}

Result<RolloutProgress, RolloutFault> load_rollout(const std::filesystem::path& path) {
  const auto fault = [&](std::string_view id, const std::string& why) {
    return RolloutFault{id, path.string() + ": " + why};
  };
  const auto file = MappedFile::open(path);
  if (!file)
    return RolloutFault{"cannot-read", "cannot read " + path.string() + ": " + file.error()};
  const std::span<const std::byte> bytes = file->bytes();
  const auto number_at = [&](std::size_t at) {
    std::uint64_t number = 0;
    std::memcpy(&number, bytes.data() + at, sizeof number);
    return number;
  };
  if (bytes.size() < head_bytes || std::memcmp(bytes.data(), magic.data(), magic.size()) != 0)
    return fault("not-a-rollout", "this is not the state of a rollout");
  if (number_at(magic.size()) != version)
    return fault("rollout-version", "it was written by another version of the program");
  const std::uint64_t starts = number_at(magic.size() + 8);
  const std::uint64_t parts = number_at(magic.size() + 16);
  if (starts == 0 || starts > most_starts || parts == 0 || parts > most_parts ||
      bytes.size() != head_bytes + 8 * (count_numbers(starts, parts) + 1))
    return fault("rollout-size", "its size is not what its head says; it was cut or added to");
  if (number_at(bytes.size() - 8) != table_checksum(bytes.first(bytes.size() - 8)))
    return fault("rollout-damaged", "its bytes have changed since it was written");
  RolloutProgress progress;
  progress.done.resize(static_cast<std::size_t>(parts));
  progress.tally = judge::Tally(static_cast<std::size_t>(starts));
  std::size_t at = head_bytes;
  each_number(progress, [&](std::uint64_t& number) {
    number = number_at(at);
    at += sizeof number;
  });
  return progress;
}

}  // namespace pointwright
