#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "app/failure.hpp"
#include "app/make/product.hpp"
#include "rules/result.hpp"

/// The folder that `build --make` writes: it changes in one step, and what has not changed is not
/// made again.
namespace pointwright::app {

/// What became of the files of a folder.
struct FolderReport {
  std::vector<std::string> made;     ///< paths in the folder
  std::vector<std::string> kept;     ///< asked for, and up to date already
  std::vector<std::string> removed;  ///< made by an earlier build of these kinds, no longer wanted
  std::vector<std::string> stale;    ///< of kinds not asked for now: made from an older lesson
};

struct FolderRequest {
  std::vector<Product> products{};  ///< to be made, no two with one path
  std::vector<Product> others{};    ///< of kinds not asked for: to know which files are out of date
  bool afresh = false;              ///< make everything again
  /// Called before each product is made or kept.
  std::function<void(std::size_t done, const Product& next)> progress{};
};

/// Makes the products in a folder. All of them appear together or, when one fails or somebody
/// interrupts, none: the folder is then as it was. Files of other kinds that are in the folder
/// stay, and so does everything that somebody else put there. Refuses a folder with something in it
/// that was not made by an earlier call.
Result<FolderReport, Failure> make_folder(const std::filesystem::path& folder,
                                          const FolderRequest& request);

/// The paths of the files that an earlier call made in a folder; nothing for another folder.
std::optional<std::set<std::string>> files_made(const std::filesystem::path& folder);

/// The file in the folder that says what was made from what.
inline constexpr std::string_view record_name = "pointwright-build.json";

}  // namespace pointwright::app
