#pragma once

#include <map>
#include <memory>
#include <string>

#include "press/picture.hpp"
#include "rules/result.hpp"
#include "studio/drawing.hpp"
#include "studio/looks.hpp"

/// A printed document: text and boards that flow from page to page.
namespace pointwright::press {

enum class Paper { a4, letter };

struct DocumentOptions {
  Paper paper = Paper::a4;
  Theme theme = Theme::light;  ///< Theme::print has greys only
  std::string title{};
  std::string author{};
  std::string language = "en";
};

/// How a piece of text is set. Lengths are in points, 72 to the inch.
struct TextStyle {
  double size = 9.5;
  bool bold = false;
  bool italic = false;
  Tint tint = Tint::ink;
  double indent = 0;            ///< of the whole piece
  double before = 0;            ///< room above, not at the top of a page
  double after = 5;             ///< room below
  std::string label{};          ///< stands in the indent: a number, a bullet
  const char* tag = "P";        ///< what it is, for those who hear it: "H1", "P"
  bool stay_with_next = false;  ///< a heading: not at the foot of a page
};

/// The first thing in a document has to be text.
class Document {
 public:
  explicit Document(const DocumentOptions& options);
  Document(const Document&) = delete;
  Document& operator=(const Document&) = delete;
  ~Document();

  /// Sets text with Pango's markup, over as many pages as it takes.
  void text(const std::string& markup, const TextStyle& style = {});

  /// A bookmark and a place that can be gone to, here. `level` 1 stands under the document, 2 under
  /// the last of level 1. `name` is unique in the document: letters, digits, hyphens.
  void bookmark(int level, const std::string& name, const std::string& title);

  /// A line of contents: words, dots, and the page of a place that an earlier run found.
  void contents_line(const std::string& words, const std::string& name, int page);

  /// A board with words beside it: everything until `end_beside` goes to its right, and on below
  /// it, narrower than the page, if it takes more room.
  void begin_beside(const drawing::Frame& board, const View& view, bool margins, double width);
  void end_beside();

  /// A board in the middle of the column.
  void board(const drawing::Frame& board, const View& view, bool margins, double width);

  /// Lines to write on, across the column.
  void writing_lines(int count);

  /// A thin line across the column.
  void rule();

  void space(double height);
  /// Goes to a new page unless so much room is left on this one.
  void need(double height);
  /// Goes to a new page unless this one is still empty.
  void new_page();

  [[nodiscard]] int page() const;
  /// The pages of the bookmarks so far, by name.
  [[nodiscard]] const std::map<std::string, int>& pages() const;
  /// The room for text, across and down.
  [[nodiscard]] double column_width() const;
  [[nodiscard]] double column_height() const;

  /// The document as PDF. Nothing may be added afterwards.
  Result<std::string, PressFault> finish();

 private:
  struct Press;
  std::unique_ptr<Press> press_;
};

}  // namespace pointwright::press
