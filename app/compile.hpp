#pragma once

#include <filesystem>
#include <string>

#include "app/failure.hpp"
#include "app/json.hpp"
#include "lesson/lesson.hpp"
#include "rules/result.hpp"

/// What `check` and `build` share: a lesson or a course from disk, and what was found in it.
namespace pointwright::app {

/// A compilation and the folder whose files it read.
struct Compiled : lesson::Compilation {
  std::filesystem::path folder;
};

/// Which files may be read: those to which a name in the folder leads, or only those in it.
enum class Reach { anywhere, folder };

/// Compiles a lesson file, a course folder, or a course by its course.yaml. Whatever is wrong
/// inside is in the compilation; the failure is that there is nothing of that name.
/// What was searched for claims is remembered in the user's cache: see app/claim_memory.hpp. Long
/// claims are shared by the threads, as many as there are processors; the answers do not depend on
/// them.
Result<Compiled, Failure> compile(const std::filesystem::path& source,
                                  Reach reach = Reach::anywhere);

/// The same with another memory and so many threads.
Result<Compiled, Failure> compile(const std::filesystem::path& source, lesson::Memo& memo,
                                  unsigned threads, Reach reach = Reach::anywhere);

/// The name of a course: that of its folder, or of the lesson file.
std::string course_name(const std::filesystem::path& source);

/// Prints every diagnostic to `io.err`, with its file's path from the current folder.
void print_diagnostics(const Compiled& compiled, Io& io);

/// {"outcome", "chapters", "claims": {"written", "proved", "refuted", "unchecked"}, "answers": {…},
/// "diagnostics": […]}.
Json compilation_object(const Compiled& compiled);

/// "12 chapters: 134 claims and 20 answers proved", or how many are not.
std::string summary(const lesson::Compilation& compilation);

/// What the outcome means to the shell.
int exit_of(const lesson::Compilation& compilation);

}  // namespace pointwright::app
