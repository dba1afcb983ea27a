#pragma once

#include <string>

#include "lesson/diagnostic.hpp"
#include "lesson/lesson.hpp"
#include "storyboard/json.hpp"
#include "tests/fuzz/require.hpp"

namespace pointwright::fuzz {

/// Checks what holds of every compilation, whatever the text was.
inline void require_good_compilation(const lesson::Compilation& compilation) {
  bool any_error = false;
  for (const lesson::Diagnostic& diagnostic : compilation.diagnostics) {
    const lesson::SourceText& source = compilation.source_of(diagnostic);
    require(diagnostic.kind != nullptr, "a diagnostic has a kind");
    require(!diagnostic.message.empty(), "a diagnostic says what was seen");
    require(diagnostic.where.begin <= diagnostic.where.end &&
                diagnostic.where.end <= source.text().size(),
            "a diagnostic points into its text");
    require(source.locate(diagnostic.where.begin) == diagnostic.begin,
            "line and column are those of the bytes");
    require(!lesson::render(diagnostic, source).empty(), "a diagnostic can be laid out");
    any_error = any_error || diagnostic.kind->severity == lesson::Severity::error;
  }
  const bool proved = compilation.outcome() == lesson::Outcome::proved;
  require(proved == !any_error, "a lesson is proved exactly when nothing was found wrong");
  if (!proved) return;
  require(compilation.claims.proved == compilation.claims.written, "every claim was proved");

  const std::string json = to_json(compilation.storyboard);
  const auto again = storyboard_from_json(json);
  require(again.ok(), "a storyboard is read back from its JSON");
  require(to_json(*again) == json, "and is the same");
}

}  // namespace pointwright::fuzz
