#include "studio/page.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>
#include <set>

#include "studio/digest.hpp"
#include "studio/html.hpp"
#include "studio/preview.hpp"
#include "tests/page/sample_course.hpp"

namespace pointwright {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string between(const std::string& text, const std::string& begin, const std::string& end) {
  const std::size_t from = text.find(begin) + begin.size();
  return text.substr(from, text.find(end, from) - from);
}

std::string sample_html() {
  const auto page = page_html(sample_course());
  EXPECT_TRUE(page.ok());
  return page.ok() ? *page : std::string();
}

// The digests of the empty message and of "abc": FIPS 180-4, from NIST's published examples.
TEST(Digest, AgreesWithPublishedExamples) {
  EXPECT_EQ(sha256_base64(""), "47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=");
  EXPECT_EQ(sha256_base64("abc"), "ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=");
}

TEST(Page, ItsPolicyNamesItsOwnStyleAndScriptAndNothingElse) {
  const std::string html = sample_html();
  const std::string policy = between(html, "Content-Security-Policy\" content=\"", "\"");
  const std::string style = sha256_base64(between(html, "<style>", "</style>"));
  std::string scripts;
  for (std::size_t at = html.find("<script>"); at != std::string::npos;
       at = html.find("<script>", at + 1)) {
    const std::string source =
        " 'sha256-" + sha256_base64(between(html.substr(at), "<script>", "</script>")) + "'";
    // Behind each chapter stands the same one.
    if (scripts.find(source) == std::string::npos) {
      scripts += source;
    }
  }
  EXPECT_EQ(policy, "default-src 'none'; style-src 'sha256-" + style + "'; script-src" + scripts +
                        "; base-uri 'none'; form-action 'none'");
}

TEST(Page, ANoteShowsWhatItQuotesOfTheLessonAsCode) {
  AuthorNote note;
  note.message = "`<b>legal` is false, and ` stands alone";
  note.reasons = {"Write `illegal` or `roll`."};
  const Preview preview{"1", "1 false", "", "", {note}};
  const auto page = page_html(sample_course(), nullptr, &preview);
  ASSERT_TRUE(page.ok());
  EXPECT_THAT(*page, HasSubstr("<p class=\"message\"><code>&lt;b&gt;legal</code> is false, and ` "
                               "stands alone</p>\n<p>Write <code>illegal</code> or "
                               "<code>roll</code>.</p>"));
}

TEST(Page, FetchesNothing) {
  const std::string html = sample_html();
  EXPECT_THAT(html, Not(HasSubstr(" src=")));
  EXPECT_THAT(html, Not(HasSubstr("url(")));
  EXPECT_THAT(html, Not(HasSubstr("@import")));
  EXPECT_THAT(html, Not(HasSubstr("<link")));
  EXPECT_THAT(html, Not(HasSubstr(" style=")));
}

TEST(Page, EveryIdIsThereOnceAndEveryReferenceLeadsToOne) {
  const std::string html = sample_html();
  const auto found = [&](const std::string& pattern) {
    const std::regex regex(pattern);
    std::vector<std::string> all;
    for (std::sregex_iterator it(html.begin(), html.end(), regex), end; it != end; ++it) {
      all.push_back((*it)[1]);
    }
    return all;
  };
  const auto ids = found(" id=\"([^\"]*)\"");
  const std::set<std::string> distinct(ids.begin(), ids.end());
  EXPECT_EQ(ids.size(), distinct.size());
  for (const std::string& target : found("href=\"#([^\"]*)\"")) {
    EXPECT_TRUE(distinct.contains(target)) << target;
  }
  for (const std::string& target : found("(?:for|aria-describedby)=\"([^\"]*)\"")) {
    EXPECT_TRUE(distinct.contains(target)) << target;
  }
}

TEST(Page, ShowsStepsRulingsClaimsAndQuestions) {
  const std::string html = sample_html();
  for (const char* text :
       {"In with the four.", "must come in before any other checker moves", "2 statements proved",
        "bar/21 13/11 may be played.", "Known how: exact.", "data-play=\"bar/23 13/9\" data-legal",
        "data-number=\"167\"", "Linen doubles to 2", "Denim takes at 2", "Linen rolls 6-5",
        "href=\"#coming-in\"", "How this was proved", "This course makes 3 statements"}) {
    EXPECT_THAT(html, HasSubstr(text));
  }
}

// Whatever text stands in a storyboard comes out as text.
TEST(Page, EscapesEveryTextOfTheStoryboard) {
  const std::string evil = "</script></style></template><img src=x onerror=alert(1)>\"'&";
  Storyboard course = sample_course();
  const auto spoil = [&](std::string& text) { text += evil; };
  spoil(course.title);
  spoil(course.summary);
  spoil(course.author);
  spoil(course.language);
  for (Chapter& chapter : course.chapters) {
    spoil(chapter.id);
    spoil(chapter.title);
    spoil(chapter.summary);
    spoil(chapter.names.of[0]);
    spoil(chapter.names.of[1]);
    for (Part& part : chapter.parts) {
      if (part.prose) {
        for (Inline& word : part.prose->words) {
          spoil(word.text);
          spoil(word.href);
        }
      }
      if (part.scene) {
        spoil(part.scene->id);
        spoil(part.scene->caption);
        for (Step& step : part.scene->steps) {
          spoil(step.action);
          spoil(step.words);
          step.ruling = evil;
        }
        for (ProvedClaim& claim : part.scene->claims) {
          spoil(claim.text);
          spoil(claim.statement);
          spoil(claim.proof);
        }
      }
      if (part.question) {
        spoil(part.question->id);
        spoil(part.question->explanation);
        for (Inline& word : part.question->ask) {
          spoil(word.text);
        }
        for (Question::Choice& choice : part.question->choices) {
          spoil(choice.reply);
        }
        for (Question::PlayAnswer& answer : part.question->plays) {
          spoil(answer.play);
          spoil(answer.reply);
        }
      }
    }
  }
  const auto page = page_html(course);
  ASSERT_TRUE(page.ok());
  EXPECT_THAT(*page, Not(HasSubstr("<img")));
  const auto count = [&](const std::string& text) {
    int found = 0;
    for (std::size_t at = page->find(text); at != std::string::npos;
         at = page->find(text, at + 1)) {
      ++found;
    }
    return found;
  };
  EXPECT_EQ(count("</script>"), 2 + static_cast<int>(course.chapters.size()));
  EXPECT_EQ(count("</noscript>"), static_cast<int>(course.chapters.size()));
  EXPECT_EQ(count("</style>"), 1);
  EXPECT_EQ(count("<template>"), count("</template>"));
}

TEST(Page, NamesThePlaceOfAPositionThatCannotBeRead) {
  Storyboard course = sample_course();
  course.chapters[1].parts[1].scene->steps[2].position = "light 26x2; dark 1x1";
  const auto page = page_html(course);
  ASSERT_FALSE(page.ok());
  EXPECT_EQ(page.error().where, "chapter coming-in, board three-doors, step 3");
  EXPECT_FALSE(page.error().reason.empty());
}

TEST(Page, ACourseWithoutChaptersSaysSo) {
  Storyboard course;
  course.title = "Nothing yet";
  const auto page = page_html(course);
  ASSERT_TRUE(page.ok());
  EXPECT_THAT(*page, HasSubstr("This course has no chapters yet."));
}

TEST(Page, EqualInputGivesEqualBytes) {
  EXPECT_EQ(sample_html(), sample_html());
}

// So a browser need not decode it: see ascii_html.
TEST(Page, IsWrittenInAsciiWhateverItsTextsSay) {
  Storyboard course = sample_course();
  course.title = "Zw\xC3\xB6lf \xE2\x80\x9C\xF0\x9F\x8E\xB2\xE2\x80\x9D";
  const auto page = page_html(course);
  ASSERT_TRUE(page.ok());
  EXPECT_THAT(*page, HasSubstr("Zw&#246;lf &#8220;&#127922;&#8221;"));
  EXPECT_TRUE(
      std::ranges::all_of(*page, [](char c) { return static_cast<unsigned char>(c) < 0x80; }));
}

TEST(Html, AsciiLeavesAloneWhatIsNotUtf8) {
  for (const std::string text : {"plain", "\xC3", "\x80\xBF", "\xE2\x80", "\xFF\xFE", "\xC0\xAF"})
    EXPECT_EQ(ascii_html(text), text);
  EXPECT_EQ(ascii_html("\xE2\x80\x93\xC3"), "&#8211;\xC3");
}

TEST(Html, OnlySafeAddressesBecomeLinks) {
  for (const char* safe : {"https://example.org/a?b#c", "HTTP://example.org",
                           "mailto:a@example.org", "other.md", "a/b.html#c", "#part", "?q=1:2"}) {
    EXPECT_TRUE(is_safe_link(safe)) << safe;
  }
  for (const char* unsafe : {"javascript:alert(1)", "JavaScript:alert(1)", "data:text/html,x",
                             "vbscript:x", "//example.org", "java\nscript:x", " javascript:x",
                             "\\\\example.org", "file:///etc/passwd"}) {
    EXPECT_FALSE(is_safe_link(unsafe)) << unsafe;
  }
}

TEST(Html, HeadingsNeverSkipALevel) {
  const std::vector<Chapter> none;
  ProseWriter writer(none);
  writer.start_chapter(2);
  std::string out;
  for (const int level : {4, 2, 1, 3, 6, 6, 6}) {
    writer.block(out, {Prose::Kind::heading, level, {{Inline::Kind::text, "x", {}, {}}}, {}});
  }
  EXPECT_EQ(out,
            "<h3>x</h3>\n<h3>x</h3>\n<h3>x</h3>\n<h4>x</h4>\n<h5>x</h5>\n<h6>x</h6>\n<h6>x</h6>\n");
}

TEST(Html, IdsAreOfLettersDigitsAndHyphens) {
  EXPECT_EQ(html_id("01 The Board"), "01-the-board");
  EXPECT_EQ(html_id("--"), "part");
  EXPECT_EQ(html_id("Who is ahead?"), "who-is-ahead");  // two hyphens stand behind a chapter's id
}

}  // namespace
}  // namespace pointwright
