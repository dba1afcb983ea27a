#include <fmt/format.h>

#include "lesson/board.hpp"
#include "rules/text.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::uint64_t last_point = 24;

/// Calls `read` with the side and the second word of each `SIDE WORD` between commas. The side may
/// be left out after the first.
template <class Read>
void each_of_side(TextSpan where, Report& report, std::string_view example, const Read& read) {
  const SourceText& source = report.source();
  std::optional<Side> side;
  for (const TextSpan piece : text::split(source.text(), where, ',')) {
    const auto words = text::words(source.text(), piece, false);
    const std::optional<Side> own = words.empty() ? std::nullopt : side_named(words.front().text);
    if (own) side = own;
    const std::size_t needed = own ? 2 : 1;
    if (side && words.size() == needed && read(*side, words.back().text)) continue;
    const TextSpan at = words.empty() ? where : trimmed(source, piece);
    report.add(kinds::bad_mark, at, fmt::format("{} cannot be read", text::quoted(source.text(at))))
        .hints.push_back(fmt::format("write it like: {}; sides are always light and dark, points 1 "
                                     "to 24",
                                     example));
  }
}

}  // namespace

std::vector<Mark> read_marks(TextSpan where, Report& report) {
  std::vector<Mark> marks;
  each_of_side(where, report, "light 24, dark bar, light 6-1",
               [&](Side side, std::string_view word) {
                 if (const auto place = place_named(word)) {
                   marks.push_back({side, *place});
                   return true;
                 }
                 const std::size_t dash = word.find('-');
                 if (dash == std::string_view::npos) return false;
                 const auto first = text::number(word.substr(0, dash), last_point);
                 const auto last = text::number(word.substr(dash + 1), last_point);
                 if (!first || !last || *first == 0 || *last == 0) return false;
                 const int step = *first <= *last ? 1 : -1;
                 for (int point = static_cast<int>(*first);; point += step) {
                   marks.push_back({side, static_cast<Place>(point)});
                   if (point == static_cast<int>(*last)) return true;
                 }
               });
  return marks;
}

std::vector<Arrow> read_arrows(TextSpan where, Report& report) {
  std::vector<Arrow> arrows;
  each_of_side(where, report, "light bar/22, dark 13/7", [&](Side side, std::string_view word) {
    const std::size_t slash = word.find('/');
    if (slash == std::string_view::npos) return false;
    const auto from = place_named(word.substr(0, slash));
    const auto to = place_named(word.substr(slash + 1));
    if (!from || !to || *from == *to) return false;
    arrows.push_back({side, *from, *to, false});
    return true;
  });
  return arrows;
}

}  // namespace pointwright::lesson
