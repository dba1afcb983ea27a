#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "lesson/source.hpp"

namespace pointwright::lesson {

enum class Severity { error, warning };

/// What made a diagnostic necessary, in the order in which they are best put right: what cannot be
/// read hides what is false.
enum class Cause {
  course,       ///< course.yaml and the files that it names
  text,         ///< the file as a whole, its front matter, the shape of its blocks
  board,        ///< a board block
  show,         ///< a show block
  question,     ///< a question block
  claim_input,  ///< a claim that cannot be read, or asks what its board cannot answer
  untrue,       ///< a claim, or a question's right answer, that was understood and is false
  advice,       ///< nothing is wrong with the lesson, but something will not be shown as written
};

/// One kind of diagnostic. All of them stand in lesson/kinds.hpp.
struct DiagnosticKind {
  std::string_view id;  ///< stable: "unknown-key"
  Severity severity = Severity::error;
  Cause cause = Cause::text;
  std::string_view meaning;  ///< one sentence for the reference
};

/// Every kind of diagnostic, by cause.
std::span<const DiagnosticKind* const> diagnostic_kinds();

/// Another place that belongs to what is reported.
struct Label {
  TextSpan where;
  std::string text;
};

/// A change that can be pasted: put `replacement` in place of `where`.
struct Fix {
  TextSpan where;
  std::string replacement;
};

/// One thing to tell the author.
struct Diagnostic {
  const DiagnosticKind* kind = nullptr;  ///< never null in a finished diagnostic
  std::string file;                      ///< as the host names it
  TextSpan where;                        ///< the narrowest stretch concerned, in bytes
  LineColumn begin;                      ///< of `where`
  LineColumn end;                        ///< one past the last character of `where`
  std::string message;                   ///< what was seen, in the author's notation
  std::string detail;                    ///< stable id of the rule or fault behind it, or empty
  std::string truth;                     ///< of a false claim: what is true instead
  std::string proof;                     ///< of a false claim: why
  std::vector<Label> labels;             ///< other places concerned, in the same file
  std::vector<std::string> hints;
  std::optional<Fix> fix;
};

/// How a diagnostic is laid out.
struct RenderOptions {
  int width = 100;      ///< columns; at least 40 are used
  bool colour = false;  ///< with the colour sequences of ECMA-48
};

/// A diagnostic as text for a terminal: file:line:column, the line with the place underlined, what
/// is true, the proof, hints, and the corrected line. Ends with a line break. Control characters of
/// the source never reach the result.
/// Precondition: `source` is the text that the diagnostic is about.
std::string render(const Diagnostic& diagnostic, const SourceText& source,
                   const RenderOptions& options = {});

/// A diagnostic as JSON: id, severity, cause, file, line, column, end_line, end_column, message,
/// and, where they are set, detail, truth, proof, labels, hints, fix.
nlohmann::ordered_json to_json(const Diagnostic& diagnostic, const SourceText& source);

/// The name of a cause in JSON: "claim-input".
std::string_view name(Cause cause);
std::string_view name(Severity severity);

}  // namespace pointwright::lesson
