#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "storyboard/storyboard.hpp"

/// Prose as HTML.
namespace pointwright {

/// Text made fit for an id: lower case letters, digits and hyphens.
std::string html_id(std::string_view text);

/// Whether an address may stand in a link: http, https, mailto, or relative without a host.
bool is_safe_link(std::string_view address);

/// HTML in which every character beyond ASCII is a numeric reference, which is as good for a
/// browser and is read in a third of the time. What is not UTF-8 stays as it is. Precondition: the
/// HTML has such characters in text and attributes only, not in a script or style.
std::string ascii_html(std::string_view html);

/// Where a chapter is found: in the same page, or in a page of its own beside it.
enum class Chapters { in_the_page, in_pages_of_their_own };
std::string chapter_address(const Chapter& chapter, Chapters chapters);
/// The same of the list of contents.
std::string contents_address(Chapters chapters);

/// Turns words and blocks of prose into HTML. Headings go down by one level and never skip one, so
/// that a chapter's title stays above them.
class ProseWriter {
 public:
  /// `chapters` are those that relative links may lead to. Lives no longer than they do.
  explicit ProseWriter(const std::vector<Chapter>& chapters, Chapters found = Chapters::in_the_page)
      : chapters_(chapters), found_(found) {}

  void words(std::string& out, const std::vector<Inline>& words) const;
  void block(std::string& out, const Prose& prose);

  /// Starts a chapter, whose title stands at `level`.
  void start_chapter(int level) { last_level_ = level; }

 private:
  void word(std::string& out, const Inline& word) const;
  void blocks(std::string& out, const std::vector<Prose>& blocks);
  void table(std::string& out, const Prose& table);
  [[nodiscard]] std::string link_target(std::string_view href) const;

  const std::vector<Chapter>& chapters_;
  Chapters found_;
  int last_level_ = 2;
};

/// The words without their dress.
std::string plain_text(const std::vector<Inline>& words);

}  // namespace pointwright
