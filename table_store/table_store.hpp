#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "chance/table_build.hpp"
#include "chance/table_file.hpp"
#include "chance/three_checker.hpp"
#include "chance/two_sided.hpp"
#include "table_store/mapped_file.hpp"

namespace pointwright {

/// Why a stored table cannot be used, and whether building it again mends that.
struct StoreFault {
  std::optional<TableDamage> damage;  ///< set when there is a file and it is wrong
  std::string reason;                 ///< a sentence for people, naming the file
};

/// A table of both sides on disk.
class StoredTwoSided {
 public:
  /// Opens and checks a file of up to `checkers` checkers a side. Precondition: 1 to 10.
  static Result<StoredTwoSided, StoreFault> open(const std::filesystem::path& path, int checkers);
  [[nodiscard]] const TwoSidedTable<float>& table() const { return table_; }

 private:
  StoredTwoSided(MappedFile file, const TwoSidedTable<float>& table)
      : file_(std::move(file)), table_(table) {}
  MappedFile file_;
  TwoSidedTable<float> table_;
};

/// A three-checker solution on disk.
class StoredThreeChecker {
 public:
  static Result<StoredThreeChecker, StoreFault> open(const std::filesystem::path& path);
  [[nodiscard]] const ThreeCheckerTable& table() const { return table_; }

 private:
  StoredThreeChecker(MappedFile file, ThreeCheckerTable table)
      : file_(std::move(file)), table_(std::move(table)) {}
  MappedFile file_;
  ThreeCheckerTable table_;
};

/// Builds a table of both sides straight into a new file, which takes the place of `path` only when
/// it is whole and on the disk; until then whatever was there stays. Returns why it could not, or
/// "". The file has 64 + 16 x positions² bytes: 13.7 MB for 6 checkers, 1.03 GB for 10.
std::string build_two_sided(const std::filesystem::path& path, int checkers, const BuildHost& host);

/// The same for the three-checker endgame: 172 MB.
std::string build_three_checker(const std::filesystem::path& path, const BuildHost& host,
                                ThreeCheckerReport* report = nullptr);

/// What a build that the host stopped says.
inline constexpr const char* build_stopped =
    "the build was stopped; nothing was changed on the disk";

/// The names that tables go by in a folder of tables.
std::filesystem::path two_sided_name(int checkers);
std::filesystem::path three_checker_name();

}  // namespace pointwright
