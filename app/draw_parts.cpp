#include "app/draw_parts.hpp"

#include <optional>
#include <vector>

#include "rules/text.hpp"

namespace pointwright::app {
namespace {

Failure unreadable(const std::string& text, std::string_view id, TextSpan where, std::string reason,
                   std::string fix) {
  return {
      .text = text,
      .origin = "argument",
      .faults = {{.id = id, .where = where, .reason = std::move(reason), .fix = std::move(fix)}}};
}

TextSpan whole(const std::string& text) {
  return {.begin = 0, .end = text.size()};
}

/// The side and the one word after it.
struct OfSide {
  Side side;
  text::Word word;
};

Result<OfSide, Failure> read_of_side(const std::string& text, const std::string& example) {
  const auto words = text::words(text, whole(text), true);
  if (words.size() != 2) {
    return unreadable(text, "side-and-place", whole(text), "a side and one word are wanted",
                      "write it like: " + example);
  }
  const auto side = text::side_named(words[0].text);
  if (!side) {
    return unreadable(text, "no-such-side", words[0].where,
                      text::quoted(words[0].text) + " is not a side", "write light or dark first");
  }
  return OfSide{.side = *side, .word = words[1]};
}

constexpr std::string_view places = "points are 1 to 24; the other places are bar and off";

}  // namespace

Result<Mark, Failure> read_mark(const std::string& text) {
  const auto read = read_of_side(text, "light 22");
  if (!read.ok()) return read.error();
  const auto place = text::place_named(read->word.text);
  if (!place) {
    return unreadable(text, "no-such-place", read->word.where,
                      text::quoted(read->word.text) + " is not a place", std::string{places});
  }
  return Mark{.side = read->side, .place = *place};
}

Result<Arrow, Failure> read_arrow(const std::string& text) {
  const auto read = read_of_side(text, "light bar/22");
  if (!read.ok()) return read.error();
  const std::string_view word = read->word.text;
  const std::size_t slash = word.find('/');
  if (slash == std::string_view::npos) {
    return unreadable(text, "arrow-unclear", read->word.where,
                      text::quoted(word) + " does not say from where to where",
                      "write it like: light bar/22");
  }
  Arrow arrow{.side = read->side};
  const std::size_t begin = read->word.where.begin;
  const auto end_of = [&](std::string_view part, std::size_t at,
                          Place& place) -> std::optional<Failure> {
    const auto named = text::place_named(part);
    if (!named) {
      return unreadable(text, "no-such-place", {.begin = at, .end = at + part.size()},
                        text::quoted(part) + " is not a place", std::string{places});
    }
    place = *named;
    return std::nullopt;
  };
  if (const auto wrong = end_of(word.substr(0, slash), begin, arrow.from)) return *wrong;
  if (const auto wrong = end_of(word.substr(slash + 1), begin + slash + 1, arrow.to)) return *wrong;
  if (arrow.from == arrow.to) {
    return unreadable(text, "arrow-unclear", read->word.where, "the arrow goes nowhere",
                      "name two different places");
  }
  return arrow;
}

Result<SideNames, Failure> read_side_names(const std::string& text) {
  const auto parts = text::split(text, whole(text), ',');
  const auto empty = [](TextSpan part) { return part.begin == part.end; };
  if (parts.size() != 2 || empty(parts[0]) || empty(parts[1])) {
    return unreadable(text, "names-unclear", whole(text), "two names are wanted",
                      "write light's name, a comma, and dark's name: Ivory,Walnut");
  }
  const auto part = [&](std::size_t i) {
    return text.substr(parts[i].begin, parts[i].end - parts[i].begin);
  };
  SideNames names;
  names.of = {part(0), part(1)};
  return names;
}

}  // namespace pointwright::app
