#include "lesson/searched.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "judge/search.hpp"
#include "judge/shipped.hpp"
#include "lesson/remembered.hpp"

namespace pointwright::lesson {
namespace {

constexpr int depth = 2;

/// The host's search, or one of its own.
class Searcher {
 public:
  explicit Searcher(const Ask& ask) : lent_(ask.help().search) {
    if (lent_ == nullptr) own_.emplace(judge::shipped_evaluator());
  }
  judge::Search& get() { return lent_ != nullptr ? *lent_ : *own_; }

 private:
  judge::Search* lent_;
  std::optional<judge::Search> own_;
};

/// What a play's board is worth to the side that has left it: value, one roll before, exact.
std::vector<double> worth_of(judge::Search& search, const Board& after, Side side,
                             const judge::Valuation& valuation) {
  const auto worth = [&](int rolls) {
    return search.worth(after, opponent(side), rolls, valuation.reversed());
  };
  const judge::SearchedValue two = worth(depth);
  const judge::SearchedValue one = worth(1);
  const bool exact =
      two.origin == judge::Origin::exact_table || two.origin == judge::Origin::game_over;
  return {-static_cast<double>(two.equity), -static_cast<double>(one.equity), exact ? 1.0 : 0.0};
}

Searched searched(const std::vector<double>& numbers, std::size_t at) {
  return {numbers[at], numbers[at + 1], numbers[at + 2] != 0};
}

}  // namespace

double Searched::error(double measured) const {
  return exact ? 0 : std::max(measured, std::abs(value - before));
}

Settled settle(double value, double error, double low, double high) {
  constexpr double rounding = 1e-6;  // of the evaluator's numbers
  if (value - error >= low - rounding && value + error <= high + rounding) return Settled::yes;
  if (value + error < low - rounding || value - error > high + rounding) return Settled::no;
  return Settled::open;
}

std::variant<judge::Valuation, Unanswerable> valuation_for(const Ask& ask) {
  if (winner_of(ask.position().board)) {
    return Unanswerable{"the game is over on this board", "choose another board"};
  }
  if (const auto valuation = judge::valuation_of(ask.position(), ask.side())) return *valuation;
  return Unanswerable{"the match is over, or longer than the match table",
                      "state a shorter match, or leave it out"};
}

std::vector<SearchedPlay> searched_plays(const Ask& ask, const judge::Valuation& valuation,
                                         const Board& wanted) {
  const std::vector<LegalPlay> legal = legal_plays(ask.position().board, ask.side(), ask.roll());
  // Which plays are worth a second look is kept with their worth: index, value, before, exact.
  constexpr std::size_t most = 4;
  const std::string key = memo_key("plays", ask, valuation);
  const std::size_t looked_at = std::min(most, legal.size());
  const std::vector<double> found = remembered(ask, key, 4 * looked_at, [&] {
    Searcher searcher(ask);
    judge::Search& search = searcher.get();
    std::vector<double> result;
    const auto ranked = search.rank(ask.position().board, ask.side(), ask.roll(), depth, valuation);
    for (std::size_t i = 0; i < looked_at; ++i) {
      const auto at = std::ranges::find_if(
          legal, [&](const LegalPlay& play) { return play.after == ranked[i].play.after; });
      result.push_back(static_cast<double>(at - legal.begin()));
      const auto worth = worth_of(search, at->after, ask.side(), valuation);
      result.insert(result.end(), worth.begin(), worth.end());
    }
    return result;
  });
  std::vector<SearchedPlay> plays;
  for (std::size_t i = 0; i < looked_at; ++i) {
    const auto index = std::min(static_cast<std::size_t>(found[4 * i]), legal.size() - 1);
    plays.push_back({legal[index], searched(found, 4 * i + 1)});
  }
  const auto is_wanted = [&](const SearchedPlay& play) { return play.play.after == wanted; };
  if (std::ranges::none_of(plays, is_wanted)) {
    const auto at =
        std::ranges::find_if(legal, [&](const LegalPlay& play) { return play.after == wanted; });
    const auto worth = remembered(ask, key + " | " + to_text(wanted), 3, [&] {
      return worth_of(Searcher(ask).get(), wanted, ask.side(), valuation);
    });
    plays.push_back({*at, searched(worth, 0)});
  }
  std::ranges::stable_sort(plays, std::ranges::greater{},
                           [](const SearchedPlay& play) { return play.equity.value; });
  return plays;
}

SearchedPosition searched_position(const Ask& ask, const judge::Valuation& valuation) {
  const std::vector<double> found = remembered(ask, memo_key("worth", ask, valuation), 12, [&] {
    Searcher searcher(ask);
    judge::Search& search = searcher.get();
    const auto two = search.worth(ask.position().board, ask.side(), depth, valuation);
    const auto one = search.worth(ask.position().board, ask.side(), 1, valuation);
    const double exact = two.origin == judge::Origin::exact_table ? 1 : 0;
    std::vector<double> result;
    const auto add = [&](float value, float before) {
      result.insert(result.end(), {static_cast<double>(value), static_cast<double>(before), exact});
    };
    add(two.chances.win, one.chances.win);
    add(two.chances.win_gammon, one.chances.win_gammon);
    add(two.chances.lose_gammon, one.chances.lose_gammon);
    add(two.equity, one.equity);
    return result;
  });
  return {searched(found, 0), searched(found, 3), searched(found, 6), searched(found, 9)};
}

HowKnown how_known(bool exact) {
  if (exact) return {};
  return {.kind = HowKnown::Kind::searched, .depth = depth};
}

}  // namespace pointwright::lesson
