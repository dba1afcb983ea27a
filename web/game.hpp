#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rules/conduct.hpp"
#include "rules/result.hpp"

/// A game or match at the table as a record of what happened: text, one event a line. The table is
/// what follows from the record by the rules of conduct, so a page keeps nothing else.
///
///     match 5                  none: played for points
///     house jacoby beavers     as in a position line
///     names Ivory | Walnut
///     sealed DIGEST            the program's dice; see web/sealed_dice.hpp
///     words ...                what the players added
///     seed ...                 the secret, once it may be known
///     opening 3 1              light's die, dark's die
///     throw 6 4                by the side to roll
///     move 24/18 18/14         checkers put elsewhere by hand, legal or not
///     lift                     the turn ends
///     offer / take / drop / beaver
///     next                     the next game
///
/// Empty lines, and lines that begin with #, are passed over.
namespace pointwright::web {

/// One turn, offer or answer that is over, for the score sheet.
struct SheetLine {
  int game = 1;
  std::optional<Side> side;
  std::string text;      ///< "3-1: 8/5 6/5"
  std::size_t line = 0;  ///< of the record, from 0: the line that completed it
};

struct GameSoFar {
  Table table;
  SideNames names;
  int game = 1;
  std::vector<SheetLine> sheet;
  std::string sealed, words, seed;
  struct Thrown {
    int number = 0;  ///< of the throw, from 0
    int first = 0;
    int second = 0;
  };
  std::vector<Thrown> thrown;  ///< every throw of the program's or real dice, in order
};

/// Why a record cannot be followed.
struct RecordFault {
  std::size_t line = 0;  ///< from 0
  std::string reason;
  const Rule* rule = nullptr;        ///< where the rules refuse the event
  std::vector<Play> alternatives{};  // NOLINT(readability-redundant-member-init)
};

/// What a record led to: all of it, or as far as it can be followed and why no further.
struct Replay {
  GameSoFar so_far;
  std::optional<RecordFault> fault;
};
Replay replay(std::string_view record);

}  // namespace pointwright::web
