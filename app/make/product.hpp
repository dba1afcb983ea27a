#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/failure.hpp"

/// What `build --make` makes of a course: a list of files, each with what it is made from.
namespace pointwright::app {

/// One file to be made.
struct Product {
  std::string kind;    ///< the word that asks for it: "captions"
  std::string path;    ///< in the output folder, with slashes: "captions/course.vtt"
  std::string recipe;  ///< everything that the file depends on: equal recipes give equal files
  /// Writes the file, which does not exist yet. Leaves nothing behind when it fails.
  std::function<std::optional<Failure>(const std::filesystem::path& file)> make;
};

/// A product whose bytes are at hand once somebody asks for them.
Product text_product(std::string_view kind, std::string path, std::string recipe,
                     std::function<std::string()> contents);

}  // namespace pointwright::app
