#pragma once

#include <string>
#include <vector>

#include "film/shots.hpp"

namespace pointwright::film {

/// A course as a presenter's deck: one HTML file that opens from disk and fetches nothing, with its
/// own content security policy. A slide has a big board and one thought: the words of a beat, or a
/// question, or its answer. Notes for the presenter (what the hands do, what was proved, how long
/// it takes) are shown by a key and printed below each slide. Without scripts all slides stand one
/// below another. `shots` are those of `course`. Equal input gives equal bytes.
Result<std::string, PageFault> slides_html(const Storyboard& course,
                                           const std::vector<Shot>& shots);

}  // namespace pointwright::film
