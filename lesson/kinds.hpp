#pragma once

#include "lesson/diagnostic.hpp"

/// Every kind of diagnostic, once. `diagnostic_kinds()` lists them; a test fails when one of them
/// is never produced by the documents in tests/lesson/cases.
namespace pointwright::lesson::kinds {

using Kind = DiagnosticKind;
using enum Severity;
using enum Cause;

// The course and its files.
inline constexpr Kind cannot_read{"cannot-read", error, course, "A file has no text to read."};
inline constexpr Kind file_too_large{"file-too-large", error, course,
                                     "A file is larger than a lesson can be."};
inline constexpr Kind chapter_name{"chapter-name", error, course,
                                   "A chapter is not a plain file name inside the course folder."};
inline constexpr Kind duplicate_chapter{"duplicate-chapter", error, course,
                                        "Two chapters would share one name."};
inline constexpr Kind chapter_count{"chapter-count", error, course,
                                    "A course lists no chapters, or too many."};

// The file as a whole.
inline constexpr Kind not_utf8{"not-utf8", error, text, "The text is not UTF-8."};
inline constexpr Kind no_front_matter{"no-front-matter", error, text,
                                      "A lesson does not begin with its front matter."};
inline constexpr Kind bad_yaml{"bad-yaml", error, text, "Front matter or course.yaml is not YAML."};
inline constexpr Kind unknown_key{"unknown-key", error, text, "A key has no meaning here."};
inline constexpr Kind duplicate_key{"duplicate-key", error, text, "A key is written twice."};
inline constexpr Kind missing_key{"missing-key", error, text, "A key that is required is missing."};
inline constexpr Kind bad_value{"bad-value", error, text, "A key's value cannot be used."};
inline constexpr Kind unknown_block{"unknown-block", error, text,
                                    "A fenced block's name is close to one that has a meaning."};
inline constexpr Kind unclosed_block{"unclosed-block", error, text, "A fenced block never ends."};
inline constexpr Kind nested_block{"nested-block", error, text,
                                   "A board, show, claims or question stands inside a list or a "
                                   "quotation."};
inline constexpr Kind bad_info{"bad-info", error, text,
                               "The words after a block's name cannot be read."};
inline constexpr Kind empty_block{"empty-block", error, text, "A block has nothing in it."};
inline constexpr Kind bad_line{"bad-line", error, text, "A line of a block is not `key: value`."};
inline constexpr Kind duplicate_name{"duplicate-name", error, text,
                                     "Two boards or two questions of a chapter share a name."};
inline constexpr Kind unknown_board{"unknown-board", error, text, "No board has that name."};
inline constexpr Kind no_board{"no-board", error, text,
                               "A show, claims or question needs a board and none stands above."};
inline constexpr Kind too_deep{"too-deep", error, text, "Lists or emphasis nest too deeply."};
inline constexpr Kind too_long{"too-long", error, text,
                               "A block or a chapter holds more lines than are read."};
inline constexpr Kind more_problems{"more-problems", error, text,
                                    "A file has more problems than are listed."};

// Boards.
inline constexpr Kind bad_position{"bad-position", error, board, "A position cannot stand."};
inline constexpr Kind bad_mark{"bad-mark", error, board, "A mark or an arrow cannot be read."};

// Shows.
inline constexpr Kind bad_step{"bad-step", error, show, "A line of a show cannot be read."};
inline constexpr Kind bad_words{"bad-words", error, show,
                                "The spoken words of a step are missing or not closed."};
inline constexpr Kind bad_play{"bad-play", error, show, "A play cannot be read."};

// Questions.
inline constexpr Kind bad_question{"bad-question", error, question,
                                   "A question does not say how it is answered."};

// Claims that cannot be checked.
inline constexpr Kind unknown_claim{"unknown-claim", error, claim_input,
                                    "A claim begins with no known word."};
inline constexpr Kind bad_claim{"bad-claim", error, claim_input, "A claim cannot be read."};
inline constexpr Kind unknown_rule{"unknown-rule", error, claim_input, "No rule has that id."};
inline constexpr Kind claim_needs{"claim-needs", error, claim_input,
                                  "A claim asks what its board cannot answer."};

inline constexpr Kind not_settled{"not-settled", error, claim_input,
                                  "The search cannot tell whether a claim is true."};

// What was understood and is false.
inline constexpr Kind false_claim{"false-claim", error, Cause::untrue, "A claim is false."};
inline constexpr Kind false_answer{"false-answer", error, Cause::untrue,
                                   "An answer that a question calls right is not."};
inline constexpr Kind step_refused{"step-refused", error, Cause::untrue,
                                   "A step of a show is against the rules."};
inline constexpr Kind try_allowed{"try-allowed", error, Cause::untrue,
                                  "A show tries a play that the referee allows."};

// Advice.
inline constexpr Kind raw_html{"raw-html", warning, advice, "HTML is shown as text."};
inline constexpr Kind bad_link{"bad-link", warning, advice,
                               "A link leads neither to the web, nor to mail, nor to a file beside "
                               "the page; its words are shown without it."};
inline constexpr Kind image{"image", warning, advice,
                            "A picture is replaced by the words that describe it."};

}  // namespace pointwright::lesson::kinds
