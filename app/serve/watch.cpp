#include "app/serve/watch.hpp"

#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>
#include <vector>

namespace pointwright::app {

namespace fs = std::filesystem;

std::string state_of(const fs::path& folder) {
  std::vector<std::string> entries;
  std::error_code error;
  for (fs::directory_iterator entry(folder.empty() ? "." : folder, error), end;
       !error && entry != end; entry.increment(error)) {
    const std::string name = entry->path().filename().string();
    struct stat status{};
    if (name.starts_with('.') || ::stat(entry->path().c_str(), &status) != 0 ||
        !S_ISREG(status.st_mode))
      continue;
    entries.push_back(fmt::format("{}/{}.{}.{}.{}\n", name, status.st_mtim.tv_sec,
                                  status.st_mtim.tv_nsec, status.st_size, status.st_ino));
  }
  std::ranges::sort(entries);
  std::string state;
  for (const std::string& entry : entries) state += entry;
  return state;
}

}  // namespace pointwright::app
