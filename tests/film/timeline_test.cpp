#include "film/timeline.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "tests/page/sample_course.hpp"

namespace pointwright::film {
namespace {

using Json = nlohmann::json;

/// Checks every object of a timeline against what the published schemas say each kind has.
void expect_known(const Json& value) {
  static const std::map<std::string, std::set<std::string>> members{
      {"Timeline.1", {"metadata", "name", "global_start_time", "tracks"}},
      {"Stack.1", {"metadata", "name", "source_range", "effects", "markers", "children"}},
      {"Track.1", {"metadata", "name", "source_range", "effects", "markers", "children", "kind"}},
      {"Clip.1", {"metadata", "name", "source_range", "effects", "markers", "media_reference"}},
      {"ExternalReference.1", {"metadata", "name", "available_range", "target_url"}},
      {"Marker.2", {"metadata", "name", "color", "marked_range"}},
      {"TimeRange.1", {"duration", "start_time"}},
      {"RationalTime.1", {"rate", "value"}}};
  if (value.is_object() && value.contains("OTIO_SCHEMA")) {
    const auto known = members.find(value["OTIO_SCHEMA"].get<std::string>());
    ASSERT_NE(known, members.end()) << value["OTIO_SCHEMA"];
    std::set<std::string> found;
    for (const auto& [name, child] : value.items()) {
      if (name != "OTIO_SCHEMA") found.insert(name);
    }
    EXPECT_EQ(found, known->second) << known->first;
  }
  if (value.is_structured()) {
    for (const Json& child : value) expect_known(child);
  }
}

TEST(Timeline, HoldsTheShotsInOrder) {
  const Storyboard course = sample_course();
  const auto shots = shots_of(course);
  for (const int fps : {24, 25, 30, 60}) {
    const Json timeline = Json::parse(timeline_otio("A course", *shots, fps, "clips", ".mp4"));
    expect_known(timeline);
    const Json& clips = timeline["tracks"]["children"][0]["children"];
    ASSERT_EQ(clips.size(), shots->size());
    for (std::size_t i = 0; i < clips.size(); ++i) {
      const Shot& shot = (*shots)[i];
      EXPECT_EQ(clips[i]["media_reference"]["target_url"], "clips/" + shot.id + ".mp4");
      const double frames = clips[i]["source_range"]["duration"]["value"].get<double>();
      EXPECT_EQ(static_cast<long>(frames), frame_at(shot.length, fps));
      for (const Json& marker : clips[i]["markers"]) {
        const Json& range = marker["marked_range"];
        EXPECT_LE(
            range["start_time"]["value"].get<double>() + range["duration"]["value"].get<double>(),
            frames);
      }
    }
    EXPECT_EQ(timeline["tracks"]["markers"].size(), course.chapters.size());
  }
}

}  // namespace
}  // namespace pointwright::film
