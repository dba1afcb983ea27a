#include "app/make/run_program.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <memory>
#include <system_error>

#include "app/interrupt.hpp"

extern char** environ;  // NOLINT: named by POSIX

namespace pointwright::app {
namespace {

struct CloseFile {
  void operator()(std::FILE* file) const { static_cast<void>(std::fclose(file)); }
};
using FileOwner = std::unique_ptr<std::FILE, CloseFile>;

std::string all_of(std::FILE* file) {
  std::string text;
  if (std::fseek(file, 0, SEEK_SET) != 0) return text;
  std::array<char, 16384> buffer{};
  while (const std::size_t got = std::fread(buffer.data(), 1, buffer.size(), file)) {
    text.append(buffer.data(), got);
  }
  return text;
}

/// The exit status of a process, which is stopped when somebody interrupts.
int wait_for(pid_t process) {
  int status = 0;
  while (::waitpid(process, &status, 0) < 0 && errno == EINTR) {
    if (InterruptWatch::interrupted()) ::kill(process, SIGKILL);
  }
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace

Result<ProgramRun, Failure> run_program(std::vector<std::string> words, const std::string& input) {
  const auto broken = [&](int error) {
    return failure("cannot-run",
                   fmt::format("`{}` cannot be run: {}", words.front(),
                               std::generic_category().message(error)),
                   "make room in the folder for temporary files, and try again");
  };
  const FileOwner in(std::tmpfile());
  const FileOwner out(std::tmpfile());
  const FileOwner complaints(std::tmpfile());
  if (!in || !out || !complaints) return broken(errno);
  if (std::fwrite(input.data(), 1, input.size(), in.get()) != input.size() ||
      std::fflush(in.get()) != 0 || std::fseek(in.get(), 0, SEEK_SET) != 0) {
    return broken(errno);
  }
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, fileno(in.get()), STDIN_FILENO);
  posix_spawn_file_actions_adddup2(&actions, fileno(out.get()), STDOUT_FILENO);
  posix_spawn_file_actions_adddup2(&actions, fileno(complaints.get()), STDERR_FILENO);
  // Ctrl-C is ours to answer: the program gets a group of its own.
  posix_spawnattr_t attributes;
  posix_spawnattr_init(&attributes);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETPGROUP);
  posix_spawnattr_setpgroup(&attributes, 0);
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  pid_t process = 0;
  const int error = posix_spawnp(&process, words.front().c_str(), &actions, &attributes,
                                 pointers.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  posix_spawnattr_destroy(&attributes);
  if (error == ENOENT) {
    return failure("missing-program", fmt::format("`{}` is not installed", words.front()),
                   fmt::format("install the package {}", words.front()));
  }
  if (error != 0) return broken(error);
  const int status = wait_for(process);
  if (InterruptWatch::interrupted()) {
    return failure("interrupted", "the build was interrupted", "build again when you like");
  }
  return ProgramRun{
      .status = status, .out = all_of(out.get()), .complaints = all_of(complaints.get())};
}

bool is_installed(const std::string& program) {
  const auto run = run_program({program, "--version"}, {});
  return run.ok() && run->status == 0;
}

}  // namespace pointwright::app
