#pragma once

#include <chrono>
#include <filesystem>
#include <map>
#include <string>

#include "lesson/memo.hpp"

namespace pointwright::app {

/// Where what was searched for claims is kept: $XDG_CACHE_HOME/pointwright, or .cache/pointwright
/// at home. Empty where neither is set: then nothing is kept.
std::filesystem::path memory_folder();

/// Searched numbers in a file, one entry a line: the key, a tab, the value. Losing the file costs
/// time alone, so one that is damaged or cannot be written is passed over without a word.
class ClaimMemory : public lesson::Memo {
 public:
  /// Reads the file. An empty folder keeps nothing.
  explicit ClaimMemory(const std::filesystem::path& folder);

  std::optional<std::string> find(const std::string& key) override;
  void keep(const std::string& key, const std::string& value) override;

  /// Writes what came to it, in one step; nothing if nothing did. What took long is written by
  /// itself soon after it came, so that an interrupt does not lose it.
  void save();

  /// Entries found in the file and asked for, and entries that were new.
  [[nodiscard]] int found() const { return found_; }
  [[nodiscard]] int added() const { return added_; }

 private:
  std::filesystem::path file_;
  std::map<std::string, std::string> entries_;
  int found_ = 0;
  int added_ = 0;
  int saved_ = 0;
  std::chrono::steady_clock::time_point last_save_ = std::chrono::steady_clock::now();
};

}  // namespace pointwright::app
