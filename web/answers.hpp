#pragma once

#include <string>
#include <string_view>

#include "judge/evaluator.hpp"
#include "rules/fault.hpp"
#include "web/json.hpp"
#include "web/request.hpp"

/// The questions that a page can ask, each a function from request to answer. web/src/answers.ts
/// has the types of the answers.
namespace pointwright::web {

/// {"error": {"id", "reason"}}.
Json error_object(std::string_view id, std::string_view reason);
/// {"faults": [{"id", "begin", "end", "reason", "fix"}]}.
Json faults_object(const Faults& faults);
/// The checkers of both sides by place: {"light": [26 numbers], "dark": [...]}.
Json camps_object(const Board& board);
/// Chances and how they are known: "exact", "estimated", or "searched" to a depth.
Json evaluation_object(const judge::Evaluation& evaluation, int depth = 0);

/// What a position is: read from `position`.
Json answer_position(const Request& request);
/// The picture of it: everything that moves, as SVG, and the boxes of its places.
Json answer_picture(const Request& request);
/// What does not move: the ground and the figures, for <defs>.
Json answer_ground(const Request& request);
/// The whole diagram as an SVG file.
Json answer_diagram(const Request& request);

/// The legal plays of `position`.
Json answer_plays(const Request& request);
/// The referee's ruling on `play`.
Json answer_rule(const Request& request);
/// How a turn can go on after `moves`; with `from` and `to`, whether that may be next.
Json answer_turn(const Request& request);

/// What the next roll can do: the chance card.
Json answer_chances(const Request& request);
/// The chances of the side on roll, and who leads the race.
Json answer_evaluation(const Request& request);
/// The plays ranked, and why the best is better than the second.
Json answer_ranking(const Request& request);

/// What to do about the cube before the side on roll has thrown: whether to double, and what to
/// answer to that. Exact where a table has it, else by the model of the cube.
Json answer_cube(const Request& request);

/// The table after a record; fields in order are the lines of the record.
Json answer_table(const Request& request);
/// What the program does next at the table after a record.
Json answer_decision(const Request& request);
/// The program's dice: throw `number` of `seed` and `words`, or the digest of `seed`.
Json answer_sealed(const Request& request);
/// Whether the throws of a record are those of its seed, and the seed that of its digest.
Json answer_verify(const Request& request);
/// The same without a game: `seed`, `words` and `sealed` as in a record, the throws as lines
/// "opening 3 1" and "throw 6 4" or as fields `throws`, "6-4 ? 3-1"; `first` is the number of the
/// first throw, 0 if it is not given.
Json answer_throws(const Request& request);

}  // namespace pointwright::web
