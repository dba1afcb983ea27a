#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "app/make/product.hpp"
#include "film/shots.hpp"
#include "press/script.hpp"
#include "storyboard/storyboard.hpp"

/// The kinds of things that can be made of a course.
namespace pointwright::app {

/// The size of moving pictures.
struct ClipOptions {
  enum class Aspect { wide, tall, square };  // 16:9, 9:16, 1:1
  int short_side = 1080;                     ///< in pixels, even
  Aspect aspect = Aspect::wide;
  int fps = 30;
  [[nodiscard]] int width() const { return aspect == Aspect::wide ? long_side() : short_side; }
  [[nodiscard]] int height() const { return aspect == Aspect::tall ? long_side() : short_side; }

 private:
  [[nodiscard]] int long_side() const { return (short_side * 16 / 9 + 1) / 2 * 2; }
};

/// How they are to be made.
struct MakeOptions {
  film::Pace pace;
  ClipOptions clips;
  press::StageOptions stage;  ///< with the paper and ink of everything that is printed
};

/// A course ready to be made into things. Products refer to it, so it has to outlive them.
struct Course {
  const Storyboard& storyboard;
  std::string name;  ///< of the course folder or the lesson file
  std::vector<film::Shot> shots;
  MakeOptions options;
};

/// A kind of product: the word for it, what comes of it, and its files.
struct Kind {
  std::string_view name;
  std::string_view makes;
  void (*add)(const Course& course, std::vector<Product>& products);
};

/// All kinds, in the order in which help lists them.
std::span<const Kind> kinds();

/// The products of kinds, each kind in the files beside this one.
void add_page(const Course& course, std::vector<Product>& products);
void add_site(const Course& course, std::vector<Product>& products);
void add_captions(const Course& course, std::vector<Product>& products);
void add_handout(const Course& course, std::vector<Product>& products);
void add_script(const Course& course, std::vector<Product>& products);
void add_stage_sheets(const Course& course, std::vector<Product>& products);

void add_slides(const Course& course, std::vector<Product>& products);
void add_voice(const Course& course, std::vector<Product>& products);
void add_timeline(const Course& course, std::vector<Product>& products);
void add_clips(const Course& course, std::vector<Product>& products);
void add_overlays(const Course& course, std::vector<Product>& products);
void add_prores(const Course& course, std::vector<Product>& products);
void add_loops(const Course& course, std::vector<Product>& products);
void add_stills(const Course& course, std::vector<Product>& products);

/// A product whose text is quick to make: the text itself is the recipe.
void add_text(std::vector<Product>& products, std::string_view kind, std::string path,
              const std::string& contents);

/// The storyboard as JSON without the places in the lesson's text, which no picture depends on.
std::string storyboard_recipe(const Storyboard& storyboard);

}  // namespace pointwright::app
