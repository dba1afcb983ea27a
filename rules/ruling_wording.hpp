#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "rules/board.hpp"
#include "rules/ruling.hpp"

/// The words of which the referee's sentences are made.
namespace pointwright::wording {

/// "no", "one", "two" ... "fifteen", then in digits. Precondition: n >= 0.
std::string number_word(int n);

/// "one checker", "two checkers".
std::string checkers(int n);

/// "a", "a and b", "a, b and c"; the last word may be another, such as "or".
std::string listed(const std::vector<std::string>& items, std::string_view last = "and");

/// The name with 's, or with ' alone behind an s.
std::string possessive(const std::string& name);

/// Begins with a capital letter, unless the text begins with a move.
std::string sentence(std::string text);

/// One step as it is written: "24/18", "bar/20", "5/off".
std::string step_text(Place from, Place to);

/// Speaks of a position from the side that is to play.
class Speaker {
 public:
  Speaker(const SideNames& names, Side side) : names_(&names), side_(side) {}

  [[nodiscard]] const std::string& mover() const { return (*names_)[side_]; }
  [[nodiscard]] const std::string& other() const { return (*names_)[opponent(side_)]; }

  /// "light's 18".
  [[nodiscard]] std::string point(Place place) const;

  /// "light's 18 (dark's 7)".
  [[nodiscard]] std::string both_numbers(Place point) const;

  /// "two checkers on light's 18 (dark's 7)", of the other side.
  [[nodiscard]] std::string holding(const Board& board, Place point) const;

  /// "dark has two checkers on light's 18 (dark's 7)".
  [[nodiscard]] std::string holders(const Board& board, Place point) const;

  /// Why a die cannot be played at all: "a 5 would have to land on light's 19 or 8, which dark
  /// holds". Precondition: it cannot.
  [[nodiscard]] std::string why_not(const Board& board, int die) const;

 private:
  const SideNames* names_;
  Side side_;
};

}  // namespace pointwright::wording
