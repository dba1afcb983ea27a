#pragma once

#include "rules/rulebook.hpp"

/// Rules of play, second chapter: how checkers are borne off.
namespace pointwright::book {

inline constexpr Rule all_home{
    .id = "all-home",
    .about = Rule::About::play,
    .statement = "You bear off only while all your checkers left in play are in your home board.",
    .explanation =
        "The home board is your points 6 to 1. A checker farther back, or on the bar, must come "
        "home before any other is borne off. It may do so with the first die of the same turn. "
        "If you are hit while bearing off, you bear off no more until that checker has come "
        "round again.",
    .source = "common practice, every rule book",
    .example = "light 8x1 6x2 5x2; dark 6x3 5x3; light to play 6-1",
    .attempt = "6/off 8/7",
};

inline constexpr Rule highest_first{
    .id = "highest-first",
    .about = Rule::About::play,
    .statement =
        "A die larger than the point bears a checker off only if none of yours stands higher.",
    .explanation =
        "A die bears off a checker from the point of its own number: a 5 from the 5-point. If "
        "you have no checker there, you must move one from a higher point if there is one; if "
        "there is none, the die bears off a checker from the highest point that you hold. "
        "Moving a checker down inside the home board instead of bearing off is always allowed.",
    .source = "common practice, every rule book",
    .example = "light 6x1 5x2 2x2; dark 6x2 5x2; light to play 6-1",
    .attempt = "5/off 2/1",
};

}  // namespace pointwright::book
