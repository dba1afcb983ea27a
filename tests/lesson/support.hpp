#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "lesson/lesson.hpp"

/// What the tests of the lesson room share.
namespace pointwright::lesson::testing {

/// The folder of documents that are tests.
std::filesystem::path cases_folder();

/// The demo course.
std::filesystem::path demo_folder();

/// The bytes of a file. Fails the test if there are none.
std::string contents(const std::filesystem::path& path);

/// A host that reads the files of one folder.
Host folder_host(const std::filesystem::path& folder);

/// A host that holds its files.
Host memory_host(std::map<std::string, std::string> files);

/// Compiles one lesson that is given as text.
Compilation compile_text(const std::string& lesson);

/// Compiles a lesson about one board: a board block and one of claims.
Compilation compile_claims(std::string_view board, std::string_view claims);

/// Every diagnostic as text, and how many claims were written, proved and refuted.
std::string told(const Compilation& compilation);

/// The ids of a compilation's diagnostics, in order.
std::vector<std::string> ids(const Compilation& compilation);

/// The lesson files among the documents, and the folders that are courses.
std::vector<std::filesystem::path> lesson_cases();
std::vector<std::filesystem::path> course_cases();

/// A document without the block of what is expected of it, and that block's lines.
struct Document {
  std::string lesson;
  std::string expected;
};
Document document(const std::filesystem::path& path);

}  // namespace pointwright::lesson::testing
