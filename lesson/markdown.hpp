#pragma once

#include <functional>
#include <memory>
#include <string_view>
#include <vector>

#include "lesson/report.hpp"
#include "storyboard/storyboard.hpp"

struct cmark_node;

/// The CommonMark library's tree, turned into the storyboard's prose.
namespace pointwright::lesson {

struct FreeNode {
  void operator()(cmark_node* node) const;
};
using Tree = std::unique_ptr<cmark_node, FreeNode>;

/// Parses CommonMark with tables (GitHub Flavored Markdown 0.29, section 4.10).
Tree parse_markdown(std::string_view text);

/// Turns nodes of a tree into prose. Raw HTML stays text, unsafe links lose their address, pictures
/// become their words; each is reported. HTML comments vanish.
class ProseReader {
 public:
  /// `offset_of` gives the byte in the source of a line and column in the tree, both from 1.
  ProseReader(Report& report, std::function<std::size_t(int, int)> offset_of)
      : report_(report), offset_of_(std::move(offset_of)) {}

  /// Adds the prose of a block to `prose`: nothing for a comment.
  void read_block(cmark_node* node, std::vector<Prose>& prose) { read_block(node, prose, 0); }
  /// The inline content of a paragraph or heading.
  std::vector<Inline> read_inlines(cmark_node* parent) {
    std::vector<Inline> words;
    read_inlines(parent, words, 0);
    return words;
  }

 private:
  void read_block(cmark_node* node, std::vector<Prose>& prose, int depth);
  void read_children(cmark_node* node, std::vector<Prose>& prose, int depth);
  void read_inlines(cmark_node* parent, std::vector<Inline>& words, int depth);
  void read_link(cmark_node* node, std::vector<Inline>& words, int depth);
  bool too_deep(cmark_node* node, int depth);
  [[nodiscard]] TextSpan where(cmark_node* node) const;

  Report& report_;
  std::function<std::size_t(int, int)> offset_of_;
};

/// Whether an address may stand in a page: http, https, mailto, or a relative one.
bool is_safe_address(std::string_view address);

}  // namespace pointwright::lesson
