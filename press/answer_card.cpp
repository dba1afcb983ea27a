#include "press/answer_card.hpp"

#include <array>
#include <cmath>
#include <cstdint>

#include "press/cairo.hpp"
#include "press/painter.hpp"
#include "studio/wording.hpp"

namespace pointwright::press {

namespace {

constexpr double edge = 22;
constexpr double headline_size = 27;
constexpr double reason_size = 18.5;

/// CRC-32 as PNG wants it (W3C, Portable Network Graphics, annex D).
std::uint32_t crc_of(const std::string& bytes) {
  std::uint32_t crc = 0xFFFFFFFFU;
  for (const char c : bytes) {
    crc ^= static_cast<unsigned char>(c);
    for (int bit = 0; bit < 8; ++bit) {
      crc = (crc >> 1U) ^ ((crc & 1U) != 0 ? 0xEDB88320U : 0U);
    }
  }
  return ~crc;
}

std::string big_endian(std::uint32_t number) {
  std::string bytes;
  for (const unsigned shift : {24U, 16U, 8U, 0U}) {
    bytes += static_cast<char>(number >> shift & 0xFFU);
  }
  return bytes;
}

/// Words set in a column, and how high they stand.
struct Words {
  LayoutOwner layout;
  double height = 0;
};

Words words_of(cairo_t* context, const std::string& text, double size, PangoWeight weight,
               double width) {
  Words words{make_layout(context, size, weight)};
  pango_layout_set_text(words.layout.get(), text.data(), static_cast<int>(text.size()));
  pango_layout_set_width(words.layout.get(), static_cast<int>(width * PANGO_SCALE));
  pango_layout_set_wrap(words.layout.get(), PANGO_WRAP_WORD_CHAR);
  pango_layout_set_line_spacing(words.layout.get(), 1.25F);
  PangoRectangle extents;
  pango_layout_get_extents(words.layout.get(), nullptr, &extents);
  words.height = static_cast<double>(extents.height) / PANGO_SCALE;
  return words;
}

void set(cairo_t* context, const Words& words, double x, double y, Tint tint) {
  use_tint(context, tint, Theme::light);
  cairo_move_to(context, x, y);
  pango_cairo_show_layout(context, words.layout.get());
  cairo_new_path(context);
}

}  // namespace

std::string answer_description(const AnswerCard& card) {
  return spoken_position(card.position, card.picture.names) + " " + card.answer + ". " +
         card.reason;
}

std::string with_png_text(std::string png, const std::string& keyword, const std::string& text) {
  // After the signature and the header: 8 bytes, and a chunk of 13.
  constexpr std::size_t after_header = 8 + 4 + 4 + 13 + 4;
  // Keyword, not compressed, no language, no translation of the keyword, text.
  std::string chunk = "iTXt" + keyword;
  chunk.append(5, '\0');
  chunk += text;
  const auto length = static_cast<std::uint32_t>(chunk.size() - 4);
  png.insert(after_header, big_endian(length) + chunk + big_endian(crc_of(chunk)));
  return png;
}

Result<std::string, PressFault> answer_png(const AnswerCard& card, int width) {
  const drawing::Frame frame = board_frame(card.position, card.picture);
  const double page_width = frame.width + 2 * edge;
  const double scale = width / page_width;
  // The height follows from the words, so they are measured first.
  const SurfaceOwner scratch(cairo_image_surface_create(CAIRO_FORMAT_ARGB32, 1, 1));
  const ContextOwner measure(cairo_create(scratch.get()));
  const Words headline =
      words_of(measure.get(), card.answer, headline_size, PANGO_WEIGHT_SEMIBOLD, frame.width);
  const Words reason =
      words_of(measure.get(), card.reason, reason_size, PANGO_WEIGHT_NORMAL, frame.width);
  const double page_height =
      edge + frame.height + edge + headline.height + edge / 3 + reason.height + edge;
  const SurfaceOwner surface(cairo_image_surface_create(
      CAIRO_FORMAT_ARGB32, width, static_cast<int>(std::lround(page_height * scale))));
  const ContextOwner context(cairo_create(surface.get()));
  use_tint(context.get(), Tint::paper, Theme::light);
  cairo_paint(context.get());
  cairo_scale(context.get(), scale, scale);
  cairo_translate(context.get(), edge, edge);
  paint(context.get(), frame,
        {.theme = Theme::light, .margins = Lettering::text, .board = Lettering::text});
  double y = frame.height + edge;
  set(context.get(), headline, 0, y, Tint::ink);
  y += headline.height + edge / 3;
  set(context.get(), reason, 0, y, Tint::ink);
  std::string png;
  const auto drawn = cairo_status(context.get());
  const auto status = drawn != CAIRO_STATUS_SUCCESS
                          ? drawn
                          : cairo_surface_write_to_png_stream(surface.get(), append_bytes, &png);
  if (status != CAIRO_STATUS_SUCCESS) {
    return PressFault{cairo_status_to_string(status)};
  }
  return with_png_text(std::move(png), "Description", answer_description(card));
}

}  // namespace pointwright::press
