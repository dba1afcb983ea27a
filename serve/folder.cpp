#include "serve/folder.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>

namespace pointwright::serve {
namespace {

struct Kind {
  std::string_view ending;
  std::string_view type;
};

constexpr std::array<Kind, 18> kinds{{{".html", "text/html; charset=utf-8"},
                                      {".md", "text/plain; charset=utf-8"},
                                      {".txt", "text/plain; charset=utf-8"},
                                      {".csv", "text/csv; charset=utf-8"},
                                      {".json", "application/json"},
                                      {".vtt", "text/vtt; charset=utf-8"},
                                      {".srt", "text/plain; charset=utf-8"},
                                      {".pdf", "application/pdf"},
                                      {".svg", "image/svg+xml"},
                                      {".png", "image/png"},
                                      {".jpg", "image/jpeg"},
                                      {".jpeg", "image/jpeg"},
                                      {".gif", "image/gif"},
                                      {".webp", "image/webp"},
                                      {".mp4", "video/mp4"},
                                      {".webm", "video/webm"},
                                      {".mov", "video/quicktime"},
                                      {".mp3", "audio/mpeg"}}};

}  // namespace

OpenFile::~OpenFile() {
  ::close(descriptor_);
}

std::string OpenFile::read(std::size_t offset, std::size_t length) const {
  std::string bytes(length, '\0');
  while (true) {
    const ssize_t got =
        ::pread(descriptor_, bytes.data(), bytes.size(), static_cast<off_t>(offset));
    if (got < 0 && errno == EINTR) continue;
    bytes.resize(got < 0 ? 0 : static_cast<std::size_t>(got));
    return bytes;
  }
}

std::shared_ptr<OpenFile> open_inside(const std::filesystem::path& folder,
                                      const std::vector<std::string>& names) {
  if (names.empty()) return nullptr;
  int at = ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  for (std::size_t i = 0; i < names.size() && at >= 0; ++i) {
    // Not to block where a pipe has a file's name.
    const int last = i + 1 == names.size() ? O_NONBLOCK : O_DIRECTORY;
    const int next = ::openat(at, names[i].c_str(), O_RDONLY | O_NOFOLLOW | O_CLOEXEC | last);
    ::close(at);
    at = next;
  }
  if (at < 0) return nullptr;
  struct stat status{};
  if (::fstat(at, &status) != 0 || !S_ISREG(status.st_mode)) {
    ::close(at);
    return nullptr;
  }
  return std::make_shared<OpenFile>(at, static_cast<std::size_t>(status.st_size));
}

std::optional<std::string_view> media_type(std::string_view name) {
  for (const Kind& kind : kinds) {
    if (name.ends_with(kind.ending)) return kind.type;
  }
  return std::nullopt;
}

}  // namespace pointwright::serve
