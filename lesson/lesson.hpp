#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "lesson/diagnostic.hpp"
#include "lesson/help.hpp"
#include "lesson/source.hpp"
#include "rules/result.hpp"
#include "storyboard/storyboard.hpp"

/// The lesson compiler: text of a course -> blocks -> checked lesson -> storyboard. It touches no
/// file and prints nothing; the command line and a browser hand it texts through a Host.
namespace pointwright::lesson {

/// Why a host has no text for a name: "there is no such file".
struct ReadFailure {
  std::string reason;
};

/// What the compiler needs from the world outside.
struct Host {
  /// The bytes of a file of the course folder. The compiler asks for plain names only: no
  /// directories, no "..", no absolute path.
  std::function<Result<std::string, ReadFailure>(const std::string& name)> read;
  /// What makes the checking of claims quicker.
  Help help{};
};

/// How far the checking of claims, or of the right answers of questions, came.
struct Tally {
  int written = 0;
  int proved = 0;
  int refuted = 0;
  [[nodiscard]] int unchecked() const { return written - proved - refuted; }
};

/// The answer of a check as a whole.
enum class Outcome {
  proved,       ///< everything was understood and every claim is true
  false_claim,  ///< everything was understood and something is false
  bad_input,    ///< something could not be read; claims that depend on it are unchecked
};

struct Compilation {
  /// What was understood. Outputs are made from it only if `outcome() == Outcome::proved`.
  Storyboard storyboard;
  /// For each chapter of the storyboard the lines, from 1, on which its parts begin.
  std::vector<std::vector<int>> part_lines;
  std::vector<Diagnostic> diagnostics;  ///< by cause, then in the order of the course
  std::vector<SourceText> sources;      ///< every text that was read
  Tally claims;
  Tally answers;  ///< right answers of questions

  [[nodiscard]] Outcome outcome() const;
  /// The text that a diagnostic is about. Precondition: it comes from this compilation.
  [[nodiscard]] const SourceText& source_of(const Diagnostic& diagnostic) const;
};

/// Compiles a course: reads `course_file` and each chapter that it lists.
Compilation compile_course(const Host& host, const std::string& course_file = "course.yaml");

/// Compiles a single lesson file as a course of one chapter.
Compilation compile_lesson(const Host& host, const std::string& lesson_file);

/// The largest file that is read.
inline constexpr std::size_t largest_file = std::size_t{256} * 1024;
/// The most lines of a fenced block, and of all fenced blocks of a chapter, that are read.
inline constexpr std::size_t most_block_lines = 500;
inline constexpr std::size_t most_chapter_lines = 3000;
/// The most lines of a file, and bars `|` on one line, that are read: they bound the size of
/// tables.
inline constexpr int most_lines = 10'000;
inline constexpr std::ptrdiff_t most_bars = 40;
/// The most questions of a chapter that are read.
inline constexpr std::size_t most_questions = 100;
/// The largest number of chapters in a course.
inline constexpr std::size_t most_chapters = 200;

}  // namespace pointwright::lesson
