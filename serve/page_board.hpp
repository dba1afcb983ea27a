#pragma once

#include <chrono>
#include <condition_variable>
#include <mutex>
#include <string>

namespace pointwright::serve {

/// A page and what it is called by those who wait for another one.
struct ShownPage {
  std::string version;  ///< letters and digits; equal for equal pages
  std::string html;
};

/// The page that is shown now. Several threads may use it at once.
class PageBoard {
 public:
  /// Shows a page in place of the one before and wakes those who wait.
  void show(ShownPage page);
  /// Wakes those who wait, now and later, for good.
  void close();

  [[nodiscard]] ShownPage page() const;
  [[nodiscard]] bool closed() const;
  /// Waits until another version than `seen` is shown, the board is closed, or the time is over.
  /// Returns the version that is shown then.
  std::string next(const std::string& seen, std::chrono::milliseconds time) const;

 private:
  mutable std::mutex mutex_;
  mutable std::condition_variable changed_;
  ShownPage page_;
  bool closed_ = false;
};

}  // namespace pointwright::serve
