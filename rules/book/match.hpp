#pragma once

#include "rules/rulebook.hpp"

/// Matches: several games played to a number of points.
namespace pointwright::book {

inline constexpr Rule match_length{
    .id = "match-length",
    .about = Rule::About::match,
    .statement = "A match is won by the side that first reaches its number of points.",
    .explanation =
        "The points of each game are added up until one side has the agreed number. Points "
        "beyond that number count for nothing: a match to 5 is won 5 to 3 as well by a game for "
        "1 as by a game for 8.",
    .source = "common practice, every rule book",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; match to 5 score 4-3",
    .attempt = "",
};

inline constexpr Rule crawford{
    .id = "crawford",
    .about = Rule::About::match,
    .statement =
        "When a side first comes within one point of winning the match, the next game is "
        "played without doubling.",
    .explanation =
        "That one game is the Crawford game. Without it the side that is behind would double at "
        "once in every game, having nothing more to lose. It is named after John R. Crawford.",
    .source = "common practice in matches",
    .example =
        "light 24x2 13x5 8x3 6x5; dark 24x2 13x3 11x1 8x4 6x5; light to roll; match to 5 "
        "score 2-4 crawford",
    .attempt = "",
};

inline constexpr Rule after_crawford{
    .id = "after-crawford",
    .about = Rule::About::match,
    .statement = "After the Crawford game the cube may be turned again in every game.",
    .explanation =
        "There is one Crawford game in a match at most. If the match goes on after it, the cube "
        "is back in play, although one side is still within a point of winning.",
    .source = "common practice in matches",
    .example =
        "light 24x2 13x5 8x3 6x5; dark 24x2 13x3 11x1 8x4 6x5; light to roll; match to 5 "
        "score 3-4",
    .attempt = "",
};

}  // namespace pointwright::book
