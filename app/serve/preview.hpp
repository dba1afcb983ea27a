#pragma once

#include "app/compile.hpp"
#include "serve/page_board.hpp"

namespace pointwright::app {

/// The page of a lesson as far as it was understood, with everything that was found wrong at its
/// place. Equal lessons give equal versions. What cannot stand in a page is left out of it.
serve::ShownPage preview_page(const Compiled& compiled);

/// The page that says why there is no lesson.
serve::ShownPage preview_page(const Failure& failure);

}  // namespace pointwright::app
