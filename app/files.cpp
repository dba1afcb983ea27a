#include "app/files.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <fstream>
#include <system_error>

namespace pointwright::app {
namespace {

namespace fs = std::filesystem;

std::string reason(int error) {
  return std::generic_category().message(error);
}

/// What a person can do about an error of the system.
std::string remedy(int error, const fs::path& path) {
  switch (error) {
    case ENOENT:
    case ENOTDIR:
      return fmt::format("make the folder `{}` first, or choose another",
                         path.has_parent_path() ? path.parent_path().string() : ".");
    case EACCES:
    case EPERM:
    case EROFS:
      return "choose a folder that you may write to";
    case ENOSPC:
    case EDQUOT:
    case EFBIG:
      return "make room on the disk, or write to another one; nothing that was there has changed";
    case EISDIR:
      return "that is a folder; add a file's name";
    case EEXIST:
    case ENOTEMPTY:
      return "nothing is overwritten: choose another name, or move away what is there";
    default:
      return "choose another place to write to";
  }
}

Failure cannot_write(const fs::path& path, int error) {
  return failure("cannot-write",
                 fmt::format("`{}` cannot be written: {}", path.string(), reason(error)),
                 remedy(error, path));
}

Failure already_there(const fs::path& path) {
  return failure("already-there", fmt::format("`{}` is already there", path.string()),
                 remedy(EEXIST, path));
}

/// A descriptor that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  [[nodiscard]] int number() const { return number_; }
  /// Closes now; some file systems report a failed write only here. Returns errno or 0.
  int close() {
    const int number = number_;
    number_ = -1;
    return ::close(number) == 0 ? 0 : errno;
  }

 private:
  int number_;
};

/// Writes everything. Returns errno or 0.
int write_all(int descriptor, std::string_view contents) {
  while (!contents.empty()) {
    const ssize_t written = ::write(descriptor, contents.data(), contents.size());
    if (written < 0) {
      if (errno == EINTR) continue;
      return errno;
    }
    contents.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

/// Makes the names in a folder durable. Some file systems cannot; that is no failure of ours.
void sync_folder(const fs::path& folder) {
  const Descriptor descriptor{
      ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)};
  if (descriptor.number() >= 0) ::fsync(descriptor.number());
}

/// Writes and makes durable a file that does not exist yet. Returns errno or 0, and leaves no file
/// behind when it fails.
int create_file(const fs::path& path, std::string_view contents, mode_t mode) {
  Descriptor file{::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode)};
  if (file.number() < 0) return errno;
  int error = write_all(file.number(), contents);
  if (error == 0 && ::fsync(file.number()) != 0) error = errno;
  const int closed = file.close();
  if (error == 0) error = closed;
  if (error != 0) ::unlink(path.c_str());
  return error;
}

/// A name beside `path` that nothing else uses while this process runs.
fs::path beside(const fs::path& path) {
  fs::path name = path.parent_path();
  name /= fmt::format(".{}.{}.part", path.filename().string(), ::getpid());
  return name;
}

/// Where a symbolic link leads, so that writing to it replaces the file and not the link.
fs::path resolved(const fs::path& path) {
  std::error_code error;
  if (!fs::is_symlink(path, error)) return path;
  const fs::path target = fs::weakly_canonical(path, error);
  return error ? path : target;
}

constexpr mode_t ordinary_file = 0666;  // less the umask

}  // namespace

Result<std::string, Failure> read_file(const fs::path& path, std::size_t limit) {
  const auto cannot_read = [&](std::string_view why) {
    return failure("cannot-read", fmt::format("`{}` cannot be read: {}", path.string(), why),
                   "name a file that exists and may be read");
  };
  const Descriptor file{::open(path.c_str(), O_RDONLY | O_CLOEXEC)};
  if (file.number() < 0) return cannot_read(reason(errno));
  std::string contents;
  constexpr std::size_t block = std::size_t{64} * 1024;
  std::string buffer(block, '\0');
  while (true) {
    const ssize_t got = ::read(file.number(), buffer.data(), buffer.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return cannot_read(reason(errno));
    if (got == 0) return contents;
    contents.append(buffer, 0, static_cast<std::size_t>(got));
    if (contents.size() > limit) {
      return cannot_read(fmt::format("it is larger than {} bytes", limit));
    }
  }
}

std::optional<Failure> write_file(const fs::path& path, std::string_view contents) {
  const fs::path target = resolved(path);
  struct stat old{};
  const bool exists = ::stat(target.c_str(), &old) == 0;
  if (exists && S_ISDIR(old.st_mode)) return cannot_write(path, EISDIR);
  if (exists && !S_ISREG(old.st_mode)) {
    Descriptor device{::open(target.c_str(), O_WRONLY | O_CLOEXEC)};
    if (device.number() < 0) return cannot_write(path, errno);
    int error = write_all(device.number(), contents);
    const int closed = device.close();
    if (error == 0) error = closed;
    return error == 0 ? std::nullopt : std::optional{cannot_write(path, error)};
  }
  const fs::path part = beside(target);
  ::unlink(part.c_str());  // left by a process of the same number that was killed
  const int error = create_file(part, contents, ordinary_file);
  if (error != 0) return cannot_write(path, error);
  if (exists) ::chmod(part.c_str(), old.st_mode & 07777U);
  if (::rename(part.c_str(), target.c_str()) != 0) {
    const int failed = errno;
    ::unlink(part.c_str());
    return cannot_write(path, failed);
  }
  sync_folder(target.parent_path());
  return std::nullopt;
}

std::optional<Failure> write_new_file(const fs::path& path, std::string_view contents) {
  const fs::path part = beside(path);
  ::unlink(part.c_str());
  const int error = create_file(part, contents, ordinary_file);
  if (error != 0) return cannot_write(path, error);
  // A hard link, unlike a rename, fails where the name is taken.
  const int linked = ::link(part.c_str(), path.c_str()) == 0 ? 0 : errno;
  ::unlink(part.c_str());
  if (linked == EEXIST) return already_there(path);
  if (linked != 0) {
    // A file system without hard links: create it in place, still refusing to overwrite.
    const int created = create_file(path, contents, ordinary_file);
    if (created == EEXIST) return already_there(path);
    if (created != 0) return cannot_write(path, created);
  }
  sync_folder(path.parent_path());
  return std::nullopt;
}

std::optional<Failure> write_new_folder(const fs::path& path, const std::vector<FileText>& files) {
  // "name/" and "name" are the same folder.
  const fs::path folder = path.has_filename() ? path : path.parent_path();
  std::error_code error;
  if (fs::exists(fs::symlink_status(folder, error))) return already_there(folder);
  const fs::path part = beside(folder);
  fs::remove_all(part, error);
  if (::mkdir(part.c_str(), 0777) != 0) return cannot_write(folder, errno);
  int failed = 0;
  for (const FileText& file : files) {
    failed = create_file(part / file.name, file.contents, ordinary_file);
    if (failed != 0) break;
  }
  sync_folder(part);
  // Renaming a folder fails where a folder with something in it, or a file, has taken the name.
  if (failed == 0 && ::rename(part.c_str(), folder.c_str()) != 0) failed = errno;
  if (failed != 0) {
    fs::remove_all(part, error);
    if (failed == EEXIST || failed == ENOTEMPTY || failed == ENOTDIR) return already_there(folder);
    return cannot_write(folder, failed);
  }
  sync_folder(folder.parent_path());
  return std::nullopt;
}

}  // namespace pointwright::app
