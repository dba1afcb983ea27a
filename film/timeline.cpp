#include "film/timeline.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "film/captions.hpp"
#include "film/shot_list.hpp"

namespace pointwright::film {

namespace {

using Json = nlohmann::ordered_json;

Json time(long frames, int fps) {
  return {{"OTIO_SCHEMA", "RationalTime.1"},
          {"rate", static_cast<double>(fps)},
          {"value", static_cast<double>(frames)}};
}

Json range(long start, long frames, int fps) {
  return {{"OTIO_SCHEMA", "TimeRange.1"},
          {"duration", time(frames, fps)},
          {"start_time", time(start, fps)}};
}

Json marker(const std::string& name, const char* colour, long start, long frames, int fps) {
  return {{"OTIO_SCHEMA", "Marker.2"},
          {"metadata", Json::object()},
          {"name", name},
          {"color", colour},
          {"marked_range", range(start, frames, fps)}};
}

Json clip(const Shot& shot, int fps, std::string_view folder, std::string_view ending) {
  const long frames = std::max(1L, frame_at(shot.length, fps));
  Json markers = Json::array();
  for (const Cue& cue : captions(shot)) {
    std::string words;
    for (const std::string& line : cue.lines) {
      words += (words.empty() ? "" : " ") + line;
    }
    const long start = frame_at(cue.begin, fps);
    markers.push_back(
        marker(words, "GREEN", start, std::max(1L, frame_at(cue.end, fps) - start), fps));
  }
  std::string address(folder);
  address += "/" + shot.id;
  address += ending;
  return {{"OTIO_SCHEMA", "Clip.1"},
          {"metadata",
           {{"pointwright",
             {{"shot", shot.number},
              {"title", shot.title()},
              {"words", words(shot)},
              {"position", on_the_table(shot)}}}}},
          {"name", shot.id},
          {"source_range", range(0, frames, fps)},
          {"effects", Json::array()},
          {"markers", std::move(markers)},
          {"media_reference",
           {{"OTIO_SCHEMA", "ExternalReference.1"},
            {"metadata", Json::object()},
            {"name", shot.id},
            {"available_range", range(0, frames, fps)},
            {"target_url", address}}}};
}

}  // namespace

std::string timeline_otio(const std::string& title, const std::vector<Shot>& shots, int fps,
                          std::string_view folder, std::string_view ending) {
  Json clips = Json::array();
  Json chapters = Json::array();
  long at = 0;
  const Chapter* chapter = nullptr;
  for (const Shot& shot : shots) {
    if (shot.chapter != chapter) {
      chapter = shot.chapter;
      chapters.push_back(marker(chapter->title, "BLUE", at, 1, fps));
    }
    clips.push_back(clip(shot, fps, folder, ending));
    at += std::max(1L, frame_at(shot.length, fps));
  }
  const auto composition = [](const char* schema, const std::string& name, Json children,
                              Json markers) {
    return Json{{"OTIO_SCHEMA", schema},
                {"metadata", Json::object()},
                {"name", name},
                {"source_range", nullptr},
                {"effects", Json::array()},
                {"markers", std::move(markers)},
                {"children", std::move(children)}};
  };
  Json track = composition("Track.1", "Shots", std::move(clips), Json::array());
  track["kind"] = "Video";
  Json tracks = Json::array();
  tracks.push_back(std::move(track));
  const Json timeline{
      {"OTIO_SCHEMA", "Timeline.1"},
      {"metadata", Json::object()},
      {"name", title},
      {"global_start_time", nullptr},
      {"tracks", composition("Stack.1", "tracks", std::move(tracks), std::move(chapters))}};
  constexpr int indent = 2;
  return timeline.dump(indent, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace pointwright::film
