#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/failure.hpp"
#include "finder/exercise.hpp"
#include "rules/result.hpp"

struct sqlite3;

namespace pointwright::app {

/// A day, counted from 1 January 1970.
using Day = std::int64_t;

/// The day of a date such as 2026-03-14; nothing if there is no such date.
std::optional<Day> day_of(std::string_view date);

/// Today, by this computer's clock, in UTC.
Day today();

/// A card of a deck: an exercise and how well it is known.
struct DeckCard {
  std::string id;
  finder::Exercise exercise;
  int box = 1;
  Day due = 0;
};

/// Exercises that come back until they are known, in a file. The schedule is that of boxes (S.
/// Leitner, *So lernt man lernen*, 1972): a card that is answered goes up one box, one that is
/// missed goes back to the first, and a card comes back after 1, 2, 4, 8 or 16 days, by its box.
class Deck {
 public:
  /// Opens the file, or makes it.
  static Result<Deck, Failure> open(const std::string& path);

  /// Adds exercises that are not in it yet, due at once: all of them or, where the deck cannot be
  /// written, none. Returns how many were new.
  Result<int, Failure> add(const std::vector<finder::Exercise>& exercises, Day today);
  /// What is due, the cards waiting longest first.
  struct Due {
    std::vector<DeckCard> cards;
    std::vector<std::string> damaged;  ///< the ids of cards that cannot be read
  };
  Result<Due, Failure> due(Day today);
  /// Notes an answer: moves the card to its next box. Returns why it could not, if so.
  std::optional<Failure> note(const DeckCard& card, bool right, Day today);
  /// How many cards there are, and the first day on which one is due.
  struct State {
    int cards = 0;
    std::optional<Day> next;
  };
  State state();

 private:
  struct Close {
    void operator()(sqlite3* database) const;
  };
  Deck(sqlite3* database, std::string path) : path_(std::move(path)), database_(database) {}
  [[nodiscard]] Failure not_read() const;
  [[nodiscard]] Failure not_written() const;
  std::string path_;
  std::unique_ptr<sqlite3, Close> database_;
};

/// Days until a card of that box comes back. Precondition: 1 <= box <= last_box.
inline constexpr int last_box = 5;
constexpr Day days_in_box(int box) {
  return Day{1} << (box - 1);
}

}  // namespace pointwright::app
