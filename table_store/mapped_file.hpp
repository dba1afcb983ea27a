#pragma once

#include <cstddef>
#include <filesystem>
#include <span>
#include <string>

#include "rules/result.hpp"

namespace pointwright {

/// A file seen as read-only memory. Moves, does not copy.
class MappedFile {
 public:
  /// Maps a file, or says in words why it could not.
  static Result<MappedFile, std::string> open(const std::filesystem::path& path);

  MappedFile(MappedFile&& other) noexcept;
  MappedFile& operator=(MappedFile&& other) noexcept;
  MappedFile(const MappedFile&) = delete;
  MappedFile& operator=(const MappedFile&) = delete;
  ~MappedFile();

  [[nodiscard]] std::span<const std::byte> bytes() const { return {data_, size_}; }

 private:
  MappedFile(const std::byte* data, std::size_t size) : data_(data), size_(size) {}
  const std::byte* data_ = nullptr;
  std::size_t size_ = 0;
};

/// A file in the making. It has a name of its own beside the real one, and takes the real one in a
/// single step when it is whole; if it is given up, or the program ends, the file that was there
/// before is untouched.
class NewFile {
 public:
  /// Starts a file of `size` bytes and reserves them on the disk, so that a full disk is found out
  /// now and not after the work.
  static Result<NewFile, std::string> create(const std::filesystem::path& path, std::size_t size);

  NewFile(NewFile&& other) noexcept;
  NewFile& operator=(NewFile&&) = delete;
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;
  /// Removes the unfinished file.
  ~NewFile();

  /// Writes at a place in the file. Returns false if the disk refuses.
  bool write_at(std::size_t offset, std::span<const std::byte> bytes);

  /// Maps the file for writing; the memory is valid until finish() or the end of this object.
  Result<std::span<std::byte>, std::string> map();

  /// Brings everything to the disk and gives the file its name. Returns what went wrong, or "".
  std::string finish();

 private:
  NewFile(std::filesystem::path path, std::filesystem::path part, int descriptor, std::size_t size);
  void unmap();

  std::filesystem::path path_;
  std::filesystem::path part_;
  int descriptor_ = -1;
  std::size_t size_ = 0;
  std::byte* mapped_ = nullptr;
};

}  // namespace pointwright
