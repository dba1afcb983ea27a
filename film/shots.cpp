#include "film/shots.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "studio/html.hpp"
#include "studio/telling.hpp"
#include "studio/wording.hpp"

namespace pointwright::film {

namespace {

constexpr Milliseconds checker_time{800};
constexpr Milliseconds hit_time{550};
constexpr Milliseconds dice_time{900};
constexpr Milliseconds cube_time{900};
// The longest that a duration asked for may be; the lesson compiler allows less.
constexpr double longest_seconds = 3600;

std::string first_reason(const Faults& faults) {
  return faults.empty() ? "it cannot be read" : faults.front().reason;
}

Milliseconds beat_length(const Step& step, const Beat& beat, const Pace& pace) {
  if (step.seconds) {
    const double seconds = std::clamp(*step.seconds, 0.0, longest_seconds);
    return Milliseconds{std::llround(seconds * 1000)};
  }
  const Milliseconds busy = std::max(beat.speech, beat.motion);
  return busy.count() == 0 ? pace.silent_look : busy + pace.breath;
}

// Puts shots together from the scenes of one chapter after another.
class Lister {
 public:
  Lister(const Storyboard& storyboard, const Pace& pace) : storyboard_(storyboard), pace_(pace) {}

  std::optional<PageFault> scene(std::size_t chapter_at, const Scene& scene) {
    const Chapter& chapter = storyboard_.chapters[chapter_at];
    const std::string where = fmt::format("chapter {}, board {}", chapter.id, scene.id);
    const auto start = read_position(scene.position);
    if (!start) {
      return PageFault{where, first_reason(start.error())};
    }
    BoardPicture opening;
    opening.view = scene.view;
    opening.names = chapter.names;
    opening.arrows = scene.arrows;
    opening.marks = scene.marks;
    begin(chapter_at, scene, *start, opening, true);
    Telling telling(*start);
    int number = 0;
    for (const Step& step : scene.steps) {
      ++number;
      const auto after = read_position(step.position);
      if (!after) {
        return PageFault{fmt::format("{}, step {}", where, number), first_reason(after.error())};
      }
      const Position before = telling.position();
      const BoardPicture picture = telling.next(scene.view, chapter.names, step, *after);
      if (step.kind == Step::Kind::place && after->board != before.board) {
        finish();
        BoardPicture anew = picture;
        anew.marks.clear();
        anew.arrows.clear();
        begin(chapter_at, scene, *after, anew, false);
      }
      add(step, before, *after, picture);
    }
    finish();
    return std::nullopt;
  }

  std::vector<Shot> take() { return std::move(shots_); }

 private:
  void begin(std::size_t chapter_at, const Scene& scene, const Position& start,
             const BoardPicture& opening, bool opens_scene) {
    Shot& shot = shots_.emplace_back();
    shot.number = static_cast<int>(shots_.size());
    shot.chapter_at = chapter_at;
    shot.chapter = &storyboard_.chapters[chapter_at];
    shot.scene = &scene;
    shot.opens_scene = opens_scene;
    shot.start = start;
    shot.opening = opening;
    shot.length = pace_.lead;
    const std::string base = html_id(shot.chapter->id) + "--" + html_id(scene.id);
    shot.id = base;
    for (int again = 2; !ids_.insert(shot.id).second; ++again) {
      shot.id = fmt::format("{}-{}", base, again);
    }
  }

  void add(const Step& step, const Position& before, const Position& after,
           const BoardPicture& picture) {
    Shot& shot = shots_.back();
    Beat beat;
    beat.step = &step;
    beat.before = before;
    beat.after = after;
    beat.picture = picture;
    beat.hands = action_words(step, before, after, shot.chapter->names);
    if (step.kind == Step::Kind::attempt) {
      beat.hands += " is tried, and refused";
    }
    beat.begin = shot.length;
    beat.speech = speaking_time(step.words, pace_);
    beat.motion = motion_time(step, before, after);
    beat.length = beat_length(step, beat, pace_);
    beat.speech = std::min(beat.speech, beat.length);
    beat.motion = std::min(beat.motion, beat.length);
    shot.length = beat.end();
    shot.beats.push_back(std::move(beat));
  }

  void finish() {
    Shot& shot = shots_.back();
    shot.length = shot.beats.empty() ? pace_.still : shot.length + pace_.tail;
  }

  const Storyboard& storyboard_;
  const Pace& pace_;
  std::vector<Shot> shots_;
  std::set<std::string> ids_;
};

}  // namespace

std::string Shot::title() const {
  if (opens_scene && !scene->caption.empty()) {
    return scene->caption;
  }
  return position_title(start, chapter->names);
}

Milliseconds motion_time(const Step& step, const Position& before, const Position& after) {
  switch (step.kind) {
    case Step::Kind::move: {
      long moved = 0;
      long hit = 0;
      for (const Side side : {Side::light, Side::dark}) {
        moved += std::ranges::count(step.arrows, side, &Arrow::side);
        hit +=
            std::max(0, after.board.count(side, bar_place) - before.board.count(side, bar_place));
      }
      return moved * checker_time + hit * hit_time;
    }
    case Step::Kind::attempt:
      return static_cast<long>(step.arrows.size()) * checker_time;
    case Step::Kind::roll:
      return dice_time;
    case Step::Kind::offer:
    case Step::Kind::take:
      return cube_time;
    case Step::Kind::say:
    case Step::Kind::drop:
    case Step::Kind::place:
      break;
  }
  return Milliseconds{0};
}

Result<std::vector<Shot>, PageFault> shots_of(const Storyboard& storyboard, const Pace& pace) {
  Lister lister(storyboard, pace);
  for (std::size_t at = 0; at < storyboard.chapters.size(); ++at) {
    for (const Part& part : storyboard.chapters[at].parts) {
      if (!part.scene) {
        continue;
      }
      if (auto fault = lister.scene(at, *part.scene)) {
        return std::move(*fault);
      }
    }
  }
  return lister.take();
}

Milliseconds running_time(const std::vector<Shot>& shots) {
  Milliseconds time{0};
  for (const Shot& shot : shots) {
    time += shot.length;
  }
  return time;
}

std::string clock_text(Milliseconds time) {
  const long seconds = static_cast<long>((time.count() + 500) / 1000);
  const long minutes = seconds / 60;
  if (minutes < 60) {
    return fmt::format("{}:{:02}", minutes, seconds % 60);
  }
  return fmt::format("{}:{:02}:{:02}", minutes / 60, minutes % 60, seconds % 60);
}

}  // namespace pointwright::film
