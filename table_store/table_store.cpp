#include "table_store/table_store.hpp"

#include <utility>

namespace pointwright {
namespace {

constexpr std::uint32_t three_positions = 3276;  // C(28,3)
constexpr std::size_t three_cells = std::size_t{three_positions} * three_positions;

TableWanted two_sided_wanted(int checkers) {
  const std::uint64_t size = BearoffFamily(last_home_point, checkers).size();
  return {TableKind::two_sided, static_cast<std::uint32_t>(checkers),
          static_cast<std::uint32_t>(size), size * size * sizeof(TwoSidedEntry<float>)};
}

TableWanted three_checker_wanted() {
  return {TableKind::three_checker, 3, three_positions,
          three_cells * (sizeof(float) + sizeof(ThreeCheckerCube))};
}

TableHeader header_for(const TableWanted& wanted, std::uint64_t checksum) {
  TableHeader header;
  header.kind = static_cast<std::uint32_t>(wanted.kind);
  header.checkers = wanted.checkers;
  header.positions = wanted.positions;
  header.body_bytes = wanted.body_bytes;
  header.body_checksum = checksum;
  seal(header);
  return header;
}

/// Numbers of a mapped file. The header is 64 bytes long, so they stand where they may be read.
template <class Number>
std::span<const Number> numbers(std::span<const std::byte> bytes) {
  return {reinterpret_cast<const Number*>(bytes.data()),  // NOLINT(*-reinterpret-cast)
          bytes.size() / sizeof(Number)};
}

struct CheckedFile {
  MappedFile file;
  std::span<const std::byte> body;
};

Result<CheckedFile, StoreFault> open_checked(const std::filesystem::path& path,
                                             const TableWanted& wanted) {
  auto file = MappedFile::open(path);
  if (!file) return StoreFault{{}, "cannot read " + path.string() + ": " + file.error()};
  const auto body = table_body(file->bytes(), wanted);
  if (!body) {
    return StoreFault{body.error(), path.string() + ": " + std::string(explain(body.error()))};
  }
  return CheckedFile{std::move(file.value()), *body};
}

std::string cannot_write(const std::filesystem::path& path, const std::string& why) {
  return "cannot write " + path.string() + ": " + why + "; nothing was changed on the disk";
}

}  // namespace

Result<StoredTwoSided, StoreFault> StoredTwoSided::open(const std::filesystem::path& path,
                                                        int checkers) {
  auto file = open_checked(path, two_sided_wanted(checkers));
  if (!file) return file.error();
  const TwoSidedTable<float> table(checkers, numbers<TwoSidedEntry<float>>(file->body));
  return StoredTwoSided(std::move(file.value().file), table);
}

Result<StoredThreeChecker, StoreFault> StoredThreeChecker::open(const std::filesystem::path& path) {
  auto file = open_checked(path, three_checker_wanted());
  if (!file) return file.error();
  const auto wins = file->body.first(three_cells * sizeof(float));
  const auto cubes = file->body.subspan(wins.size());
  const ThreeCheckerTable table(3, numbers<float>(wins), numbers<ThreeCheckerCube>(cubes));
  return StoredThreeChecker(std::move(file.value().file), table);
}

std::string build_two_sided(const std::filesystem::path& path, int checkers,
                            const BuildHost& host) {
  const TableWanted wanted = two_sided_wanted(checkers);
  auto file = NewFile::create(path, sizeof(TableHeader) + wanted.body_bytes);
  if (!file) return cannot_write(path, file.error());
  const auto memory = file.value().map();
  if (!memory) return cannot_write(path, memory.error());
  const auto body = memory->subspan(sizeof(TableHeader));
  using Entry = TwoSidedEntry<float>;
  const std::span<Entry> entries(
      reinterpret_cast<Entry*>(body.data()),  // NOLINT(*-reinterpret-cast)
      body.size() / sizeof(Entry));
  if (!solve_two_sided(BearoffFamily(last_home_point, checkers), entries, host)) {
    return build_stopped;
  }
  const TableHeader header = header_for(wanted, table_checksum(body));
  if (!file.value().write_at(0, std::as_bytes(std::span(&header, 1)))) {
    return cannot_write(path, "the disk took no more");
  }
  const std::string problem = file.value().finish();
  return problem.empty() ? "" : cannot_write(path, problem);
}

std::string build_three_checker(const std::filesystem::path& path, const BuildHost& host,
                                ThreeCheckerReport* report) {
  const TableWanted wanted = three_checker_wanted();
  auto file = NewFile::create(path, sizeof(TableHeader) + wanted.body_bytes);
  if (!file) return cannot_write(path, file.error());
  std::size_t offset = sizeof(TableHeader);
  TableChecksum checksum;
  bool disk_full = false;
  const auto take = [&](auto row) {
    const auto bytes = std::as_bytes(row);
    checksum.add(bytes);
    disk_full = !file.value().write_at(offset, bytes);
    offset += bytes.size();
    return !disk_full;
  };
  const ThreeCheckerReport made = solve_three_checkers(
      ThreeCheckers(3), [&](std::span<const float> row) { return take(row); },
      [&](std::span<const ThreeCheckerCube> row) { return take(row); }, host);
  if (report != nullptr) *report = made;
  if (disk_full) return cannot_write(path, "the disk took no more");
  if (!made.complete) return build_stopped;
  const TableHeader header = header_for(wanted, checksum.value());
  if (!file.value().write_at(0, std::as_bytes(std::span(&header, 1)))) {
    return cannot_write(path, "the disk took no more");
  }
  const std::string problem = file.value().finish();
  return problem.empty() ? "" : cannot_write(path, problem);
}

std::filesystem::path two_sided_name(int checkers) {
  return "races-" + std::to_string(checkers) + ".table";
}

std::filesystem::path three_checker_name() {
  return "three-checkers.table";
}

}  // namespace pointwright
