#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "chance/event.hpp"
#include "finder/facts.hpp"
#include "rules/fault.hpp"
#include "rules/notation.hpp"
#include "rules/rulebook.hpp"

namespace pointwright::finder {

/// From the least to the most, both included.
struct Range {
  int least = 0;
  int most = 0;
  friend bool operator==(const Range&, const Range&) = default;

  /// How far outside a number lies; 0 inside.
  [[nodiscard]] constexpr int gap(int n) const {
    return n < least ? least - n : n > most ? n - most : 0;
  }
};
/// Stands for "no bound" in a range.
inline constexpr int boundless = 1'000'000;

struct PredicateKind;

/// One statement of a query, as read: its kind and what stands in its blanks.
struct Predicate {
  const PredicateKind* kind = nullptr;
  std::size_t form = 0;      ///< which of the kind's forms
  std::optional<Side> side;  ///< none: the side to play
  Range range;
  const Rule* rule = nullptr;
  std::string play_text;  ///< a play as it was written
  Attempt attempt;        ///< the same, read
  std::optional<chance::Query> event;
  Place place = 0;
  std::optional<Roll> roll;
  TextSpan where;
};

/// What a predicate says of one position.
struct Statement {
  std::string claim{};     ///< the true claim on this matter, as a lesson writes it; may be empty
  std::string sentence{};  ///< the same with its proof, for a reader
};

/// One kind of predicate: a row of the tables behind `predicate_kinds`. The reader, its messages,
/// the searches and the reference are made from these.
struct PredicateKind {
  std::string_view name;                    ///< one word for the kind
  std::span<const std::string_view> forms;  ///< as written; words in capitals are blanks
  std::string_view says;                    ///< for the reference
  std::string_view example;                 ///< a query of this kind alone
  enum class Subject : std::uint8_t { camp, board, roll, turn } subject;
  int cost;  ///< roughly, compared with looking at one camp

  /// How far the position is from making it true: 0 exactly when it is true. Counts steps of
  /// whatever it is about, so that a search can follow it downhill.
  int (*distance)(Facts& facts, const Predicate& predicate);
  /// What is true of the position on this matter, whether or not the predicate is.
  Statement (*state)(Facts& facts, const Predicate& predicate);
  /// What can be said before everything is known; null if nothing can.
  Truth (*early)(const Facts& facts, const Predicate& predicate) = nullptr;
};

/// Every kind, in the order of the reference.
const std::vector<const PredicateKind*>& predicate_kinds();

// The two halves of that list.
std::span<const PredicateKind> kinds_about_positions();
std::span<const PredicateKind> kinds_about_plays();

/// What has to be known before the predicate can be judged: bits of Known.
std::uint8_t needs(const Predicate& predicate, Side mover);

/// Whose checkers it is about: the side named, or the side to play.
inline Side side_of(const Facts& facts, const Predicate& predicate) {
  return predicate.side.value_or(facts.side());
}

/// The predicate as text that reads back to it.
std::string to_text(const Predicate& predicate);
/// A range in whole numbers, or in parts: `per` 36 for rolls, 1000 for thousandths of a point.
std::string to_text(Range range, int per = 0);

}  // namespace pointwright::finder
