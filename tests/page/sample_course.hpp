#pragma once

#include "storyboard/storyboard.hpp"

namespace pointwright {

/// A small course with one of everything that a page can show.
Storyboard sample_course();

}  // namespace pointwright
