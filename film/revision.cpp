#include "film/revision.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "film/differences.hpp"
#include "film/revision_texts.hpp"

namespace pointwright::film {

namespace {

using What = RevisionItem::What;

template <class Item>
const Item* named(const std::vector<const Item*>& items, const std::string& id) {
  const auto found = std::ranges::find(items, id, &Item::id);
  return found == items.end() ? nullptr : *found;
}

// The parts of a chapter by kind.
struct Parts {
  std::vector<std::string> prose;
  std::vector<const Scene*> scenes;
  std::vector<const Question*> questions;
  std::vector<std::string> order;    // of all of them
  std::vector<std::string> staging;  // of boards and questions

  explicit Parts(const Chapter& chapter) {
    for (const Part& part : chapter.parts) {
      if (part.prose) {
        prose.push_back(text_of(*part.prose));
        order.push_back("text \"" + dressed(part.prose->words) + "\"");
      } else if (part.scene) {
        scenes.push_back(&*part.scene);
        order.push_back("board " + part.scene->id);
        staging.push_back(order.back());
      } else if (part.question) {
        questions.push_back(&*part.question);
        order.push_back("question " + part.question->id);
        staging.push_back(order.back());
      }
    }
  }
};

// What both lists hold, in the order of the first. Equal results: nothing has moved.
std::string kept_order(const std::vector<std::string>& list,
                       const std::vector<std::string>& other) {
  const std::set<std::string> also(other.begin(), other.end());
  std::string text;
  for (const std::string& item : list) {
    if (also.contains(item)) {
      text += (text.empty() ? "" : ", ") + item;
    }
  }
  return text;
}

std::vector<std::string> texts_of(const std::vector<ProvedClaim>& claims) {
  std::vector<std::string> texts;
  for (const ProvedClaim& claim : claims) {
    texts.push_back(text_of(claim));
  }
  return texts;
}

// The words of a step between quotation marks, after what it does: see `text_of(const Step&)`.
class Steps {
 public:
  explicit Steps(const Scene& scene, bool with_positions) {
    for (const Step& step : scene.steps) {
      std::string text = action_of(step);
      if (!step.words.empty()) {
        text += (text.empty() ? "\"" : " \"") + step.words + "\"";
      }
      texts.push_back(with_positions || text.empty() ? text_of(step) : text);
      words_of_[texts.back()] = {action_of(step), step.words};
    }
  }

  struct Parts {
    std::string action;
    std::string words;
  };
  [[nodiscard]] const Parts* parts(const std::string& text) const {
    const auto found = words_of_.find(text);
    return found == words_of_.end() ? nullptr : &found->second;
  }

  std::vector<std::string> texts;

 private:
  std::map<std::string, Parts> words_of_;
};

class Comparison {
 public:
  void courses(const Storyboard& before, const Storyboard& after) {
    lists(What::course, {}, head_of(before), head_of(after));
    std::vector<std::string> old_order;
    std::vector<std::string> new_order;
    std::vector<const Chapter*> old_chapters;
    for (const Chapter& chapter : before.chapters) {
      old_chapters.push_back(&chapter);
      old_order.push_back(chapter.id);
    }
    for (const Chapter& chapter : after.chapters) {
      new_order.push_back(chapter.id);
    }
    note(What::order, {}, kept_order(old_order, new_order), kept_order(new_order, old_order));
    for (const Chapter& chapter : before.chapters) {
      if (std::ranges::find(new_order, chapter.id) == new_order.end()) {
        enter(chapter);
        note(What::chapter, {}, chapter.title, {});
      }
    }
    for (const Chapter& chapter : after.chapters) {
      enter(chapter);
      if (const Chapter* old = named(old_chapters, chapter.id)) {
        chapters(*old, chapter);
      } else {
        note(What::chapter, {}, {}, chapter.title);
      }
    }
  }

  std::vector<RevisionItem> changes;

 private:
  void enter(const Chapter& chapter) {
    chapter_id_ = chapter.id;
    chapter_ = chapter.title;
  }

  void note(What what, const std::string& where, std::string before, std::string after) {
    if (before != after) {
      changes.push_back({what, chapter_id_, chapter_, where, std::move(before), std::move(after)});
    }
  }

  void lists(What what, const std::string& where, const std::vector<std::string>& before,
             const std::vector<std::string>& after) {
    for (Difference& pair : differences(before, after)) {
      note(what, where, std::move(pair.before), std::move(pair.after));
    }
  }

  void chapters(const Chapter& before, const Chapter& after) {
    const std::size_t so_far = changes.size();
    lists(What::text, {}, head_of(before), head_of(after));
    const Parts old(before);
    const Parts now(after);
    lists(What::text, {}, old.prose, now.prose);
    for (const Scene* scene : old.scenes) {
      if (named(now.scenes, scene->id) == nullptr) {
        note(What::board, scene->id, name_of(*scene), {});
      }
    }
    for (const Scene* scene : now.scenes) {
      if (const Scene* other = named(old.scenes, scene->id)) {
        scenes(*other, *scene);
      } else {
        note(What::board, scene->id, {}, name_of(*scene));
      }
    }
    for (const Question* question : old.questions) {
      if (named(now.questions, question->id) == nullptr) {
        note(What::question, question->id, dressed(question->ask), {});
      }
    }
    for (const Question* question : now.questions) {
      if (const Question* other = named(old.questions, question->id)) {
        lists(What::question, question->id, text_of(*other), text_of(*question));
      } else {
        note(What::question, question->id, {}, dressed(question->ask));
      }
    }
    note(What::order, {}, kept_order(old.staging, now.staging),
         kept_order(now.staging, old.staging));
    // Where prose has changed, its place cannot be told from what it says.
    if (changes.size() == so_far) {
      note(What::order, {}, kept_order(old.order, now.order), kept_order(now.order, old.order));
    }
  }

  static std::string name_of(const Scene& scene) {
    return scene.caption.empty() ? scene.position : scene.caption;
  }

  void scenes(const Scene& before, const Scene& after) {
    const std::size_t so_far = changes.size();
    for (Difference& pair : differences(look_of(before), look_of(after))) {
      const std::string& line = pair.after.empty() ? pair.before : pair.after;
      const bool read = line.starts_with("caption: ") || line.starts_with("position: ");
      note(read ? What::board : What::look, after.id, std::move(pair.before),
           std::move(pair.after));
    }
    steps(before, after, false);
    lists(What::claim, after.id, texts_of(before.claims), texts_of(after.claims));
    // Positions follow from what is done. Only where nothing else has changed are they told.
    if (changes.size() == so_far) {
      steps(before, after, true);
    }
  }

  void steps(const Scene& before, const Scene& after, bool with_positions) {
    const Steps old(before, with_positions);
    const Steps now(after, with_positions);
    for (Difference& pair : differences(old.texts, now.texts)) {
      const Steps::Parts* was = old.parts(pair.before);
      const Steps::Parts* is = now.parts(pair.after);
      if (was != nullptr && is != nullptr && was->action == is->action && was->words != is->words) {
        note(What::words, after.id, was->words, is->words);
      } else {
        note(What::step, after.id, std::move(pair.before), std::move(pair.after));
      }
    }
  }

  std::string chapter_id_;
  std::string chapter_;
};

// A correction as a learner is told it; empty if it is nothing to a learner.
std::string told(const RevisionItem& item) {
  const std::string& is = item.after;
  const std::string& was = item.before;
  const auto changed = [&](std::string_view what, std::string_view now, std::string_view then) {
    if (was.empty()) {
      return fmt::format("New {}: {}", what, is);
    }
    if (is.empty()) {
      return fmt::format("Taken out, {}: {}", what, was);
    }
    return fmt::format("{} now: {} {}: {}", now, is, then, was);
  };
  switch (item.what) {
    case What::course:
      return changed("on the cover", "The cover says", "It said");
    case What::chapter:
      return was.empty() ? "This chapter is new." : "This chapter has been taken out.";
    case What::text:
      return changed("text", "The text says", "It said");
    case What::board:
      return changed("board", "A board has been corrected,", "It was");
    case What::words:
      return changed("spoken words", "The teacher says", "Before");
    case What::step:
      return changed("step on the board", "On the board", "Before");
    case What::claim:
      return changed("proof", "It is proved", "Before");
    case What::question:
      return item.before.starts_with("seen with")
                 ? ""
                 : changed("exercise", "An exercise says", "Before");
    case What::order:
    case What::look:
      break;
  }
  return {};
}

}  // namespace

std::string_view name(RevisionItem::What what) {
  switch (what) {
    case What::course:
      return "course";
    case What::chapter:
      return "chapter";
    case What::order:
      return "order";
    case What::text:
      return "text";
    case What::board:
      return "board";
    case What::look:
      return "look";
    case What::step:
      return "step";
    case What::words:
      return "words";
    case What::claim:
      return "claim";
    case What::question:
      break;
  }
  return "question";
}

std::vector<RevisionItem> compare(const Storyboard& before, const Storyboard& after) {
  Comparison comparison;
  comparison.courses(before, after);
  return std::move(comparison.changes);
}

std::string pinned_note(const Storyboard& after, const std::vector<RevisionItem>& changes) {
  std::string note;
  const std::string* chapter = nullptr;
  for (const RevisionItem& item : changes) {
    const std::string line = told(item);
    if (line.empty()) {
      continue;
    }
    if (note.empty()) {
      note = fmt::format("Corrections to \"{}\"\n", after.title);
    }
    if (chapter == nullptr || *chapter != item.chapter) {
      note += item.chapter.empty() ? "\n" : fmt::format("\n{}\n", item.chapter);
      chapter = &item.chapter;
    }
    note += "- " + line + "\n";
  }
  return note;
}

}  // namespace pointwright::film
