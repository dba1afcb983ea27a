#pragma once

#include <array>
#include <csignal>

namespace pointwright::app {

/// While one of these lives, Ctrl-C and its like do not end the program but set a flag, so that
/// work in progress can be taken back; and writing to a program that has gone, or past the largest
/// file that is allowed, is an error instead of the end. There may be one at a time.
class InterruptWatch {
 public:
  InterruptWatch();
  InterruptWatch(const InterruptWatch&) = delete;
  InterruptWatch& operator=(const InterruptWatch&) = delete;
  ~InterruptWatch();

  /// Whether somebody has asked the program to stop.
  static bool interrupted();

 private:
  static constexpr std::array<int, 5> signals_{SIGINT, SIGTERM, SIGHUP, SIGPIPE, SIGXFSZ};
  std::array<struct sigaction, 5> before_{};
};

/// What the shell is told of a program that was stopped: 128 and the number of SIGINT, as shells
/// report it (common practice).
inline constexpr int exit_interrupted = 130;

}  // namespace pointwright::app
