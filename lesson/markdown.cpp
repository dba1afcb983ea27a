#include "lesson/markdown.hpp"

#include <cmark-gfm-core-extensions.h>
#include <cmark-gfm.h>
#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "rules/text.hpp"

namespace pointwright::lesson {
namespace {

/// How deep lists, quotations and emphasis may nest.
constexpr int deepest = 24;

std::string_view literal_of(cmark_node* node) {
  const char* text = cmark_node_get_literal(node);
  return text == nullptr ? "" : text;
}

std::string_view type_of(cmark_node* node) {
  return cmark_node_get_type_string(node);
}

bool is_comment(std::string_view html) {
  while (!html.empty() && text::is_space(html.back())) html.remove_suffix(1);
  while (!html.empty() && text::is_space(html.front())) html.remove_prefix(1);
  return html.starts_with("<!--") && html.ends_with("-->");
}

void add_text(std::vector<Inline>& words, std::string_view text) {
  if (!words.empty() && words.back().kind == Inline::Kind::text) {
    words.back().text += text;
  } else {
    words.push_back({Inline::Kind::text, std::string(text), "", {}});
  }
}

}  // namespace

void FreeNode::operator()(cmark_node* node) const {
  cmark_node_free(node);
}

Tree parse_markdown(std::string_view text) {
  static const bool registered = [] {
    cmark_gfm_core_extensions_ensure_registered();
    return true;
  }();
  static_cast<void>(registered);
  const std::unique_ptr<cmark_parser, decltype(&cmark_parser_free)> parser(
      cmark_parser_new(CMARK_OPT_DEFAULT), &cmark_parser_free);
  if (cmark_syntax_extension* table = cmark_find_syntax_extension("table"))
    cmark_parser_attach_syntax_extension(parser.get(), table);
  cmark_parser_feed(parser.get(), text.data(), text.size());
  return Tree(cmark_parser_finish(parser.get()));
}

bool is_safe_address(std::string_view address) {
  const bool odd = std::ranges::any_of(address, [](char c) {
    return static_cast<unsigned char>(c) <= 0x20 || c == '\\' || c == 0x7F;
  });
  if (odd || address.empty() || address.starts_with("//")) return false;
  const std::size_t colon = address.find(':');
  if (colon == std::string_view::npos || colon > address.find_first_of("/?#")) return true;
  const std::string_view scheme = address.substr(0, colon);
  return text::same_word(scheme, "http") || text::same_word(scheme, "https") ||
         text::same_word(scheme, "mailto");
}

TextSpan ProseReader::where(cmark_node* node) const {
  const int line = cmark_node_get_start_line(node);
  const int column = cmark_node_get_start_column(node);
  const std::size_t begin = offset_of_(line, std::max(column, 1));
  std::size_t end = begin;
  if (cmark_node_get_end_line(node) == line)
    end = offset_of_(line, std::max(cmark_node_get_end_column(node), column)) + 1;
  const TextSpan whole_line = report_.source().line(report_.source().line_of(begin));
  if (end <= begin || end > whole_line.end) end = whole_line.end;
  return {std::min(begin, whole_line.end), end};
}

bool ProseReader::too_deep(cmark_node* node, int depth) {
  if (depth <= deepest) return false;
  if (depth == deepest + 1) {
    report_.add(kinds::too_deep, where(node),
                fmt::format("this is nested more than {} levels deep", deepest));
  }
  return true;
}

void ProseReader::read_children(cmark_node* node, std::vector<Prose>& prose, int depth) {
  for (cmark_node* child = cmark_node_first_child(node); child != nullptr;
       child = cmark_node_next(child))
    read_block(child, prose, depth);
}

void ProseReader::read_block(cmark_node* node, std::vector<Prose>& prose, int depth) {
  if (too_deep(node, depth)) return;
  Prose block;
  switch (cmark_node_get_type(node)) {
    case CMARK_NODE_PARAGRAPH:
      block.kind = Prose::Kind::paragraph;
      read_inlines(node, block.words, depth);
      break;
    case CMARK_NODE_HEADING:
      block.kind = Prose::Kind::heading;
      block.level = cmark_node_get_heading_level(node);
      read_inlines(node, block.words, depth);
      break;
    case CMARK_NODE_THEMATIC_BREAK:
      block.kind = Prose::Kind::divider;
      break;
    case CMARK_NODE_CODE_BLOCK:
      block.kind = Prose::Kind::code;
      add_text(block.words, literal_of(node));
      break;
    case CMARK_NODE_HTML_BLOCK:
      if (is_comment(literal_of(node))) return;
      report_
          .add(kinds::raw_html, where(node),
               "HTML is not part of a lesson; it will be shown as typed")
          .hints.emplace_back("write it in Markdown, or leave it out");
      block.kind = Prose::Kind::paragraph;
      add_text(block.words, literal_of(node));
      break;
    case CMARK_NODE_LIST:
      block.kind = cmark_node_get_list_type(node) == CMARK_ORDERED_LIST ? Prose::Kind::numbered_list
                                                                        : Prose::Kind::bullet_list;
      read_children(node, block.children, depth + 1);
      break;
    case CMARK_NODE_ITEM:
      block.kind = Prose::Kind::item;
      read_children(node, block.children, depth + 1);
      break;
    case CMARK_NODE_BLOCK_QUOTE:
      block.kind = Prose::Kind::quote;
      read_children(node, block.children, depth + 1);
      break;
    default: {
      const std::string_view type = type_of(node);
      if (type == "table") {
        block.kind = Prose::Kind::table;
        read_children(node, block.children, depth + 1);
      } else if (type == "table_row" || type == "table_header") {
        block.kind = Prose::Kind::row;
        read_children(node, block.children, depth + 1);
      } else {
        block.kind = type == "table_cell" ? Prose::Kind::cell : Prose::Kind::paragraph;
        read_inlines(node, block.words, depth + 1);
      }
    }
  }
  const bool needs_words = block.kind == Prose::Kind::paragraph;
  if (needs_words && block.words.empty()) return;
  prose.push_back(std::move(block));
}

void ProseReader::read_inlines(cmark_node* parent, std::vector<Inline>& words, int depth) {
  for (cmark_node* node = cmark_node_first_child(parent); node != nullptr;
       node = cmark_node_next(node)) {
    if (too_deep(node, depth)) return;
    switch (cmark_node_get_type(node)) {
      case CMARK_NODE_TEXT:
        add_text(words, literal_of(node));
        break;
      case CMARK_NODE_SOFTBREAK:
        add_text(words, " ");
        break;
      case CMARK_NODE_LINEBREAK:
        words.push_back({Inline::Kind::line_break, "", "", {}});
        break;
      case CMARK_NODE_CODE:
        words.push_back({Inline::Kind::code, std::string(literal_of(node)), "", {}});
        break;
      case CMARK_NODE_EMPH:
      case CMARK_NODE_STRONG: {
        const bool strong = cmark_node_get_type(node) == CMARK_NODE_STRONG;
        Inline part{strong ? Inline::Kind::strong : Inline::Kind::emphasis, "", "", {}};
        read_inlines(node, part.children, depth + 1);
        words.push_back(std::move(part));
        break;
      }
      case CMARK_NODE_LINK:
        read_link(node, words, depth);
        break;
      case CMARK_NODE_IMAGE:
        report_
            .add(kinds::image, where(node),
                 "pictures are not part of a lesson; its words will be shown instead")
            .hints.emplace_back("a board block draws a diagram");
        read_inlines(node, words, depth + 1);
        break;
      case CMARK_NODE_HTML_INLINE:
        if (is_comment(literal_of(node))) break;
        report_
            .add(kinds::raw_html, where(node),
                 fmt::format("{} is HTML, which is not part of a lesson; it will be shown as typed",
                             text::quoted(literal_of(node))))
            .hints.emplace_back("write it in Markdown, or between backquotes");
        add_text(words, literal_of(node));
        break;
      default:
        read_inlines(node, words, depth + 1);
    }
  }
}

void ProseReader::read_link(cmark_node* node, std::vector<Inline>& words, int depth) {
  const char* url = cmark_node_get_url(node);
  const std::string address = url == nullptr ? "" : url;
  if (is_safe_address(address)) {
    Inline part{Inline::Kind::link, "", address, {}};
    read_inlines(node, part.children, depth + 1);
    words.push_back(std::move(part));
    return;
  }
  report_
      .add(kinds::bad_link, where(node), fmt::format("the link leads to {}", text::quoted(address)))
      .hints.emplace_back(
          "links begin with https:, http: or mailto:, or name a file beside the page");
  read_inlines(node, words, depth + 1);
}

}  // namespace pointwright::lesson
