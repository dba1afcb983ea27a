#include "lesson/report.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace pointwright::lesson {

Diagnostic& Report::add(const DiagnosticKind& kind, TextSpan where, std::string message) {
  if (kind.severity == Severity::error) ++errors_;
  if (diagnostics_.size() >= most) {
    ++spared_;
    spare_ = Diagnostic{};
    return spare_;
  }
  Diagnostic diagnostic;
  diagnostic.kind = &kind;
  diagnostic.file = source_.name();
  diagnostic.where = where;
  diagnostic.begin = source_.locate(where.begin);
  diagnostic.end = source_.locate(where.end);
  diagnostic.message = std::move(message);
  return diagnostics_.emplace_back(std::move(diagnostic));
}

void Report::add_faults(const DiagnosticKind& kind, const Faults& faults, std::size_t offset) {
  for (const Fault& fault : faults) {
    Diagnostic& diagnostic =
        add(kind, {offset + fault.where.begin, offset + fault.where.end}, fault.reason);
    diagnostic.detail = fault.id;
    if (!fault.fix.empty()) diagnostic.hints.push_back(fault.fix);
  }
}

std::vector<Diagnostic> Report::take() {
  if (spared_ > 0) {
    const std::size_t end = source_.text().size();
    const std::size_t more = spared_;
    diagnostics_.pop_back();
    add(kinds::more_problems, {end, end},
        fmt::format("{} more problems of this file are not listed; put these right first",
                    more + 1));
    spared_ = 0;
  }
  return std::move(diagnostics_);
}

}  // namespace pointwright::lesson
