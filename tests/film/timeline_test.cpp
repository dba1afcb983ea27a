#include "film/timeline.hpp"

#include <gtest/gtest.h>

#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "tests/page/sample_course.hpp"

namespace pointwright::film {
namespace {

using Json = nlohmann::json;

/// What a member may hold: the name of a schema, or one of "text", "number", "object", "list".
/// A question mark after it: or null.
using Members = std::map<std::string, std::string>;

/// The members of each kind of object, as OpenTimelineIO's documentation of serialized schemas
/// lists them. No reader of another's making could be had to read the file with.
const std::map<std::string, Members>& schemas() {
  static const Members in_time{{"metadata", "object"},
                               {"name", "text"},
                               {"source_range", "TimeRange.1?"},
                               {"effects", "list"},
                               {"markers", "Marker.2*"}};
  const auto with = [](Members members, const Members& more) {
    members.insert(more.begin(), more.end());
    return members;
  };
  static const std::map<std::string, Members> all{
      {"Timeline.1",
       {{"metadata", "object"},
        {"name", "text"},
        {"global_start_time", "RationalTime.1?"},
        {"tracks", "Stack.1"}}},
      {"Stack.1", with(in_time, {{"children", "Track.1*"}})},
      {"Track.1", with(in_time, {{"children", "Clip.1*"}, {"kind", "text"}})},
      {"Clip.1", with(in_time, {{"media_reference", "ExternalReference.1"}})},
      {"ExternalReference.1",
       {{"metadata", "object"},
        {"name", "text"},
        {"available_range", "TimeRange.1?"},
        {"target_url", "text"}}},
      {"Marker.2",
       {{"metadata", "object"},
        {"name", "text"},
        {"color", "text"},
        {"marked_range", "TimeRange.1"}}},
      {"TimeRange.1", {{"duration", "RationalTime.1"}, {"start_time", "RationalTime.1"}}},
      {"RationalTime.1", {{"rate", "number"}, {"value", "number"}}}};
  return all;
}

void expect_schema(const Json& value, std::string wanted) {
  const char how_many = wanted.back();
  if (how_many == '?' || how_many == '*') wanted.pop_back();
  if (how_many == '?' && value.is_null()) return;
  if (how_many == '*') {
    ASSERT_TRUE(value.is_array());
    for (const Json& child : value) expect_schema(child, wanted);
    return;
  }
  if (wanted == "text") {
    EXPECT_TRUE(value.is_string()) << value;
  } else if (wanted == "number") {
    EXPECT_TRUE(value.is_number_float())
        << value << ": readers take whole numbers for another type";
    EXPECT_GE(value.get<double>(), 0);
  } else if (wanted == "object") {
    EXPECT_TRUE(value.is_object()) << value;
  } else if (wanted == "list") {
    EXPECT_TRUE(value.is_array()) << value;
  } else {
    ASSERT_TRUE(value.is_object()) << value;
    ASSERT_EQ(value.value("OTIO_SCHEMA", ""), wanted);
    const Members& members = schemas().at(wanted);
    EXPECT_EQ(value.size(), members.size() + 1) << wanted;
    for (const auto& [name, kind] : members) {
      ASSERT_TRUE(value.contains(name)) << wanted << " has no " << name;
      expect_schema(value[name], kind);
    }
  }
}

TEST(Timeline, HoldsTheShotsInOrder) {
  const Storyboard course = sample_course();
  const auto shots = shots_of(course);
  for (const int fps : {24, 25, 30, 60}) {
    const Json timeline = Json::parse(timeline_otio("A course", *shots, fps, "clips", ".mp4"));
    expect_schema(timeline, "Timeline.1");
    EXPECT_EQ(timeline["tracks"]["children"][0]["kind"], "Video");
    const Json& clips = timeline["tracks"]["children"][0]["children"];
    ASSERT_EQ(clips.size(), shots->size());
    for (std::size_t i = 0; i < clips.size(); ++i) {
      const Shot& shot = (*shots)[i];
      EXPECT_EQ(clips[i]["media_reference"]["target_url"], "clips/" + shot.id + ".mp4");
      const double frames = clips[i]["source_range"]["duration"]["value"].get<double>();
      EXPECT_EQ(static_cast<long>(frames), frame_at(shot.length, fps));
      EXPECT_EQ(clips[i]["media_reference"]["available_range"], clips[i]["source_range"]);
      for (const Json& marker : clips[i]["markers"]) {
        // The colours that markers may have.
        static const std::set<std::string> colours{"PINK",    "RED",   "ORANGE", "YELLOW",
                                                   "GREEN",   "CYAN",  "BLUE",   "PURPLE",
                                                   "MAGENTA", "BLACK", "WHITE"};
        EXPECT_TRUE(colours.contains(marker["color"].get<std::string>()));
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
