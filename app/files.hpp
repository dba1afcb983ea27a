#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/failure.hpp"
#include "rules/result.hpp"

namespace pointwright::app {

/// The bytes of a file of at most `limit` bytes.
Result<std::string, Failure> read_file(const std::filesystem::path& path, std::size_t limit);

/// Puts the contents in place of the file in one step: they are written beside it, made durable and
/// renamed, so that a reader sees the old file or the new one and a failure leaves the old one. A
/// device or a pipe is written to as it is. Returns why it failed, if it did.
std::optional<Failure> write_file(const std::filesystem::path& path, std::string_view contents);

/// The same, but refuses where anything of that name exists, even if it came in between.
std::optional<Failure> write_new_file(const std::filesystem::path& path, std::string_view contents);

/// One file of a folder to be made.
struct FileText {
  std::string name;
  std::string contents;
};

/// Makes a folder with these files in one step: all of it appears or none. Refuses where anything
/// of that name exists.
std::optional<Failure> write_new_folder(const std::filesystem::path& path,
                                        const std::vector<FileText>& files);

}  // namespace pointwright::app
