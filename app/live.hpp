#pragma once

#include "studio/page.hpp"

namespace pointwright::app {

/// What the pages that the program writes carry, so that they can be played on: built from web/.
LiveParts course_parts();
LiveParts table_parts();
LiveParts bench_parts();

}  // namespace pointwright::app
