#include "press/document.hpp"

#include <cairo-pdf.h>
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "press/cairo.hpp"
#include "press/painter.hpp"
#include "studio/board_layout.hpp"

namespace pointwright::press {

namespace {

struct Size {
  double width;
  double height;
};

Size size_of(Paper paper) {
  constexpr double inch = 72;
  constexpr double mm = inch / 25.4;
  return paper == Paper::a4 ? Size{210 * mm, 297 * mm} : Size{8.5 * inch, 11 * inch};
}

constexpr double side_margin = 51;
constexpr double top_margin = 54;
constexpr double bottom_margin = 62;
constexpr double footer_rise = 34;  // of its baseline above the lower edge
constexpr double footer_size = 7.5;
constexpr double leading = 1.38;
constexpr double label_gap = 4.5;  // between a number or bullet and its text
constexpr double gutter = 16;      // between a board and the words beside it

std::string one_line(const std::string& text) {
  std::string out;
  for (const char c : text) {
    out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
  }
  return out;
}

}  // namespace

struct Document::Press {
  DocumentOptions options;
  Size sheet;
  std::string bytes;
  SurfaceOwner surface;
  ContextOwner context;
  double left = side_margin;
  double right = 0;
  double y = top_margin;
  int page = 1;
  bool page_is_empty = true;
  int chapter_outline = 0;
  std::map<std::string, int> pages;
  std::map<std::string, SurfaceOwner> grounds;

  struct Beside {
    double foot = 0;  // of the board
    int page = 0;
  };
  std::optional<Beside> beside;

  explicit Press(const DocumentOptions& wanted) : options(wanted), sheet(size_of(wanted.paper)) {
    surface.reset(
        cairo_pdf_surface_create_for_stream(append_bytes, &bytes, sheet.width, sheet.height));
    context.reset(cairo_create(surface.get()));
    right = sheet.width - side_margin;
    cairo_surface_t* pdf = surface.get();
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_TITLE, one_line(options.title).c_str());
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_AUTHOR,
                                   one_line(options.author).c_str());
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATOR, "Pointwright");
    // The same course gives the same bytes, so no document says when it was made.
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATE_DATE, "");
    cairo_tag_begin(cr(), "Document", "");
  }

  cairo_t* cr() { return context.get(); }
  [[nodiscard]] double floor() const { return sheet.height - bottom_margin; }
  [[nodiscard]] bool at_top() const { return y <= top_margin + 0.01; }

  void line_of_text(const std::string& words, double x, double baseline, double size, Tint tint,
                    double shift) {
    const LayoutOwner layout = make_layout(cr(), size);
    pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
    pango_layout_set_text(layout.get(), words.data(), static_cast<int>(words.size()));
    PangoLayoutLine* line = pango_layout_get_line_readonly(layout.get(), 0);
    PangoRectangle extents;
    pango_layout_line_get_extents(line, nullptr, &extents);
    use_tint(cr(), tint, options.theme);
    cairo_move_to(cr(), x - shift * extents.width / PANGO_SCALE, baseline);
    pango_cairo_show_layout_line(cr(), line);
    cairo_new_path(cr());
  }

  void footer() {
    const double baseline = sheet.height - footer_rise;
    line_of_text(one_line(options.title), side_margin, baseline, footer_size, Tint::soft_ink, 0);
    line_of_text(std::to_string(page), sheet.width - side_margin, baseline, footer_size,
                 Tint::soft_ink, 1);
  }

  void turn_page() {
    footer();
    cairo_show_page(cr());
    ++page;
    y = top_margin;
    page_is_empty = true;
  }

  void need(double height) {
    if (y + height > floor() && !at_top()) {
      turn_page();
    }
  }

  // Words on a board would come between the sentences of those who hear the page.
  [[nodiscard]] PaintStyle boards() const {
    return {.theme = options.theme, .margins = Lettering::outline, .board = Lettering::outline};
  }

  // The board's ground is the same on every board seen the same way: it goes into the file once.
  void ground(const drawing::Layer& layer, const View& view, bool margins, double height) {
    const std::string key =
        fmt::format("{}{}{}{}", static_cast<int>(view.bottom), view.home_on_left,
                    static_cast<int>(view.numbering), margins);
    SurfaceOwner& stored = grounds[key];
    if (!stored) {
      const cairo_rectangle_t extents{0, 0, BoardGeometry::width, height};
      stored.reset(cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, &extents));
      const ContextOwner recorder(cairo_create(stored.get()));
      paint(recorder.get(), layer, boards());
    }
    cairo_set_source_surface(cr(), stored.get(), 0, 0);
    cairo_paint(cr());
  }

  // Boards have no tag of their own: cairo 1.16 refuses a page on which a figure comes first, and
  // it cannot give one its alternative text.
  void board_at(const drawing::Frame& frame, const View& view, bool margins, double x, double top,
                double width) {
    cairo_save(cr());
    cairo_translate(cr(), x, top);
    cairo_scale(cr(), width / frame.width, width / frame.width);
    for (const drawing::Layer& layer : frame.layers) {
      if (layer.kind == drawing::Layer::Kind::ground) {
        ground(layer, view, margins, frame.height);
      } else {
        paint(cr(), layer, boards());
      }
    }
    cairo_restore(cr());
    page_is_empty = false;
  }
};

Document::Document(const DocumentOptions& options) : press_(std::make_unique<Press>(options)) {}

Document::~Document() = default;

void Document::text(const std::string& markup, const TextStyle& style) {
  Press& press = *press_;
  cairo_t* cr = press.cr();
  if (!press.at_top()) {
    press.y += style.before;
  }
  const auto layout_of = [&](const std::string& words, bool is_markup) {
    LayoutOwner layout =
        make_layout(cr, style.size, style.bold ? PANGO_WEIGHT_SEMIBOLD : PANGO_WEIGHT_NORMAL,
                    style.italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
    if (is_markup) {
      pango_layout_set_markup(layout.get(), words.data(), static_cast<int>(words.size()));
    } else {
      pango_layout_set_text(layout.get(), words.data(), static_cast<int>(words.size()));
    }
    return layout;
  };
  const LayoutOwner layout = layout_of(markup, true);
  const double width = press.right - press.left - style.indent;
  pango_layout_set_width(layout.get(), static_cast<int>(width * PANGO_SCALE));
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  const double step = style.size * leading;
  const int lines = pango_layout_get_line_count(layout.get());
  // A heading takes two lines of text with it; a single line is not left behind.
  constexpr double company = 30;
  press.need(style.stay_with_next ? lines * step + company : std::min(lines, 2) * step);
  const LineOwner line(pango_layout_get_iter(layout.get()));
  bool first = true;
  cairo_tag_begin(cr, style.tag, "");
  do {
    if (press.y + step > press.floor() && !press.at_top()) {
      cairo_tag_end(cr, style.tag);
      press.turn_page();
      cairo_tag_begin(cr, style.tag, "");
    }
    // Half of the leading lies above the line, as in print.
    const double baseline = press.y + (step - style.size) / 2 + style.size * 0.80;
    use_tint(cr, style.tint, press.options.theme);
    if (first && !style.label.empty()) {
      const LayoutOwner label = layout_of(style.label, false);
      PangoLayoutLine* words = pango_layout_get_line_readonly(label.get(), 0);
      PangoRectangle width_of_label;
      pango_layout_line_get_extents(words, nullptr, &width_of_label);
      const double room = static_cast<double>(width_of_label.width) / PANGO_SCALE + label_gap;
      cairo_move_to(cr, press.left + std::max(0.0, style.indent - room), baseline);
      pango_cairo_show_layout_line(cr, words);
    }
    PangoRectangle extents;
    pango_layout_iter_get_line_extents(line.get(), nullptr, &extents);
    cairo_move_to(cr, press.left + style.indent + static_cast<double>(extents.x) / PANGO_SCALE,
                  baseline);
    pango_cairo_show_layout_line(cr, pango_layout_iter_get_line_readonly(line.get()));
    cairo_new_path(cr);
    press.page_is_empty = false;
    press.y += step;
    first = false;
  } while (pango_layout_iter_next_line(line.get()) != FALSE);
  cairo_tag_end(cr, style.tag);
  press.y += style.after;
}

void Document::bookmark(int level, const std::string& name, const std::string& title) {
  Press& press = *press_;
  const std::string place = fmt::format("name='{}'", name);
  cairo_tag_begin(press.cr(), CAIRO_TAG_DEST, place.c_str());
  cairo_tag_end(press.cr(), CAIRO_TAG_DEST);
  const int parent = level > 1 ? press.chapter_outline : CAIRO_PDF_OUTLINE_ROOT;
  const int outline = cairo_pdf_surface_add_outline(
      press.surface.get(), parent, one_line(title).c_str(), fmt::format("dest='{}'", name).c_str(),
      static_cast<cairo_pdf_outline_flags_t>(0));
  if (level == 1) {
    press.chapter_outline = outline;
  }
  press.pages[name] = press.page;
}

void Document::contents_line(const std::string& words, const std::string& name, int page) {
  Press& press = *press_;
  constexpr double size = 9.5;
  const double step = size * leading * 1.12;
  press.need(step);
  const double baseline = press.y + size;
  const std::string link = fmt::format("dest='{}'", name);
  cairo_tag_begin(press.cr(), "P", "");
  cairo_tag_begin(press.cr(), CAIRO_TAG_LINK, link.c_str());
  press.line_of_text(one_line(words), press.left, baseline, size, Tint::ink, 0);
  press.line_of_text(std::to_string(page), press.right, baseline, size, Tint::soft_ink, 1);
  cairo_tag_end(press.cr(), CAIRO_TAG_LINK);
  cairo_tag_end(press.cr(), "P");
  press.y += step;
  press.page_is_empty = false;
}

void Document::begin_beside(const drawing::Frame& board, const View& view, bool margins,
                            double width) {
  Press& press = *press_;
  const double height = width * board.height / board.width;
  press.need(height + 4);
  press.board_at(board, view, margins, press.left, press.y, width);
  press.beside = Press::Beside{press.y + height, press.page};
  press.left += width + gutter;
}

void Document::end_beside() {
  Press& press = *press_;
  if (press.beside && press.beside->page == press.page) {
    press.y = std::max(press.y, press.beside->foot);
  }
  press.beside.reset();
  press.left = side_margin;
  press.y += 12;
}

void Document::board(const drawing::Frame& board, const View& view, bool margins, double width) {
  Press& press = *press_;
  const double height = width * board.height / board.width;
  press.need(height);
  const double x = press.left + (press.right - press.left - width) / 2;
  press.board_at(board, view, margins, x, press.y, width);
  press.y += height + 10;
}

void Document::writing_lines(int count) {
  Press& press = *press_;
  constexpr double apart = 22;
  press.need(count * apart);
  for (int i = 0; i < count; ++i) {
    press.y += apart;
    cairo_set_line_width(press.cr(), 0.5);
    cairo_set_dash(press.cr(), nullptr, 0, 0);
    use_tint(press.cr(), Tint::soft_ink, press.options.theme);
    cairo_move_to(press.cr(), press.left, press.y);
    cairo_line_to(press.cr(), press.right, press.y);
    cairo_stroke(press.cr());
  }
  press.y += 8;
}

void Document::rule() {
  Press& press = *press_;
  press.need(10);
  cairo_set_line_width(press.cr(), 0.5);
  cairo_set_dash(press.cr(), nullptr, 0, 0);
  use_tint(press.cr(), Tint::soft_ink, press.options.theme);
  cairo_move_to(press.cr(), press.left, press.y + 2);
  cairo_line_to(press.cr(), press.right, press.y + 2);
  cairo_stroke(press.cr());
  press.y += 10;
  press.page_is_empty = false;
}

void Document::space(double height) {
  if (!press_->at_top()) {
    press_->y += height;
  }
}

void Document::need(double height) {
  press_->need(height);
}

void Document::new_page() {
  if (!press_->page_is_empty) {
    press_->turn_page();
  }
}

int Document::page() const {
  return press_->page;
}

const std::map<std::string, int>& Document::pages() const {
  return press_->pages;
}

double Document::column_width() const {
  return press_->right - press_->left;
}

double Document::column_height() const {
  return press_->floor() - top_margin;
}

Result<std::string, PressFault> Document::finish() {
  Press& press = *press_;
  press.footer();
  cairo_tag_end(press.cr(), "Document");
  cairo_show_page(press.cr());
  const cairo_status_t drawn = cairo_status(press.cr());
  press.context.reset();
  cairo_surface_finish(press.surface.get());
  const cairo_status_t written = cairo_surface_status(press.surface.get());
  for (const cairo_status_t status : {drawn, written}) {
    if (status != CAIRO_STATUS_SUCCESS) {
      return PressFault{cairo_status_to_string(status)};
    }
  }
  return std::move(press.bytes);
}

}  // namespace pointwright::press
