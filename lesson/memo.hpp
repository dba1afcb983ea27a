#pragma once

#include <optional>
#include <string>

namespace pointwright::lesson {

/// What a host remembers from one compilation to the next, so that what was searched once is known
/// at once the next time. A key names its whole content, the nets included: an entry never becomes
/// wrong, and forgetting one costs only time.
class Memo {
 public:
  Memo() = default;
  Memo(const Memo&) = delete;
  Memo& operator=(const Memo&) = delete;
  virtual ~Memo() = default;

  /// What was kept under a key: one line of text.
  virtual std::optional<std::string> find(const std::string& key) = 0;
  virtual void keep(const std::string& key, const std::string& value) = 0;
};

}  // namespace pointwright::lesson
