#include "storyboard/json.hpp"

#include <gtest/gtest.h>

namespace pointwright {
namespace {

TEST(StoryboardJson, RefusesWhatIsNotJson) {
  EXPECT_FALSE(storyboard_from_json("{").ok());
}

}  // namespace
}  // namespace pointwright
