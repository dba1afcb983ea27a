#include "lesson/diagnostic.hpp"

#include <array>
#include <nlohmann/json.hpp>

#include "lesson/kinds.hpp"

namespace pointwright::lesson {
namespace {

using namespace kinds;

constexpr std::array all_kinds{
    &cannot_read,   &file_too_large,  &chapter_name,  &duplicate_chapter, &chapter_count,
    &not_utf8,      &no_front_matter, &bad_yaml,      &unknown_key,       &duplicate_key,
    &missing_key,   &bad_value,       &unknown_block, &unclosed_block,    &nested_block,
    &bad_info,      &empty_block,     &bad_line,      &duplicate_name,    &unknown_board,
    &no_board,      &too_deep,        &too_long,      &more_problems,     &bad_position,
    &bad_mark,      &bad_step,        &bad_words,     &bad_play,          &bad_question,
    &unknown_claim, &bad_claim,       &unknown_rule,  &claim_needs,       &false_claim,
    &false_answer,  &step_refused,    &try_allowed,   &raw_html,          &bad_link,
    &image,
};

void locate(nlohmann::ordered_json& json, TextSpan where, const SourceText& source) {
  const LineColumn begin = source.locate(where.begin);
  const LineColumn end = source.locate(where.end);
  json["line"] = begin.line;
  json["column"] = begin.column;
  json["end_line"] = end.line;
  json["end_column"] = end.column;
}

}  // namespace

std::span<const DiagnosticKind* const> diagnostic_kinds() {
  return all_kinds;
}

std::string_view name(Cause cause) {
  static constexpr std::array<std::string_view, 8> names{
      "course", "text", "board", "show", "question", "claim-input", "untrue", "advice"};
  return names[static_cast<std::size_t>(cause)];
}

std::string_view name(Severity severity) {
  return severity == Severity::error ? "error" : "warning";
}

nlohmann::ordered_json to_json(const Diagnostic& diagnostic, const SourceText& source) {
  nlohmann::ordered_json json;
  json["id"] = diagnostic.kind->id;
  json["severity"] = name(diagnostic.kind->severity);
  json["cause"] = name(diagnostic.kind->cause);
  json["file"] = diagnostic.file;
  locate(json, diagnostic.where, source);
  json["message"] = diagnostic.message;
  if (!diagnostic.detail.empty()) json["detail"] = diagnostic.detail;
  if (!diagnostic.truth.empty()) json["truth"] = diagnostic.truth;
  if (!diagnostic.proof.empty()) json["proof"] = diagnostic.proof;
  for (const Label& label : diagnostic.labels) {
    nlohmann::ordered_json item;
    locate(item, label.where, source);
    item["text"] = label.text;
    json["labels"].push_back(std::move(item));
  }
  if (!diagnostic.hints.empty()) json["hints"] = diagnostic.hints;
  if (diagnostic.fix) {
    nlohmann::ordered_json fix;
    locate(fix, diagnostic.fix->where, source);
    fix["replacement"] = diagnostic.fix->replacement;
    json["fix"] = std::move(fix);
  }
  return json;
}

}  // namespace pointwright::lesson
