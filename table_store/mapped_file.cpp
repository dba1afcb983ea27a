#include "table_store/mapped_file.hpp"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>
#include <utility>

namespace pointwright {
namespace {

std::string in_words(int error) {
  return std::generic_category().message(error);
}

}  // namespace

Result<MappedFile, std::string> MappedFile::open(const std::filesystem::path& path) {
  const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) return in_words(errno);
  struct stat status{};
  if (::fstat(descriptor, &status) != 0) {
    const int error = errno;
    ::close(descriptor);
    return in_words(error);
  }
  const auto size = static_cast<std::size_t>(status.st_size);
  if (!S_ISREG(status.st_mode) || size == 0) {
    ::close(descriptor);
    return MappedFile(nullptr, 0);
  }
  void* data = ::mmap(nullptr, size, PROT_READ, MAP_SHARED, descriptor, 0);
  const int error = errno;
  ::close(descriptor);
  if (data == MAP_FAILED) return in_words(error);
  return MappedFile(static_cast<const std::byte*>(data), size);
}

MappedFile::MappedFile(MappedFile&& other) noexcept
    : data_(std::exchange(other.data_, nullptr)), size_(std::exchange(other.size_, 0)) {}

MappedFile& MappedFile::operator=(MappedFile&& other) noexcept {
  std::swap(data_, other.data_);
  std::swap(size_, other.size_);
  return *this;
}

MappedFile::~MappedFile() {
  // munmap takes a plain pointer; the memory was mapped read-only.
  if (data_ != nullptr) ::munmap(const_cast<std::byte*>(data_), size_);  // NOLINT(*-const-cast)
}

Result<NewFile, std::string> NewFile::create(const std::filesystem::path& path, std::size_t size) {
  std::string part = path.string() + ".part-XXXXXX";
  const int descriptor = ::mkstemp(part.data());
  if (descriptor < 0) return in_words(errno);
  NewFile file(path, part, descriptor, size);
  ::fchmod(descriptor, S_IRUSR | S_IWUSR | S_IRGRP | S_IROTH);
  const int error = ::posix_fallocate(descriptor, 0, static_cast<off_t>(size));
  if (error != 0) return in_words(error);
  return file;
}

NewFile::NewFile(std::filesystem::path path, std::filesystem::path part, int descriptor,
                 std::size_t size)
    : path_(std::move(path)), part_(std::move(part)), descriptor_(descriptor), size_(size) {}

NewFile::NewFile(NewFile&& other) noexcept
    : path_(std::move(other.path_)),
      part_(std::exchange(other.part_, {})),
      descriptor_(std::exchange(other.descriptor_, -1)),
      size_(other.size_),
      mapped_(std::exchange(other.mapped_, nullptr)) {}

NewFile::~NewFile() {
  unmap();
  if (descriptor_ < 0) return;
  ::close(descriptor_);
  ::unlink(part_.c_str());
}

void NewFile::unmap() {
  if (mapped_ != nullptr) ::munmap(mapped_, size_);
  mapped_ = nullptr;
}

bool NewFile::write_at(std::size_t offset, std::span<const std::byte> bytes) {
  while (!bytes.empty()) {
    const ssize_t written =
        ::pwrite(descriptor_, bytes.data(), bytes.size(), static_cast<off_t>(offset));
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    offset += static_cast<std::size_t>(written);
    bytes = bytes.subspan(static_cast<std::size_t>(written));
  }
  return true;
}

Result<std::span<std::byte>, std::string> NewFile::map() {
  void* data = ::mmap(nullptr, size_, PROT_READ | PROT_WRITE, MAP_SHARED, descriptor_, 0);
  if (data == MAP_FAILED) return in_words(errno);
  mapped_ = static_cast<std::byte*>(data);
  return std::span<std::byte>(mapped_, size_);
}

std::string NewFile::finish() {
  unmap();
  if (::fsync(descriptor_) != 0) return in_words(errno);
  if (::rename(part_.c_str(), path_.c_str()) != 0) return in_words(errno);
  ::close(descriptor_);
  descriptor_ = -1;
  return "";
}

}  // namespace pointwright
