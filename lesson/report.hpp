#pragma once

#include <string>
#include <vector>

#include "lesson/diagnostic.hpp"
#include "lesson/kinds.hpp"

namespace pointwright::lesson {

/// Collects what there is to tell the author about one file. Bounded: past `most` diagnostics it
/// only counts.
class Report {
 public:
  static constexpr std::size_t most = 200;

  explicit Report(const SourceText& source) : source_(source) {}

  /// Adds a diagnostic. The reference is for adding hints and the like at once; the next call
  /// makes it invalid.
  Diagnostic& add(const DiagnosticKind& kind, TextSpan where, std::string message);

  /// Adds each fault of a text that begins at `offset` in this file; spans are moved there.
  void add_faults(const DiagnosticKind& kind, const Faults& faults, std::size_t offset);

  [[nodiscard]] const SourceText& source() const { return source_; }
  /// Whether anything but advice was added.
  [[nodiscard]] bool has_errors() const { return errors_ > 0; }
  [[nodiscard]] int errors() const { return errors_; }

  /// The diagnostics, with a last one if some were only counted. Leaves the report empty.
  std::vector<Diagnostic> take();

 private:
  const SourceText& source_;
  std::vector<Diagnostic> diagnostics_;
  Diagnostic spare_;
  std::size_t spared_ = 0;
  int errors_ = 0;
};

}  // namespace pointwright::lesson
