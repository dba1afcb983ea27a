#pragma once

#include <cstddef>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pointwright::serve {

/// A file that is open for reading.
class OpenFile {
 public:
  OpenFile(int descriptor, std::size_t size) : descriptor_(descriptor), size_(size) {}
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  ~OpenFile();

  /// Its size when it was opened, in bytes.
  [[nodiscard]] std::size_t size() const { return size_; }
  /// At most `length` bytes from `offset`; empty at the end or where it cannot be read.
  [[nodiscard]] std::string read(std::size_t offset, std::size_t length) const;

 private:
  int descriptor_;
  std::size_t size_;
};

/// Opens an ordinary file of a folder by the names that lead to it. No symbolic link is followed on
/// the way, so whatever is opened is in the folder, even if the folder changes meanwhile. Null
/// where there is no such file. Precondition: none of the names is empty, `.` or `..`, or holds a
/// slash.
std::shared_ptr<OpenFile> open_inside(const std::filesystem::path& folder,
                                      const std::vector<std::string>& names);

/// The media type of a file by its name, for those kinds of files to which a lesson may lead.
/// Nothing for other kinds.
std::optional<std::string_view> media_type(std::string_view name);

}  // namespace pointwright::serve
