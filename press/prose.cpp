#include "press/prose.hpp"

#include <fmt/format.h>

#include "rules/position.hpp"
#include "studio/svg.hpp"
#include "studio/telling.hpp"
#include "studio/wording.hpp"

namespace pointwright::press {

namespace {

constexpr double small_size = 8;
constexpr double list_indent = 18;

TextStyle small_type() {
  TextStyle style;
  style.size = small_size;
  style.tint = Tint::soft_ink;
  style.after = 3;
  return style;
}

void set_list(Document& document, const Prose& list, double indent);

void set_block(Document& document, const Prose& prose, double indent, std::string label) {
  TextStyle style;
  style.indent = indent;
  style.label = std::move(label);
  switch (prose.kind) {
    case Prose::Kind::heading:
      style.size = prose.level <= 2 ? 12.5 : 10.5;
      style.bold = true;
      style.before = 9;
      style.after = 4;
      style.tag = prose.level <= 2 ? "H2" : "H3";
      style.stay_with_next = true;
      document.text(markup(prose.words), style);
      return;
    case Prose::Kind::bullet_list:
    case Prose::Kind::numbered_list:
      set_list(document, prose, indent);
      return;
    case Prose::Kind::quote:
      for (const Prose& child : prose.children) {
        set_block(document, child, indent + list_indent, {});
      }
      return;
    case Prose::Kind::table:
      for (const Prose& row : prose.children) {
        set_block(document, row, indent, {});
      }
      document.space(4);
      return;
    case Prose::Kind::row: {
      std::string line;
      const bool head = !prose.children.empty() && &prose == &prose.children.front();
      for (const Prose& cell : prose.children) {
        line += (line.empty() ? "" : "  \xC2\xB7  ") + markup(cell.words);
      }
      style.after = 2;
      style.bold = head;
      document.text(line, style);
      return;
    }
    case Prose::Kind::divider:
      document.rule();
      return;
    case Prose::Kind::paragraph:
    case Prose::Kind::item:
    case Prose::Kind::cell:
    case Prose::Kind::code:
      break;
  }
  if (!prose.words.empty()) {
    document.text(markup(prose.words), style);
  }
  for (const Prose& child : prose.children) {
    set_block(document, child, indent, {});
  }
}

void set_list(Document& document, const Prose& list, double indent) {
  int number = 0;
  for (const Prose& item : list.children) {
    ++number;
    std::string label =
        list.kind == Prose::Kind::numbered_list ? fmt::format("{}.", number) : "\xE2\x80\xA2";
    if (!item.words.empty()) {
      TextStyle style;
      style.indent = indent + list_indent;
      style.label = std::move(label);
      style.after = 2.5;
      document.text(markup(item.words), style);
      label.clear();
    }
    for (const Prose& child : item.children) {
      set_block(document, child, indent + list_indent, label);
      label.clear();
    }
  }
  document.space(3);
}

}  // namespace

std::string markup(const std::vector<Inline>& words) {
  std::string out;
  for (const Inline& word : words) {
    switch (word.kind) {
      case Inline::Kind::text:
        out += escaped(word.text);
        break;
      case Inline::Kind::emphasis:
        out += "<i>" + markup(word.children) + "</i>";
        break;
      case Inline::Kind::strong:
        out += "<b>" + markup(word.children) + "</b>";
        break;
      case Inline::Kind::code:
        // Plays and positions: set off by weight, since the type has all its numerals in one width.
        out += "<span font_weight='500' font_features='tnum=1'>" + escaped(word.text) + "</span>";
        break;
      case Inline::Kind::link:
        out += markup(word.children);
        break;
      case Inline::Kind::line_break:
        out += "\n";
        break;
    }
  }
  return out;
}

void set_prose(Document& document, const Prose& prose) {
  set_block(document, prose, 0, {});
}

void set_claims(Document& document, const std::vector<ProvedClaim>& claims) {
  if (claims.empty()) {
    return;
  }
  TextStyle head = small_type();
  head.bold = true;
  head.before = 3;
  head.after = 1;
  head.stay_with_next = true;
  document.text("Proved", head);
  for (const ProvedClaim& claim : claims) {
    TextStyle style = small_type();
    style.indent = 16;
    style.label = "\xE2\x9C\x93";
    style.after = 1;
    document.text(escaped(claim.statement.empty() ? claim.text : claim.statement), style);
  }
}

Result<bool, PressFault> set_scene(Document& document, const Scene& scene, const SideNames& names) {
  const auto start = read_position(scene.position);
  if (!start) {
    return PressFault{fmt::format("board {} cannot be read", scene.id)};
  }
  BoardPicture picture;
  picture.view = scene.view;
  picture.names = names;
  picture.arrows = scene.arrows;
  picture.marks = scene.marks;
  document.space(4);
  document.begin_beside(board_frame(*start, picture), scene.view, picture.margins,
                        document.column_width() * board_share);
  TextStyle caption;
  caption.bold = true;
  document.text(escaped(scene.caption.empty() ? position_title(*start, names) : scene.caption),
                caption);
  Position before = *start;
  int number = 0;
  for (const Step& step : scene.steps) {
    const auto after = read_position(step.position);
    if (!after) {
      return PressFault{fmt::format("board {}, step {} cannot be read", scene.id, number + 1)};
    }
    const std::string action = action_words(step, before, *after, names);
    before = *after;
    std::string line = action.empty() ? "" : "<b>" + escaped(action) + "</b>";
    if (step.kind == Step::Kind::attempt) {
      line += " <i>refused</i>";
    }
    line += (line.empty() ? "" : "  ") + escaped(step.words);
    if (step.ruling) {
      line += " <i>" + escaped(*step.ruling) + "</i>";
    }
    TextStyle style;
    style.size = 9;
    style.indent = 16;
    style.label = fmt::format("{}.", ++number);
    style.after = 2;
    document.text(line, style);
  }
  set_claims(document, scene.claims);
  document.end_beside();
  return true;
}

}  // namespace pointwright::press
