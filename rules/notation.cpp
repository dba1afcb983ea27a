#include "rules/notation.hpp"

#include <algorithm>

#include "rules/position.hpp"
#include "rules/text.hpp"

namespace pointwright {
namespace {

using text::Word;

/// More than any play can need; keeps absurd input from growing.
constexpr std::size_t longest_text = 500;
constexpr std::size_t most_journeys = 16;
constexpr std::size_t most_stops = 6;

/// Reads one play.
class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  Result<Attempt, Faults> run() {
    if (text_.size() > longest_text) {
      fault("play-too-long", {longest_text, text_.size()},
            "the play has " + std::to_string(text_.size()) + " characters",
            "a play is at most four moves, such as 8/5(2) 6/3(2)");
      return faults_;
    }
    attempt_.text = text_;
    std::vector<Word> words = split_words();
    if (words.empty()) {
      fault("play-empty", {0, text_.size()}, "no moves are given",
            "write moves such as 13/7 8/7, or no play");
      return faults_;
    }
    if (words.size() == 2 && text::same_word(words[0].text, "no") &&
        text::same_word(words[1].text, "play"))
      return attempt_;
    for (const Word& word : words) read_journey(word);
    if (attempt_.journeys.size() > most_journeys)
      fault("too-many-moves", {0, text_.size()},
            std::to_string(attempt_.journeys.size()) + " moves are given",
            "a turn has four moves at most");
    if (!faults_.empty()) return faults_;
    return attempt_;
  }

 private:
  void fault(std::string_view id, TextSpan where, std::string reason, std::string fix) {
    faults_.push_back({id, where, std::move(reason), std::move(fix)});
  }

  /// Words between spaces, commas and underscores; "(2)" may stand apart from its journey.
  std::vector<Word> split_words() {
    std::vector<Word> words;
    for (const TextSpan piece : text::split(text_, {0, text_.size()}, ',')) {
      for (const Word& word : text::words(text_, piece, true)) {
        if (!words.empty() && word.text.starts_with('(') &&
            words.back().text.find('(') == std::string_view::npos) {
          const TextSpan joined{words.back().where.begin, word.where.end};
          words.back() = {text_.substr(joined.begin, joined.end - joined.begin), joined};
        } else {
          words.push_back(word);
        }
      }
    }
    return words;
  }

  void read_journey(const Word& word) {
    Journey journey;
    journey.where = word.where;
    TextSpan route = word.where;
    int times = 1;
    const std::size_t bracket = word.text.find('(');
    if (bracket != std::string_view::npos) {
      const TextSpan count{word.where.begin + bracket, word.where.end};
      route.end = count.begin;
      while (route.end > route.begin && text::is_space(text_[route.end - 1])) --route.end;
      times = read_times(count);
      if (times == 0) return;
    }
    for (const TextSpan stop : text::split(text_, route, '/')) {
      if (!read_stop(stop, journey)) return;
    }
    if (journey.stops.size() < 2) {
      fault("move-incomplete", word.where,
            text::quoted(word.text) + " does not say where the checker goes",
            "write from and to, such as 13/7");
      return;
    }
    if (journey.stops.size() > most_stops) {
      fault("too-many-stops", word.where, text::quoted(word.text) + " stops too often",
            "a checker moves at most four times in a turn");
      return;
    }
    attempt_.journeys.insert(attempt_.journeys.end(), static_cast<std::size_t>(times), journey);
  }

  /// Reads "(2)"; 0 after a fault.
  int read_times(TextSpan span) {
    const std::string_view inside = text_.substr(span.begin, span.end - span.begin);
    if (inside.size() == 3 && inside[2] == ')' && inside[1] >= '1' && inside[1] <= '4')
      return inside[1] - '0';
    fault("bad-repeat", span, text::quoted(inside) + " does not say how many checkers",
          "write (2), (3) or (4) behind the move");
    return 0;
  }

  bool read_stop(TextSpan span, Journey& journey) {
    std::string_view word = text_.substr(span.begin, span.end - span.begin);
    const bool hit = word.ends_with('*');
    if (hit) word.remove_suffix(1);
    const bool first = journey.stops.empty();
    std::optional<Place> place;
    if (text::same_word(word, "bar")) {
      place = bar_place;
    } else if (text::same_word(word, "off")) {
      place = off_place;
    } else if (const auto point = text::number(word, 1'000'000)) {
      if (*point < 1 || *point > 24) {
        fault("no-such-point", span, "there is no point " + std::string(word),
              "points are 1 to 24; write bar and off for the other places");
        return false;
      }
      place = static_cast<Place>(*point);
    }
    if (!place) {
      fault("no-such-place", span, text::quoted(word) + " is not a place",
            "write a point from 1 to 24, bar or off, with / between them");
      return false;
    }
    if (first && *place == off_place) {
      fault("starts-off", span, "a checker that has been borne off does not come back",
            "write the move from a point or the bar");
      return false;
    }
    if (!first && *place == bar_place) {
      fault("ends-on-bar", span, "nobody moves onto the bar; a checker is sent there by a hit",
            "write where the checker lands, with * behind it for a hit");
      return false;
    }
    if (hit && (first || *place == off_place)) {
      fault("star-misplaced", span, "* stands behind a point where a checker is hit",
            "remove this *");
      return false;
    }
    if (!first && journey.stops.back() == off_place) {
      fault("moves-after-off", span, "a checker that has been borne off does not move on",
            "end the move with off");
      return false;
    }
    journey.stops.push_back(*place);
    journey.hits.push_back(hit);
    return true;
  }

  std::string_view text_;
  Attempt attempt_;
  Faults faults_;
};

/// The moves of one checker, joined.
struct Route {
  std::vector<Move> moves;
  [[nodiscard]] Place from() const { return moves.front().from; }
  [[nodiscard]] Place to() const { return moves.back().to; }

  [[nodiscard]] std::string text() const {
    std::string result = to_text(from());
    for (std::size_t i = 0; i < moves.size(); ++i) {
      if (i + 1 == moves.size() || moves[i].hit) result += "/" + to_text(moves[i].to);
      if (moves[i].hit) result += "*";
    }
    return result;
  }
};

/// Joins moves into journeys: each move goes on with the first checker that stopped where it
/// starts.
std::vector<Route> join(const Play& play) {
  std::vector<Move> moves(play.begin(), play.end());
  std::stable_sort(moves.begin(), moves.end(),
                   [](const Move& a, const Move& b) { return a.from > b.from; });
  std::vector<Route> routes;
  for (const Move& move : moves) {
    const auto open = std::find_if(routes.begin(), routes.end(),
                                   [&](const Route& route) { return route.to() == move.from; });
    if (open != routes.end())
      open->moves.push_back(move);
    else
      routes.push_back({{move}});
  }
  std::stable_sort(routes.begin(), routes.end(), [](const Route& a, const Route& b) {
    return a.from() != b.from() ? a.from() > b.from() : a.to() > b.to();
  });
  return routes;
}

}  // namespace

Result<Attempt, Faults> read_play(std::string_view text) {
  return Reader(text).run();
}

std::string to_text(const Play& play) {
  if (play.empty()) return "no play";
  const std::vector<Route> routes = join(play);
  std::string result;
  for (std::size_t i = 0; i < routes.size();) {
    // Of equal journeys the first makes all the hits; its * stands for the group: 8/5*(2).
    std::size_t next = i + 1;
    while (next < routes.size() && routes[next].from() == routes[i].from() &&
           routes[next].to() == routes[i].to())
      ++next;
    result += (result.empty() ? "" : " ") + routes[i].text();
    if (next - i > 1) result += "(" + std::to_string(next - i) + ")";
    i = next;
  }
  return result;
}

}  // namespace pointwright
