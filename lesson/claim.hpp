#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "chance/event.hpp"
#include "chance/gammon_shares.hpp"
#include "lesson/help.hpp"
#include "rules/notation.hpp"
#include "rules/position.hpp"
#include "rules/ruling.hpp"
#include "rules/score.hpp"
#include "storyboard/storyboard.hpp"

/// What a kind of claim is. Each kind is one file in lesson/claims/; lesson/claims/all.cpp names
/// them. Reading, checking, suggestions and docs/claims.md are made from these alone.
namespace pointwright::lesson {

/// Two numbers joined by a sign: a match score 3-5, or a fraction 27/36.
struct Pair {
  std::int64_t first = 0;
  std::int64_t second = 0;
};

/// A number that need not be whole, as stated: 9.47 +- 0.01, or 71.3% +- 0.5%.
struct Stated {
  double value = 0;      ///< of a percentage the fraction: 0.713
  double tolerance = 0;  ///< 0 when none was written: the number must then be exact
};

/// What stands in a claim for a blank of its form.
struct Argument {
  std::string_view blank;  ///< as in the form: "PLAY"
  std::string text;        ///< as the author wrote it
  TextSpan where;          ///< in the lesson file
  std::variant<std::monostate, std::int64_t, Side, WinKind, const Rule*, Attempt, Board, Pair,
               Stated, chance::Query, chance::GammonRates>
      value;
};

/// A claim that could be read, with the position it is about.
class Ask {
 public:
  Ask(Position position, const SideNames& names, std::size_t form, std::vector<Argument> arguments,
      const Help& help = {})
      : position_(position),
        names_(names),
        form_(form),
        arguments_(std::move(arguments)),
        help_(help) {}

  /// The board's position, the roll and side changed as `with` says.
  [[nodiscard]] const Position& position() const { return position_; }
  /// Whose turn it is. Precondition: the kind needs a turn or a roll.
  [[nodiscard]] Side side() const { return *position_.turn; }
  /// Precondition: the kind needs a roll.
  [[nodiscard]] Roll roll() const { return *position_.roll; }
  [[nodiscard]] const SideNames& names() const { return names_; }
  /// Which of the kind's forms was written.
  [[nodiscard]] std::size_t form() const { return form_; }
  /// What the host lends.
  [[nodiscard]] const Help& help() const { return help_; }

  // What stands for a blank. Precondition: the form has that blank.
  [[nodiscard]] std::int64_t number(std::string_view blank) const {
    return get<std::int64_t>(blank);
  }
  [[nodiscard]] Side side(std::string_view blank) const { return get<Side>(blank); }
  [[nodiscard]] WinKind win(std::string_view blank) const { return get<WinKind>(blank); }
  [[nodiscard]] const Rule& rule(std::string_view blank) const { return *get<const Rule*>(blank); }
  [[nodiscard]] const Attempt& play(std::string_view blank) const { return get<Attempt>(blank); }
  [[nodiscard]] const Board& board(std::string_view blank) const { return get<Board>(blank); }
  [[nodiscard]] Pair pair(std::string_view blank) const { return get<Pair>(blank); }
  [[nodiscard]] const Stated& stated(std::string_view blank) const { return get<Stated>(blank); }
  [[nodiscard]] const chance::Query& query(std::string_view blank) const {
    return get<chance::Query>(blank);
  }
  [[nodiscard]] const chance::GammonRates& rates(std::string_view blank) const {
    return get<chance::GammonRates>(blank);
  }
  /// The author's own words there.
  [[nodiscard]] const std::string& text(std::string_view blank) const;

 private:
  [[nodiscard]] const Argument& argument(std::string_view blank) const;
  template <class T>
  [[nodiscard]] const T& get(std::string_view blank) const {
    return *std::get_if<T>(&argument(blank).value);
  }

  Position position_;
  const SideNames& names_;
  std::size_t form_;
  std::vector<Argument> arguments_;
  Help help_;
};

/// The claim is true.
struct Proved {
  std::string statement;  ///< the claim as a sentence for readers
  std::string proof;      ///< why, in one to three sentences
  HowKnown known{};
};

/// The claim is false.
struct Refuted {
  std::string truth;       ///< what is true instead, as a sentence
  std::string proof;       ///< why
  std::string_view wrong;  ///< the blank that is wrong, or empty for the whole claim
  std::string correction;  ///< the nearest true claim, to be written instead; empty if none is
};

/// The claim asks what this board cannot answer.
struct Unanswerable {
  std::string reason;
  std::string hint;
};

/// The claim can be asked, but what is known is not exact enough to tell whether it is true.
struct Unsettled {
  std::string reason;
  std::string hint;
};

using Answer = std::variant<Proved, Refuted, Unanswerable, Unsettled>;

/// One kind of claim. To add one, copy a file of lesson/claims/ and name it in all.cpp.
struct ClaimKind {
  /// What the position must have for the claim to make sense.
  enum class Needs { board, turn, roll };

  std::string_view name;  ///< stable: "must-use-both"
  /// How it is written. Words in capitals are blanks; see `blanks()`.
  std::span<const std::string_view> forms;
  std::string_view says;  ///< what it means, one or two sentences
  Needs needs = Needs::board;
  std::string_view example_board;   ///< a position line ...
  std::string_view example;         ///< ... of which this is true ...
  std::string_view counterexample;  ///< ... and this is false
  Answer (*check)(const Ask& ask) = nullptr;
};

/// Every kind of claim, in the order of the reference.
std::span<const ClaimKind* const> claim_kinds();

/// What may stand for a blank.
struct Blank {
  std::string_view name;     ///< as in a form: "PLAY"
  std::string_view meaning;  ///< for the reference
  std::string_view example;
  bool takes_words;  ///< several words, up to the next word of the form
};
std::span<const Blank> blanks();

/// The reference of claims as Markdown: docs/claims.md.
std::string claim_reference();

}  // namespace pointwright::lesson
