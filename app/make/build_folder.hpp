#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "app/compile.hpp"
#include "app/failure.hpp"
#include "app/io.hpp"
#include "app/option_list.hpp"

/// The part of `build` that makes a folder of things.
namespace pointwright::app {

struct FolderOptions {
  std::vector<std::string> make;  ///< words, each perhaps several with commas between
  std::optional<std::string> pace;
  std::optional<std::string> size;
  std::optional<std::string> aspect;
  std::optional<std::string> fps;
  std::optional<std::string> paper;
  std::optional<std::string> ink;
  std::optional<std::string> seat;
  std::optional<std::string> order;
  bool mirror = false;
  bool afresh = false;
};

void add_folder_options(OptionList& list, FolderOptions& options);

/// Makes what was asked for of a course that is proved. `name` is that of the course.
int build_folder(const Compiled& compiled, const std::string& name,
                 const std::optional<std::string>& output, const FolderOptions& options, bool json,
                 Io& io);

}  // namespace pointwright::app
