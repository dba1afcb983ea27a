#pragma once

#include "lesson/front_matter.hpp"
#include "lesson/lesson.hpp"
#include "lesson/report.hpp"

namespace pointwright::lesson {

/// Compiles one lesson file: blocks -> checked lesson -> chapter of the storyboard.
/// `sides` are the course's names for the sides, used if the file gives none.
/// `part_lines` becomes the lines on which its parts begin.
Chapter compile_chapter(const SideNames& sides, Tally& claims, Tally& answers, const Help& help,
                        Report& report, std::vector<int>& part_lines);

}  // namespace pointwright::lesson
