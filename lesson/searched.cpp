#include "lesson/searched.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <sstream>

#include "judge/search.hpp"
#include "judge/shipped.hpp"

namespace pointwright::lesson {
namespace {

constexpr int depth = 2;

/// The nets and the way of searching, so that what an older program kept is never taken for new.
const std::string& version() {
  static const std::string text = [] {
    const judge::SearchOptions usual;
    return fmt::format("1 {:016x} {} {} {} {} {}", judge::shipped_nets_hash(), usual.first.most,
                       usual.first.within, usual.second.most, usual.second.within,
                       usual.reply.most);
  }();
  return text;
}

std::string key_of(std::string_view what, const Ask& ask, const judge::Valuation& v) {
  return fmt::format("{} | {} {} {} {} {} {} {} | {}", version(), what, v.base, v.win, v.win_gammon,
                     v.win_backgammon, v.lose_gammon, v.lose_backgammon, to_text(ask.position()));
}

/// The numbers kept under a key, if there are as many as expected.
std::optional<std::vector<double>> remembered(const Ask& ask, const std::string& key,
                                              std::size_t count) {
  if (ask.memo() == nullptr) return std::nullopt;
  const auto line = ask.memo()->find(key);
  if (!line) return std::nullopt;
  std::istringstream text(*line);
  text.imbue(std::locale::classic());
  std::vector<double> numbers;
  for (double number = 0; text >> number;) numbers.push_back(number);
  if (numbers.size() != count || !text.eof()) return std::nullopt;
  return numbers;
}

void remember(const Ask& ask, const std::string& key, const std::vector<double>& numbers) {
  if (ask.memo() != nullptr) ask.memo()->keep(key, fmt::format("{:.9g}", fmt::join(numbers, " ")));
}

/// Numbers from the memo, or computed and put there.
template <class Compute>
std::vector<double> numbers(const Ask& ask, const std::string& key, std::size_t count,
                            Compute compute) {
  if (auto known = remembered(ask, key, count)) return *known;
  const std::vector<double> computed = compute();
  remember(ask, key, computed);
  return computed;
}

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
  judge::Search search(judge::shipped_evaluator());
  const std::vector<LegalPlay> legal = legal_plays(ask.position().board, ask.side(), ask.roll());
  // Which plays are worth a second look is kept with their worth: index, value, before, exact.
  constexpr std::size_t most = 4;
  const std::string key = key_of("plays", ask, valuation);
  const std::size_t looked_at = std::min(most, legal.size());
  const std::vector<double> found = numbers(ask, key, 4 * looked_at, [&] {
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
    const auto worth = numbers(ask, key + " | " + to_text(wanted), 3,
                               [&] { return worth_of(search, wanted, ask.side(), valuation); });
    plays.push_back({*at, searched(worth, 0)});
  }
  std::ranges::stable_sort(plays, std::ranges::greater{},
                           [](const SearchedPlay& play) { return play.equity.value; });
  return plays;
}

SearchedPosition searched_position(const Ask& ask, const judge::Valuation& valuation) {
  const std::vector<double> found = numbers(ask, key_of("worth", ask, valuation), 12, [&] {
    judge::Search search(judge::shipped_evaluator());
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
