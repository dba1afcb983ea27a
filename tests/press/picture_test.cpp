#include "press/picture.hpp"

#include <cairo.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstring>
#include <string>
#include <vector>

#include "tests/studio/sample.hpp"

namespace pointwright::press {
namespace {

/// A PNG read back.
struct Pixels {
  int width = 0;
  int height = 0;
  std::vector<std::uint32_t> argb;

  explicit Pixels(const std::string& png) {
    struct Reader {
      const std::string& bytes;
      std::size_t at = 0;
    } reader{png};
    cairo_surface_t* surface = cairo_image_surface_create_from_png_stream(
        [](void* closure, unsigned char* data, unsigned int length) {
          auto* from = static_cast<Reader*>(closure);
          if (from->at + length > from->bytes.size()) return CAIRO_STATUS_READ_ERROR;
          std::memcpy(data, from->bytes.data() + from->at, length);
          from->at += length;
          return CAIRO_STATUS_SUCCESS;
        },
        &reader);
    width = cairo_image_surface_get_width(surface);
    height = cairo_image_surface_get_height(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    for (int y = 0; y < height; ++y) {
      const unsigned char* row = cairo_image_surface_get_data(surface) + y * stride;
      for (int x = 0; x < width; ++x) {
        std::uint32_t pixel = 0;
        std::memcpy(&pixel, row + 4 * x, 4);
        argb.push_back(pixel);
      }
    }
    cairo_surface_destroy(surface);
  }

  /// The pixel at a spot of the frame, which is 720 wide.
  [[nodiscard]] std::uint32_t at(drawing::Spot spot) const {
    const double scale = width / 720.0;
    return argb[static_cast<std::size_t>(std::lround(spot.y * scale)) *
                    static_cast<std::size_t>(width) +
                static_cast<std::size_t>(std::lround(spot.x * scale))];
  }
};

std::uint32_t tint(Tint tint, Theme theme) {
  return 0xFF000000U | static_cast<std::uint32_t>(
                           std::stoul(std::string(colour(tint, theme)).substr(1), nullptr, 16));
}

TEST(Picture, CheckersStandWhereTheLayoutSays) {
  const Position position = sample({{24, 1}, {13, 2}, {6, 5}, {25, 1}}, {{20, 1}, {2, 3}});
  for (const bool home_on_left : {false, true}) {
    for (const Side bottom : {Side::light, Side::dark}) {
      BoardPicture picture;
      picture.view = {bottom, home_on_left, bottom};
      const Pixels pixels(*board_png(position, picture, {.width = 1440}));
      ASSERT_EQ(pixels.width, 1440);
      const BoardGeometry geometry(picture.view, true);
      for (const Side side : {Side::light, Side::dark}) {
        const Tint body = side == Side::light ? Tint::ivory : Tint::ebony;
        for (Place place = 1; place <= bar_place; ++place) {
          for (int i = 0; i < std::min(position.board.count(side, place), 5); ++i) {
            // Between the outer edge and what marks the middle.
            drawing::Spot spot = geometry.checker(side, place, i);
            spot.x += 15.5;
            EXPECT_EQ(pixels.at(spot), tint(body, Theme::light)) << name(side) << int{place};
          }
        }
      }
    }
  }
}

TEST(Picture, WhatTheBoardLeavesFreeCanBeSeenThrough) {
  const Pixels clear(*board_png(sample_start(), {}, {.width = 360}));
  EXPECT_EQ(clear.argb.front(), 0U);
  const Pixels paper(*board_png(sample_start(), {}, {.width = 360, .paper = true}));
  EXPECT_EQ(paper.argb.front(), tint(Tint::paper, Theme::light));
}

TEST(Picture, PrintHasGreysOnly) {
  BoardPicture picture;
  picture.arrows = {{Side::light, 13, 7, false}, {Side::light, 6, 9, true}};
  picture.marks = {{Side::dark, 5}};
  const Pixels pixels(*board_png(sample_start(), picture, {.theme = Theme::print, .width = 720}));
  for (const std::uint32_t pixel : pixels.argb) {
    ASSERT_EQ(pixel & 0xFFU, pixel >> 8 & 0xFFU);
    ASSERT_EQ(pixel & 0xFFU, pixel >> 16 & 0xFFU);
  }
}

TEST(Picture, EqualInputGivesEqualBytes) {
  EXPECT_EQ(*board_png(sample_start(), {}), *board_png(sample_start(), {}));
}

TEST(Picture, TooLargeIsAFault) {
  EXPECT_FALSE(board_png(sample_start(), {}, {.width = 40'000}).ok());
}

}  // namespace
}  // namespace pointwright::press
