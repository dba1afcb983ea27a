#pragma once

#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "rules/fault.hpp"
#include "rules/play.hpp"
#include "rules/result.hpp"

namespace pointwright::chance {

/// One way in which a turn can go: a legal play, or the empty play when the side dances.
struct Outcome {
  const Board& before;
  Side side;
  const Play& play;
  const Board& after;
  int choices;  ///< how many legal plays the roll has; 0 when the side dances
};

/// A kind of event that a turn can bring about, such as a hit. Every kind is one row of the table
/// behind `event_kinds`; the reader of events, its help and its messages come from there.
struct EventKind {
  enum class Argument { none, optional_point, point, count };
  std::string_view name;  ///< as written: "hit", "enter-all"
  Argument argument;
  std::string_view statement;  ///< when it holds, for the reference
  std::string_view phrase;     ///< in a sentence after "can": "hit a blot"; % is the argument
  bool (*holds)(const Outcome& outcome, int argument);  ///< argument 0: none was given
  /// Whether some roll could bring it about, as far as a look at the board tells: a no is certain.
  /// Null: the board alone tells nothing.
  bool (*possible)(const Board& board, Side side, int argument) = nullptr;
};

std::span<const EventKind> event_kinds();

/// A condition on how a turn goes: a kind of event, or a combination with and, or, not.
class Event {
 public:
  enum class Form { simple, both, either, negation };

  static Event simple(const EventKind& kind, int argument);
  static Event combined(Form form, Event left, Event right);
  static Event negated(Event inner);

  [[nodiscard]] Form form() const { return form_; }
  [[nodiscard]] const EventKind& kind() const { return *kind_; }
  [[nodiscard]] int argument() const { return argument_; }
  [[nodiscard]] const std::vector<Event>& parts() const { return parts_; }

  /// Whether the turn went so.
  [[nodiscard]] bool holds(const Outcome& outcome) const;
  /// Whether a turn of `side` could go so, as far as a look at the board tells: a no is certain.
  [[nodiscard]] bool possible(const Board& board, Side side) const;

 private:
  Form form_ = Form::simple;
  const EventKind* kind_ = nullptr;
  int argument_ = 0;
  std::vector<Event> parts_;
};

/// What is asked of a roll: that some legal play brings the event about (can), that every one does
/// (must), or that none does (cannot).
struct Query {
  enum class Mode { can, must, cannot };
  Mode mode = Mode::can;
  Event event;
};

/// Reads `[must | cannot] EVENT`, where EVENT is built from the kinds with not, and, or (binding in
/// that order) and brackets. `span` is where to read in `text`; faults point into `text`.
Result<Query, Faults> read_query(std::string_view text, TextSpan span);
Result<Query, Faults> read_query(std::string_view text);

/// Canonical text: what `read_query` reads.
std::string to_text(const Event& event);
std::string to_text(const Query& query);

/// "can", "must" or "cannot".
std::string_view verb(Query::Mode mode);

/// As words in a sentence: "hit the blot on 5 and leave no blot".
std::string phrase(const Event& event);

}  // namespace pointwright::chance
