#include <fmt/format.h>

#include <algorithm>

#include "app/cards.hpp"
#include "app/io.hpp"
#include "studio/page_head.hpp"
#include "studio/svg.hpp"

namespace pointwright::app {
namespace {

/// How many columns of text each column of a card takes.
std::vector<int> widths(const Card& card) {
  std::vector<int> result;
  for (std::size_t i = 0; i < card.columns.size(); ++i) {
    int widest = columns(card.columns[i]);
    for (const auto& row : card.rows) widest = std::max(widest, columns(row[i]));
    result.push_back(widest);
  }
  return result;
}

/// Words stand left, numbers right.
bool is_words(const Card& card, std::size_t column) {
  return std::any_of(card.rows.begin(), card.rows.end(),
                     [&](const auto& row) { return row[column].find(' ') != std::string::npos; });
}

std::string padded(const std::string& text, int width, bool left) {
  const std::string space(static_cast<std::size_t>(std::max(0, width - columns(text))), ' ');
  return left ? text + space : space + text;
}

std::string line_of(const Card& card, const std::vector<std::string>& cells,
                    const std::vector<int>& width) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    line += "  " + padded(cells[i], width[i], is_words(card, i));
  }
  line.erase(line.find_last_not_of(' ') + 1);
  return line + "\n";
}

/// What a page of cards adds to the style of every page.
constexpr std::string_view card_style =
    "main>section{margin-top:2.5rem}"
    "h2{font-size:1.35rem;font-weight:500;margin:0 0 .75rem}"
    "table{border-collapse:collapse;font-variant-numeric:lining-nums tabular-nums}"
    "th,td{padding:.2rem .6rem;text-align:right;border-bottom:1px solid var(--rule)}"
    "thead th{vertical-align:bottom;color:var(--pw-soft-ink);font-weight:500;font-size:.9rem}"
    "tbody th{font-weight:600}.words{text-align:left}.scroll{overflow-x:auto}"
    "main p{max-width:var(--measure)}"
    "@media print{html{font-size:11pt}section{break-after:page}"
    "section:last-child{break-after:auto}.scroll{overflow:visible}}";

void write_cell(std::string& out, std::string_view tag, std::string_view scope, bool left,
                const std::string& text) {
  out += fmt::format("<{0}{1}{2}>{3}</{0}>", tag, scope, left ? " class=\"words\"" : "",
                     escaped(text));
}

void write_section(std::string& out, const Card& card) {
  out += fmt::format(
      "<section aria-labelledby=\"{0}\">\n<h2 id=\"{0}\">{1}</h2>\n<div class=\"scroll\" "
      "tabindex=\"0\" role=\"group\" aria-labelledby=\"{0}\"><table>\n<thead><tr>",
      card.name, escaped(card.title));
  for (std::size_t i = 0; i < card.columns.size(); ++i) {
    write_cell(out, "th", " scope=\"col\"", is_words(card, i), card.columns[i]);
  }
  out += "</tr></thead>\n<tbody>\n";
  for (const auto& row : card.rows) {
    out += "<tr>";
    for (std::size_t i = 0; i < row.size(); ++i) {
      const bool head = i == 0;
      write_cell(out, head ? "th" : "td", head ? " scope=\"row\"" : "", is_words(card, i), row[i]);
    }
    out += "</tr>\n";
  }
  out += fmt::format("</tbody>\n</table></div>\n<p>{}</p>\n</section>\n", escaped(card.note));
}

}  // namespace

std::string card_text(const Card& card, int width) {
  const std::vector<int> wide = widths(card);
  std::string result = card.title + "\n\n" + line_of(card, card.columns, wide);
  for (const auto& row : card.rows) result += line_of(card, row, wide);
  return result + "\n" + wrapped(card.note, width);
}

std::string cards_page(const std::vector<Card>& cards) {
  PageHead head;
  head.title = "Backgammon in numbers";
  head.summary = "Reference cards: chances, endings, match score and rules of thumb.";
  head.style = style_sheet(card_style, nullptr);
  std::string out;
  write_head(out, head, nullptr);
  out +=
      fmt::format("<body>\n<header class=\"masthead\"><h1>{}</h1></header>\n<main>\n", head.title);
  for (const Card& card : cards) write_section(out, card);
  return out + "</main>\n</body>\n</html>\n";
}

std::string card_svg(const Card& card) {
  constexpr int character = 9;  // of a 15-pixel monospaced face
  constexpr int line = 22;
  constexpr int margin = 20;
  constexpr int gap = 2;  // characters between columns
  const std::vector<int> wide = widths(card);
  int characters = 0;
  for (const int column : wide) characters += column + gap;
  characters = std::max(characters, columns(card.title) + 4);
  const std::string note = wrapped(card.note, characters);
  const int lines = static_cast<int>(card.rows.size()) + 4 +
                    static_cast<int>(std::count(note.begin(), note.end(), '\n'));
  const int width = 2 * margin + characters * character;
  const int height = 2 * margin + lines * line;
  std::string out = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0} {1}\" width=\"{0}\" "
      "height=\"{1}\" role=\"img\" aria-label=\"{2}\" font-family=\"monospace\" "
      "font-size=\"15\">\n<rect width=\"{0}\" height=\"{1}\" fill=\"#fff\"/>\n",
      width, height, escaped(card.title));
  int y = margin + line / 2;
  const auto text = [&](int x, bool left, bool strong, std::string_view words) {
    out += fmt::format("<text x=\"{}\" y=\"{}\" fill=\"#1d1b18\"{}{}>{}</text>\n", x, y,
                       left ? "" : " text-anchor=\"end\"", strong ? " font-weight=\"bold\"" : "",
                       escaped(words));
  };
  text(margin, true, true, card.title);
  y += 2 * line;
  const auto row = [&](const std::vector<std::string>& cells, bool heading) {
    int x = margin;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const bool left = is_words(card, i);
      text(left ? x : x + wide[i] * character, left, heading || i == 0, cells[i]);
      x += (wide[i] + gap) * character;
    }
    y += line;
  };
  row(card.columns, true);
  for (const auto& cells : card.rows) row(cells, false);
  y += line / 2;
  for (std::size_t at = 0; at < note.size();) {
    const std::size_t end = std::min(note.find('\n', at), note.size());
    text(margin, true, false, std::string_view(note).substr(at, end - at));
    y += line;
    at = end + 1;
  }
  return out + "</svg>\n";
}

}  // namespace pointwright::app
