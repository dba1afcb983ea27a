#include "app/make/folder.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <map>
#include <set>
#include <system_error>

#include "app/files.hpp"
#include "app/interrupt.hpp"
#include "app/json.hpp"
#include "app/version.hpp"
#include "studio/digest.hpp"

namespace pointwright::app {
namespace {

namespace fs = std::filesystem;

/// What the record says of a file. Size and time tell whether somebody has changed it since.
struct Entry {
  std::string kind;
  std::string recipe;
  std::int64_t size = 0;
  std::int64_t changed = 0;  ///< nanoseconds since 1970
  friend bool operator==(const Entry&, const Entry&) = default;
};
using Record = std::map<std::string, Entry>;

constexpr int record_version = 1;
constexpr std::size_t largest_record = std::size_t{64} * 1024 * 1024;

std::string digest(const Product& product) {
  return sha256_base64(fmt::format("{}\n{}\n{}", version, product.kind, product.recipe));
}

std::optional<Entry> entry_of(const fs::path& file, std::string kind, std::string recipe) {
  struct stat status{};
  if (::stat(file.c_str(), &status) != 0 || !S_ISREG(status.st_mode)) return std::nullopt;
  constexpr std::int64_t second = 1'000'000'000;
  return Entry{.kind = std::move(kind),
               .recipe = std::move(recipe),
               .size = status.st_size,
               .changed = status.st_mtim.tv_sec * second + status.st_mtim.tv_nsec};
}

/// The record of a folder; none if it has none that can be read.
std::optional<Record> read_record(const fs::path& folder) {
  const auto text = read_file(folder / record_name, largest_record);
  if (!text.ok()) return std::nullopt;
  const Json json = Json::parse(*text, nullptr, false);
  if (!json.is_object() || json.value("version", Json{}) != record_version) return std::nullopt;
  const auto files = json.find("files");
  if (files == json.end() || !files->is_array()) return std::nullopt;
  Record record;
  for (const Json& file : *files) {
    const auto text_of = [&](const char* name) {
      const auto found = file.find(name);
      return found != file.end() && found->is_string() ? found->get<std::string>() : std::string{};
    };
    const auto number_of = [&](const char* name) {
      const auto found = file.find(name);
      return found != file.end() && found->is_number_integer() ? found->get<std::int64_t>() : -1;
    };
    if (!file.is_object() || text_of("path").empty()) return std::nullopt;
    record[text_of("path")] = {.kind = text_of("kind"),
                               .recipe = text_of("recipe"),
                               .size = number_of("size"),
                               .changed = number_of("changed")};
  }
  return record;
}

std::string record_text(const Record& record) {
  Json files = Json::array();
  for (const auto& [path, entry] : record) {
    files.push_back({{"path", path},
                     {"kind", entry.kind},
                     {"recipe", entry.recipe},
                     {"size", entry.size},
                     {"changed", entry.changed}});
  }
  constexpr int indent = 1;
  return Json{{"version", record_version}, {"files", std::move(files)}}.dump(indent) + "\n";
}

Failure cannot_make(const fs::path& path, const std::error_code& error) {
  const bool full = error == std::errc::no_space_on_device;
  return failure(
      "cannot-write", fmt::format("`{}` cannot be written: {}", path.string(), error.message()),
      full ? "make room on the disk, or write to another one; nothing that was there has "
             "changed"
           : "choose a folder that you may write to");
}

Failure not_ours(const fs::path& folder) {
  return failure("already-there",
                 fmt::format("`{}` has something in it that no build has made", folder.string()),
                 "nothing is overwritten: choose another folder, or an empty one");
}

/// The folder without a slash at its end.
fs::path named(const fs::path& folder) {
  fs::path path = folder.has_filename() ? folder : folder.parent_path();
  const fs::path name = path.filename();
  return name.empty() || name == "." || name == ".." ? fs::path{} : path;
}

/// Where the new folder grows, beside the old one.
class Scaffold {
 public:
  explicit Scaffold(const fs::path& folder)
      : path_(folder.parent_path() /
              fmt::format(".{}.{}.part", folder.filename().string(), ::getpid())) {
    std::error_code ignored;
    sweep(folder);
    fs::remove_all(path_, ignored);
  }
  Scaffold(const Scaffold&) = delete;
  Scaffold& operator=(const Scaffold&) = delete;
  ~Scaffold() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  [[nodiscard]] const fs::path& path() const { return path_; }

 private:
  /// Takes away what builds of this folder left behind that were killed.
  static void sweep(const fs::path& folder) {
    std::error_code error;
    const std::string head = fmt::format(".{}.", folder.filename().string());
    const fs::path parent = folder.has_parent_path() ? folder.parent_path() : fs::path(".");
    for (fs::directory_iterator at(parent, error), end; !error && at != end; at.increment(error)) {
      const std::string name = at->path().filename().string();
      constexpr std::string_view tail = ".part";
      if (!name.starts_with(head) || !name.ends_with(tail)) continue;
      const std::string number = name.substr(head.size(), name.size() - head.size() - tail.size());
      if (number.empty() || number.find_first_not_of("0123456789") != std::string::npos) continue;
      constexpr std::size_t longest_number = 9;
      if (number.size() > longest_number) continue;
      const auto process = static_cast<pid_t>(std::stol(number));
      if (::kill(process, 0) == 0 || errno != ESRCH) continue;
      std::error_code ignored;
      fs::remove_all(at->path(), ignored);
    }
  }
  fs::path path_;
};

/// The same file under another name: a second name for it where the file system can, else a copy.
std::error_code carry(const fs::path& from, const fs::path& to) {
  std::error_code error;
  fs::create_directories(to.parent_path(), error);
  if (error) return error;
  if (fs::is_symlink(fs::symlink_status(from, error))) {
    fs::copy_symlink(from, to, error);
    return error;
  }
  fs::create_hard_link(from, to, error);
  if (!error) return error;
  fs::copy_file(from, to, error);
  if (!error) {
    const auto time = fs::last_write_time(from, error);
    if (!error) fs::last_write_time(to, time, error);
  }
  return error;
}

/// Puts the new folder in the place of the old one, in one step where the system can.
std::error_code exchange(const fs::path& part, const fs::path& folder) {
  std::error_code error;
  if (!fs::exists(fs::symlink_status(folder, error))) {
    fs::rename(part, folder, error);
    return error;
  }
  // Afterwards the old folder stands under the scaffold's name and goes with it.
  if (::renameat2(AT_FDCWD, part.c_str(), AT_FDCWD, folder.c_str(), RENAME_EXCHANGE) == 0) {
    return {};
  }
  // A file system that cannot exchange: two steps, the second taken back if it fails.
  const fs::path old = part.string() + ".old";
  fs::rename(folder, old, error);
  if (error) return error;
  fs::rename(part, folder, error);
  std::error_code ignored;
  if (error) {
    fs::rename(old, folder, ignored);
  } else {
    fs::remove_all(old, ignored);
  }
  return error;
}

/// One run of `make_folder`.
class Maker {
 public:
  Maker(const fs::path& folder, const FolderRequest& request)
      : folder_(folder), request_(request), scaffold_(folder) {}

  std::optional<Failure> run() {
    if (auto wrong = read_old()) return wrong;
    std::error_code error;
    fs::create_directories(scaffold_.path(), error);
    if (error) return cannot_make(folder_, error);
    std::size_t done = 0;
    for (const Product& product : request_.products) {
      if (InterruptWatch::interrupted()) return stopped();
      if (request_.progress) request_.progress(done++, product);
      if (auto wrong = make(product)) return wrong;
    }
    if (auto wrong = carry_rest()) return wrong;
    if (auto wrong = write_file(scaffold_.path() / record_name, record_text(record_))) return wrong;
    if (InterruptWatch::interrupted()) return stopped();
    if (const auto failed = exchange(scaffold_.path(), folder_))
      return cannot_make(folder_, failed);
    return std::nullopt;
  }

  FolderReport report;

 private:
  static Failure stopped() {
    return failure("interrupted", "the build was interrupted",
                   "nothing has changed; build again when you like");
  }

  /// The failure with the path that was asked for instead of the one beside it.
  Failure in_its_place(Failure wrong) const {
    const std::string beside = scaffold_.path().string();
    for (Fault& fault : wrong.faults) {
      if (const auto at = fault.reason.find(beside); at != std::string::npos) {
        fault.reason.replace(at, beside.size(), folder_.string());
      }
    }
    return wrong;
  }

  std::optional<Failure> read_old() {
    std::error_code error;
    const auto status = fs::symlink_status(folder_, error);
    if (!fs::exists(status)) {
      fs::create_directories(folder_.has_parent_path() ? folder_.parent_path() : ".", error);
      return error ? std::optional{cannot_make(folder_, error)} : std::nullopt;
    }
    if (!fs::is_directory(status)) {
      return failure("already-there", fmt::format("`{}` is not a folder", folder_.string()),
                     "choose another name for the folder, or move away what is there");
    }
    if (auto record = read_record(folder_)) {
      old_ = std::move(*record);
      return std::nullopt;
    }
    return fs::is_empty(folder_, error) && !error ? std::nullopt : std::optional{not_ours(folder_)};
  }

  std::optional<Failure> make(const Product& product) {
    const fs::path target = scaffold_.path() / product.path;
    std::error_code error;
    fs::create_directories(target.parent_path(), error);
    if (error) return cannot_make(folder_ / product.path, error);
    const std::string recipe = digest(product);
    const auto before = old_.find(product.path);
    if (before == old_.end() && fs::exists(fs::symlink_status(folder_ / product.path, error))) {
      return failure("already-there",
                     fmt::format("`{}` was not made by a build", (folder_ / product.path).string()),
                     "nothing is overwritten: move that file away, or choose another folder");
    }
    const bool kept = !request_.afresh && before != old_.end() && before->second.recipe == recipe &&
                      before->second == entry_of(folder_ / product.path, product.kind, recipe) &&
                      !carry(folder_ / product.path, target);
    if (!kept) {
      if (auto wrong = product.make(target)) {
        return InterruptWatch::interrupted() ? stopped() : in_its_place(*wrong);
      }
    }
    (kept ? report.kept : report.made).push_back(product.path);
    if (auto entry = entry_of(target, product.kind, recipe)) record_[product.path] = *entry;
    return std::nullopt;
  }

  /// Whether a file that an earlier build made is to be replaced or taken away by this one.
  [[nodiscard]] bool is_superseded(const std::string& path) const {
    const auto found = old_.find(path);
    if (found == old_.end()) return false;
    if (record_.contains(path)) return true;
    for (const Product& product : request_.products) {
      if (product.kind == found->second.kind) return true;
    }
    return false;
  }

  std::optional<Failure> carry_rest() {
    std::map<std::string, std::string> recipes;
    for (const Product& other : request_.others) recipes[other.path] = digest(other);
    std::error_code error;
    if (!fs::exists(folder_, error)) return std::nullopt;
    for (fs::recursive_directory_iterator at(folder_, error), end; !error && at != end;
         at.increment(error)) {
      const std::string path = at->path().lexically_relative(folder_).generic_string();
      if (at->is_directory() && !at->is_symlink()) {
        // A folder of somebody's own stays even if it is empty.
        if (fs::is_empty(at->path(), error)) {
          fs::create_directories(scaffold_.path() / path, error);
        }
        continue;
      }
      if (path == record_name) continue;
      if (is_superseded(path)) {
        if (!record_.contains(path)) report.removed.push_back(path);
        continue;
      }
      if (const auto failed = carry(at->path(), scaffold_.path() / path)) {
        return cannot_make(folder_ / path, failed);
      }
      const auto entry = old_.find(path);
      if (entry == old_.end()) continue;
      record_[path] = entry->second;
      const auto recipe = recipes.find(path);
      if (recipe == recipes.end() || recipe->second != entry->second.recipe) {
        report.stale.push_back(path);
      }
    }
    return error ? std::optional{cannot_make(folder_, error)} : std::nullopt;
  }

  const fs::path& folder_;
  const FolderRequest& request_;
  Scaffold scaffold_;
  Record old_;
  Record record_;
};

}  // namespace

Product text_product(std::string_view kind, std::string path, std::string recipe,
                     std::function<std::string()> contents) {
  return {.kind = std::string{kind},
          .path = std::move(path),
          .recipe = std::move(recipe),
          .make = [contents = std::move(contents)](const fs::path& file) {
            return write_new_file(file, contents());
          }};
}

std::optional<std::set<std::string>> files_made(const fs::path& folder) {
  const auto record = read_record(folder);
  if (!record) return std::nullopt;
  std::set<std::string> files;
  for (const auto& [path, entry] : *record) files.insert(path);
  return files;
}

Result<FolderReport, Failure> make_folder(const fs::path& folder, const FolderRequest& request) {
  const fs::path path = named(folder);
  if (path.empty()) {
    return failure("already-there",
                   fmt::format("`{}` cannot be the output folder", folder.string()),
                   "name a folder to be made, such as out/");
  }
  Maker maker(path, request);
  if (auto wrong = maker.run()) return std::move(*wrong);
  return std::move(maker.report);
}

}  // namespace pointwright::app
