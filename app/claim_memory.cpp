#include "app/claim_memory.hpp"

#include <cstdlib>
#include <system_error>

#include "app/files.hpp"

namespace pointwright::app {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t largest_file = std::size_t{8} << 20U;
constexpr std::chrono::seconds between_saves{2};
constexpr const char* file_name = "searched-claims.txt";

const char* set(const char* variable) {
  const char* value = std::getenv(variable);  // NOLINT(concurrency-mt-unsafe): one thread reads it
  return value != nullptr && *value != '\0' ? value : nullptr;
}

bool holds_control(std::string_view text) {
  return text.find_first_of("\t\r\n") != std::string_view::npos;
}

}  // namespace

fs::path memory_folder() {
  if (const char* cache = set("XDG_CACHE_HOME")) return fs::path(cache) / "pointwright";
  if (const char* home = set("HOME")) return fs::path(home) / ".cache" / "pointwright";
  return {};
}

ClaimMemory::ClaimMemory(const fs::path& folder) {
  if (folder.empty()) return;
  file_ = folder / file_name;
  const auto text = read_file(file_, largest_file);
  if (!text.ok()) return;
  for (std::size_t at = 0; at < text->size();) {
    const std::size_t end = std::min(text->find('\n', at), text->size());
    const std::string line = text->substr(at, end - at);
    const std::size_t tab = line.find('\t');
    if (tab != std::string::npos && !holds_control(line.substr(tab + 1))) {
      entries_.emplace(line.substr(0, tab), line.substr(tab + 1));
    }
    at = end + 1;
  }
}

std::optional<std::string> ClaimMemory::find(const std::string& key) {
  const auto entry = entries_.find(key);
  if (entry == entries_.end()) return std::nullopt;
  ++found_;
  return entry->second;
}

void ClaimMemory::keep(const std::string& key, const std::string& value) {
  if (holds_control(key) || holds_control(value)) return;
  entries_[key] = value;
  ++added_;
  if (std::chrono::steady_clock::now() - last_save_ > between_saves) save();
}

void ClaimMemory::save() {
  if (added_ == saved_ || file_.empty()) return;
  saved_ = added_;
  last_save_ = std::chrono::steady_clock::now();
  std::string text;
  for (const auto& [key, value] : entries_)
    text.append(key).append("\t").append(value).append("\n");
  // Full: it begins anew rather than growing for ever.
  if (text.size() > largest_file) text.clear();
  std::error_code ignored;
  fs::create_directories(file_.parent_path(), ignored);
  if (!ignored) static_cast<void>(write_file(file_, text));
}

}  // namespace pointwright::app
