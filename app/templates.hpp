#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/files.hpp"

/// What `new` starts from. Every template is a lesson that passes `check` as it stands.
namespace pointwright::app {

/// A lesson file with that title.
std::string lesson_template(std::string_view title);

/// The files of a course folder with that title: course.yaml and two chapters.
std::vector<FileText> course_template(std::string_view title);

}  // namespace pointwright::app
