#include <fmt/format.h>

#include "app/files.hpp"
#include "app/json.hpp"
#include "app/make/kinds.hpp"
#include "film/motion.hpp"
#include "film/revision_texts.hpp"
#include "film/shot_list.hpp"
#include "press/handout.hpp"
#include "press/script.hpp"
#include "storyboard/json.hpp"

/// The products on paper.
namespace pointwright::app {
namespace {

/// A product whose making may fail for want of memory.
Product printed(std::string_view kind, std::string path, std::string recipe,
                std::function<Result<std::string, press::PressFault>()> make) {
  return {.kind = std::string{kind},
          .path = std::move(path),
          .recipe = std::move(recipe),
          .make = [make = std::move(make)](const std::filesystem::path& file) {
            const auto bytes = make();
            if (bytes.ok()) return write_new_file(file, *bytes);
            return std::optional{failure(
                "cannot-print", fmt::format("the file cannot be made: {}", bytes.error().reason),
                "free some memory, and try again")};
          }};
}

void drop_sources(Json& json) {
  if (json.is_object()) json.erase("source");
  for (Json& child : json) {
    if (child.is_structured()) drop_sources(child);
  }
}

std::string paper_recipe(const press::PrintOptions& options) {
  return fmt::format("paper {} theme {}\n", static_cast<int>(options.paper),
                     static_cast<int>(options.theme));
}

std::string cover_recipe(const Course& course) {
  const Storyboard& storyboard = course.storyboard;
  return fmt::format("{}\n{}\n{}\n", storyboard.title, storyboard.author, storyboard.language);
}

/// Where a shot stands in the course and what it is called.
std::string heading_recipe(const film::Shot& shot) {
  return fmt::format("{} {} {} | {}\n", shot.number, shot.chapter_at, shot.chapter->title,
                     shot.title());
}

/// What the script has of the shots. Prose and exercises are not in it.
std::string script_recipe(const Course& course) {
  std::string recipe = cover_recipe(course);
  for (const film::Shot& shot : course.shots) {
    recipe += heading_recipe(shot) + film::picture_recipe(shot) + "\n";
    for (const film::Beat& beat : shot.beats) {
      recipe += fmt::format("[{}] {}\n", beat.hands, beat.words());
    }
    if (!shot.opens_scene) continue;
    for (const ProvedClaim& claim : shot.scene->claims) recipe += film::text_of(claim) + "\n";
  }
  return recipe;
}

/// What the stage sheets have of the shots: how each begins and how it ends.
std::string stage_recipe(const Course& course) {
  std::string recipe = cover_recipe(course);
  for (const film::Shot& shot : course.shots) {
    recipe +=
        heading_recipe(shot) + film::opening_recipe(shot) + " | " + to_text(shot.end()) + "\n";
  }
  return recipe;
}

}  // namespace

std::string storyboard_recipe(const Storyboard& storyboard) {
  Json json = Json::parse(to_json(storyboard));
  drop_sources(json);
  return json.dump();
}

void add_handout(const Course& course, std::vector<Product>& products) {
  const press::PrintOptions& print = course.options.stage.print;
  const std::string paper = paper_recipe(print);
  products.push_back(
      printed("handout", "handout.pdf", paper + storyboard_recipe(course.storyboard),
              [&course, print] { return press::handout_pdf(course.storyboard, print); }));
  if (course.storyboard.chapters.empty()) return;
  const SideNames& names = course.storyboard.chapters.front().names;
  products.push_back(printed("handout", "blank-boards.pdf",
                             paper + names[Side::light] + "\n" + names[Side::dark],
                             [names, print] { return press::blank_boards_pdf(names, print); }));
}

void add_script(const Course& course, std::vector<Product>& products) {
  const press::PrintOptions& print = course.options.stage.print;
  const std::string table = film::shot_list_csv(course.shots);
  products.push_back(printed(
      "script", "script.pdf", paper_recipe(print) + script_recipe(course),
      [&course, print] { return press::script_pdf(course.storyboard, course.shots, print); }));
  add_text(products, "script", "shots.csv", table);
}

void add_stage_sheets(const Course& course, std::vector<Product>& products) {
  const press::StageOptions& stage = course.options.stage;
  const std::string how = fmt::format("seat {} mirrored {} best {}\n", static_cast<int>(stage.seat),
                                      stage.mirrored, stage.best_order);
  products.push_back(
      printed("stage", "stage-sheets.pdf", paper_recipe(stage.print) + how + stage_recipe(course),
              [&course, stage] {
                return press::stage_sheets_pdf(course.storyboard, course.shots, stage);
              }));
  add_text(products, "stage", "stage-sheets.csv", press::stage_list_csv(course.shots, stage));
}

}  // namespace pointwright::app
