// What the page sees of the WebAssembly module: a place to write a question, and the answer to it.
#if defined(__wasm__)

#include <string>

#include "web/engine.hpp"

namespace {
std::string question_text;  // NOLINT(*-avoid-non-const-global-variables): the module is one page's
std::string answer_text;    // NOLINT(*-avoid-non-const-global-variables)
}  // namespace

/// Where a question of so many bytes is to be written.
extern "C" __attribute__((export_name("question"))) char* question(std::size_t size) {
  question_text.resize(size);
  return question_text.data();
}

/// Answers it. Returns the size of the answer, which begins at `answer_at`.
extern "C" __attribute__((export_name("answer"))) std::size_t answer() {
  answer_text = pointwright::web::answer(question_text);
  return answer_text.size();
}

extern "C" __attribute__((export_name("answer_at"))) const char* answer_at() {
  return answer_text.data();
}

#endif
