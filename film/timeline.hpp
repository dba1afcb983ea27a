#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "film/shots.hpp"

namespace pointwright::film {

/// The shots in order, each as a clip with its captions as markers, and the chapters as markers of
/// the whole, in the JSON form of OpenTimelineIO (schemas Timeline.1, Stack.1, Track.1, Clip.1,
/// ExternalReference.1, Marker.2, TimeRange.1 and RationalTime.1 of the Academy Software
/// Foundation's published format; from memory).
///
/// `folder` and `ending` make the addresses of the clips' files, relative to the timeline's own:
/// FOLDER/SHOT.ENDING. A clip has as many frames as `build` gives it. Precondition: fps > 0.
std::string timeline_otio(const std::string& title, const std::vector<Shot>& shots, int fps,
                          std::string_view folder, std::string_view ending);

}  // namespace pointwright::film
