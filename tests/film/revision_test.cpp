#include "film/revision.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <random>
#include <set>

#include "film/differences.hpp"
#include "storyboard/json.hpp"
#include "tests/page/sample_course.hpp"

namespace pointwright::film {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using What = RevisionItem::What;
using Texts = std::vector<std::string>;

TEST(Differences, ShowsVersionsOfOneTextTogether) {
  EXPECT_THAT(differences({"one", "two"}, {"one", "two"}), IsEmpty());
  EXPECT_THAT(differences({"one", "two"}, {"one", "and a half", "two"}),
              ElementsAre(Difference{"", "and a half"}));
  EXPECT_THAT(differences({"one", "two"}, {"two"}), ElementsAre(Difference{"one", ""}));
  EXPECT_THAT(differences({"one", "two"}, {"three"}),
              ElementsAre(Difference{"one", "three"}, Difference{"two", ""}));
  // A new text before one that was reworded: the reworded one stays together.
  EXPECT_THAT(differences({"The dice lie flat."}, {"Shake well.", "The dice lie flat now."}),
              ElementsAre(Difference{"", "Shake well."},
                          Difference{"The dice lie flat.", "The dice lie flat now."}));
}

/// What is left of a list when texts are taken from it in order; nothing if one is not there.
std::optional<Texts> without(Texts list, const Texts& taken) {
  auto at = list.begin();
  for (const std::string& text : taken) {
    at = std::find(at, list.end(), text);
    if (at == list.end()) return std::nullopt;
    at = list.erase(at);
  }
  return list;
}

TEST(Differences, WhatIsLeftOfBothListsIsTheSame) {
  std::mt19937 random(6);
  const auto any = [&](int below) {
    return static_cast<int>(random() % static_cast<unsigned>(below));
  };
  for (int round = 0; round < 3000; ++round) {
    const auto list = [&] {
      Texts texts;
      for (int n = any(7); n > 0; --n)
        texts.push_back(std::string(1, static_cast<char>('a' + any(4))));
      return texts;
    };
    const Texts before = list();
    const Texts after = list();
    Texts gone;
    Texts added;
    for (const Difference& pair : differences(before, after)) {
      if (!pair.before.empty()) gone.push_back(pair.before);
      if (!pair.after.empty()) added.push_back(pair.after);
      EXPECT_NE(pair.before, pair.after);
    }
    // Some choice of equal letters leaves equal rests: compare as multisets and by length.
    auto rest_before = without(before, gone);
    auto rest_after = without(after, added);
    ASSERT_TRUE(rest_before && rest_after);
    ASSERT_EQ(rest_before->size(), rest_after->size());
    std::sort(rest_before->begin(), rest_before->end());
    std::sort(rest_after->begin(), rest_after->end());
    ASSERT_EQ(*rest_before, *rest_after);
  }
}

Scene& first_show(Storyboard& course) {
  for (Chapter& chapter : course.chapters) {
    for (Part& part : chapter.parts) {
      if (part.scene && !part.scene->steps.empty()) return *part.scene;
    }
  }
  return *course.chapters.front().parts.front().scene;
}

TEST(Revision, NothingChangedIsNothing) {
  const Storyboard course = sample_course();
  EXPECT_THAT(compare(course, course), IsEmpty());
  EXPECT_EQ(pinned_note(course, {}), "");
}

TEST(Revision, WhereTheLessonStandsInItsFileDoesNotMatter) {
  Storyboard moved = sample_course();
  first_show(moved).source.line += 10;
  for (Step& step : first_show(moved).steps) step.source.line += 10;
  EXPECT_THAT(compare(sample_course(), moved), IsEmpty());
}

/// Whether a member says something of an object of that kind: only a heading has a level.
bool says_something(const nlohmann::json& object, const std::string& member) {
  static const std::map<std::string, std::set<std::string>> belongs{
      {"level", {"heading"}},         {"href", {"link"}},
      {"text", {"text", "code"}},     {"depth", {"searched"}},
      {"standardError", {"sampled"}}, {"number", {"number"}},
      {"tolerance", {"number"}}};
  if (member == "source" || member == "version") return false;
  // Of a claim, the text begins with the kind.
  if (object.contains("statement")) return member != "kind";
  const auto found = belongs.find(member);
  return found == belongs.end() || !object.contains("kind") ||
         found->second.contains(object["kind"].get<std::string>());
}

/// Changes each value of a storyboard in turn and calls `changed` with the result, where the result
/// is still a storyboard. What says nothing is passed over, and so are places in the lesson's text.
template <class Changed>
void each_change(nlohmann::json& all, nlohmann::json& value, const std::string& where,
                 const Changed& changed) {
  if (value.is_structured()) {
    for (auto item = value.begin(); item != value.end(); ++item) {
      std::string name = "/";
      if (value.is_object()) {
        if (!says_something(value, item.key())) continue;
        name += item.key();
      } else {
        name += std::to_string(item - value.begin());
      }
      each_change(all, *item, where + name, changed);
    }
    return;
  }
  const nlohmann::json kept = value;
  if (value.is_string()) {
    value = value.get<std::string>() + " x";
  } else if (value.is_boolean()) {
    value = !value.get<bool>();
  } else if (value.is_number()) {
    value = value.get<double>() + 1;
    if (kept.is_number_integer()) value = kept.get<int>() + 1;
  } else {
    return;
  }
  if (const auto course = storyboard_from_json(all.dump()); course.ok()) changed(*course, where);
  value = kept;
}

TEST(Revision, EveryChangeIsFound) {
  const Storyboard course = sample_course();
  nlohmann::json json = nlohmann::json::parse(to_json(course));
  int changes = 0;
  each_change(json, json, "", [&](const Storyboard& other, const std::string& where) {
    EXPECT_THAT(compare(course, other), Not(IsEmpty())) << where;
    EXPECT_THAT(compare(other, course), Not(IsEmpty())) << where;
    ++changes;
  });
  EXPECT_GT(changes, 150);
}

TEST(Revision, ChangedWordsAreToldAsWords) {
  Storyboard after = sample_course();
  Step& step = first_show(after).steps[0];
  const std::string before = step.words;
  step.words += " And three more words.";
  const auto changes = compare(sample_course(), after);
  ASSERT_EQ(changes.size(), 1U);
  EXPECT_EQ(changes[0].what, What::words);
  EXPECT_EQ(changes[0].before, before);
  EXPECT_EQ(changes[0].after, step.words);
  EXPECT_THAT(pinned_note(after, changes),
              HasSubstr("The teacher says now: " + step.words + " Before: " + before));
}

TEST(Revision, AStepPutInIsToldAlone) {
  Storyboard after = sample_course();
  auto& steps = first_show(after).steps;
  Step extra = steps[0];
  extra.words = "One more thing.";
  steps.insert(steps.begin() + 1, extra);
  const auto changes = compare(sample_course(), after);
  ASSERT_EQ(changes.size(), 1U);
  EXPECT_EQ(changes[0].what, What::step);
  EXPECT_EQ(changes[0].before, "");
  EXPECT_THAT(changes[0].after, HasSubstr("One more thing."));
}

TEST(Revision, ChaptersComeGoAndMove) {
  const Storyboard course = sample_course();
  Storyboard shorter = course;
  shorter.chapters.erase(shorter.chapters.begin());
  const auto gone = compare(course, shorter);
  ASSERT_EQ(gone.size(), 1U);
  EXPECT_EQ(gone.front().what, What::chapter);
  EXPECT_EQ(gone.front().after, "");
  EXPECT_EQ(compare(shorter, course).front().before, "");
  Storyboard turned = course;
  std::reverse(turned.chapters.begin(), turned.chapters.end());
  ASSERT_GT(turned.chapters.size(), 1U);
  const auto moved = compare(course, turned);
  ASSERT_EQ(moved.size(), 1U);
  EXPECT_EQ(moved.front().what, What::order);
}

TEST(Revision, WhatIsOnlySeenIsNotPinned) {
  Storyboard after = sample_course();
  first_show(after).view.home_on_left = !first_show(after).view.home_on_left;
  const auto changes = compare(sample_course(), after);
  ASSERT_EQ(changes.size(), 1U);
  EXPECT_EQ(changes[0].what, What::look);
  EXPECT_EQ(pinned_note(after, changes), "");
}

}  // namespace
}  // namespace pointwright::film
