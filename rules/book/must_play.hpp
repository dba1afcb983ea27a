#pragma once

#include "rules/rulebook.hpp"

/// Rules of play, third chapter: how much of the roll must be played, and how a play is written.
namespace pointwright::book {

inline constexpr Rule no_passing{
    .id = "no-passing",
    .about = Rule::About::play,
    .statement = "A turn is not passed while there is a legal move.",
    .explanation =
        "Moving is a duty as well as a right: if the roll can be played it is played, even if "
        "every move harms you. Only when no die can be played at all does the turn pass.",
    .source = "common practice, every rule book",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 3-1",
    .attempt = "no play",
};

inline constexpr Rule both_dice{
    .id = "both-dice",
    .about = Rule::About::play,
    .statement = "If any play uses both dice, both are played.",
    .explanation =
        "You choose the checkers and the order freely, but you may not choose a first move that "
        "spoils the second when another way plays both. Look at the whole roll before you "
        "decide that a number cannot be played.",
    .source = "common practice, every rule book",
    .example = "light 14x1 9x1 2x3 1x2; dark 21x2 20x2 6x3; light to play 6-4",
    .attempt = "14/8",
};

inline constexpr Rule larger_die{
    .id = "larger-die",
    .about = Rule::About::play,
    .statement = "If only one die can be played, and either one could, the larger is played.",
    .explanation =
        "Sometimes each number can be played by itself, but after either the other is blocked. "
        "Then the larger number is the one to play. If only the smaller can be played at all, "
        "it is played.",
    .source = "common practice, every rule book",
    .example = "light 12x1 3x2; dark 23x2 6x3; light to play 6-4",
    .attempt = "12/8",
};

inline constexpr Rule whole_double{
    .id = "whole-double",
    .about = Rule::About::play,
    .statement = "A double is played as many times as it can be, up to four.",
    .explanation =
        "All four moves are played if there is any way to play them; if not, three, two or one. "
        "A way of moving that stops early is not allowed where another plays more of the double.",
    .source = "common practice, every rule book",
    .example = "light 13x1 2x3; dark 24x2 6x3; light to play 3-3",
    .attempt = "13/7",
};

inline constexpr Rule one_meaning{
    .id = "one-meaning",
    .about = Rule::About::play,
    .statement = "A play is written so that it means one thing only.",
    .explanation =
        "Where a checker plays several dice and only its start and end are written, it is taken "
        "to go the way that hits nothing, or with a * the way that hits. If two ways hit "
        "different blots, the play could mean either, and the stop has to be written: 24/18*/14.",
    .source = "the trade's notation leaves this open; Pointwright settles it so",
    .example = "light 24x1 6x5; dark 13x5 7x1 5x1; light to play 6-4",
    .attempt = "24/14",
};

}  // namespace pointwright::book
