#include <fmt/format.h>

#include <algorithm>

#include "lesson/chapter.hpp"
#include "lesson/lesson.hpp"

namespace pointwright::lesson {
namespace {

/// Compiles one course, keeping each text for as long as the reports refer to it.
class Compiler {
 public:
  explicit Compiler(const Host& host) : host_(host) {}

  Compilation course(const std::string& file) {
    const auto text = host_.read(file);
    const SourceText source(file, text ? *text : "");
    Report report(source);
    Course course;
    if (check_text(text, report)) course = read_course(report);
    Storyboard& storyboard = result_.storyboard;
    storyboard.title = course.title;
    storyboard.summary = course.summary;
    storyboard.author = course.author;
    storyboard.language = course.language;
    for (const ChapterEntry& entry : course.chapters) {
      const auto chapter = host_.read(entry.file);
      if (!chapter) {
        report
            .add(kinds::cannot_read, entry.where,
                 fmt::format("the chapter `{}` cannot be read: {}", entry.file,
                             chapter.error().reason))
            .hints.emplace_back("chapters stand in the same folder as course.yaml");
        continue;
      }
      add_chapter(entry.file, chapter, course.sides.value_or(SideNames{}));
    }
    keep(source, report, 0);
    return finish();
  }

  Compilation lesson(const std::string& file) {
    add_chapter(file, host_.read(file), SideNames{});
    if (!result_.storyboard.chapters.empty()) {
      result_.storyboard.title = result_.storyboard.chapters.front().title;
      result_.storyboard.summary = result_.storyboard.chapters.front().summary;
    }
    return finish();
  }

 private:
  using Text = Result<std::string, ReadFailure>;

  /// Whether a file's text can be compiled.
  static bool check_text(const Text& text, Report& report) {
    if (!text) {
      report.add(kinds::cannot_read, {0, 0},
                 fmt::format("the file cannot be read: {}", text.error().reason));
      return false;
    }
    if (text->size() > largest_file) {
      report.add(
          kinds::file_too_large, {0, 0},
          fmt::format("the file has {} bytes; at most {} are read", text->size(), largest_file));
      return false;
    }
    const std::size_t invalid = std::min(find_invalid_utf8(*text), text->find('\0'));
    if (invalid == std::string::npos) return true;
    report.add(kinds::not_utf8, {invalid, invalid + 1}, "this byte is not part of UTF-8 text")
        .hints.emplace_back("save the file as UTF-8");
    return false;
  }

  void add_chapter(const std::string& file, const Text& text, const SideNames& sides) {
    std::string content = text ? *text : "";
    if (content.starts_with("\xEF\xBB\xBF")) content.erase(0, 3);  // a byte order mark
    const SourceText source(file, std::move(content));
    Report report(source);
    if (check_text(text, report)) {
      result_.storyboard.chapters.push_back(compile_chapter(sides, result_.claims, result_.answers,
                                                            host_.help, report,
                                                            result_.part_lines.emplace_back()));
    }
    keep(source, report, result_.sources.size() + 1);
  }

  /// Keeps what was found in a file; `order` is its place in the course.
  void keep(const SourceText& source, Report& report, std::size_t order) {
    for (Diagnostic& diagnostic : report.take()) found_.push_back({order, std::move(diagnostic)});
    result_.sources.push_back(source);
  }

  Compilation finish() {
    std::ranges::stable_sort(found_, [](const Found& a, const Found& b) {
      if (a.diagnostic.kind->cause != b.diagnostic.kind->cause)
        return a.diagnostic.kind->cause < b.diagnostic.kind->cause;
      if (a.order != b.order) return a.order < b.order;
      return a.diagnostic.where.begin < b.diagnostic.where.begin;
    });
    for (Found& found : found_) result_.diagnostics.push_back(std::move(found.diagnostic));
    return std::move(result_);
  }

  struct Found {
    std::size_t order;
    Diagnostic diagnostic;
  };

  const Host& host_;
  Compilation result_;
  std::vector<Found> found_;
};

}  // namespace

Outcome Compilation::outcome() const {
  Outcome outcome = Outcome::proved;
  for (const Diagnostic& diagnostic : diagnostics) {
    if (diagnostic.kind->severity == Severity::warning) continue;
    if (diagnostic.kind->cause != Cause::untrue) return Outcome::bad_input;
    outcome = Outcome::false_claim;
  }
  return outcome;
}

const SourceText& Compilation::source_of(const Diagnostic& diagnostic) const {
  return *std::ranges::find_if(
      sources, [&](const SourceText& source) { return source.name() == diagnostic.file; });
}

Compilation compile_course(const Host& host, const std::string& course_file) {
  return Compiler(host).course(course_file);
}

Compilation compile_lesson(const Host& host, const std::string& lesson_file) {
  return Compiler(host).lesson(lesson_file);
}

}  // namespace pointwright::lesson
