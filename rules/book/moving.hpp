#pragma once

#include "rules/rulebook.hpp"

/// Rules of play, first chapter: how a checker moves.
namespace pointwright::book {

inline constexpr Rule own_checker{
    .id = "own-checker",
    .about = Rule::About::play,
    .statement = "You move your own checkers only, and each from where it stands.",
    .explanation =
        "A move begins on a point where you have a checker, or on the bar if one waits there. A "
        "place that you have just left empty has no checker to move, and the other side's "
        "checkers are never yours to move.",
    .source = "common practice, every rule book",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 3-1",
    .attempt = "9/6 24/23",
};

inline constexpr Rule forward_only{
    .id = "forward-only",
    .about = Rule::About::play,
    .statement = "Checkers move forward only: from higher points to lower ones, and then off.",
    .explanation =
        "Each side counts the points from its own end: 24 is the farthest from home, 1 is the "
        "last before bearing off. Every move goes down in that count. The two sides travel in "
        "opposite directions, since what is 24 for one is 1 for the other. A checker goes back "
        "only when it is hit.",
    .source = "common practice, every rule book",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 3-1",
    .attempt = "6/9 8/7",
};

inline constexpr Rule dice_numbers{
    .id = "dice-numbers",
    .about = Rule::About::play,
    .statement = "A checker moves exactly the number that a die shows.",
    .explanation =
        "Each die is a move of its own: a 4-2 lets one checker move four points and one checker "
        "two, or the same checker both in turn. A die cannot be divided, and numbers cannot be "
        "exchanged. Only when bearing off may a die be larger than the distance, and only from "
        "the highest point that you still hold.",
    .source = "common practice, every rule book",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 4-2",
    .attempt = "8/3 6/4",
};

inline constexpr Rule die_once{
    .id = "die-once",
    .about = Rule::About::play,
    .statement = "Each die is played once; a double is played four times, never more.",
    .explanation =
        "With two different numbers there are two moves, one for each die. With a double there "
        "are four moves of the same number. When the dice are used up, the play is complete.",
    .source = "common practice, every rule book",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 4-2",
    .attempt = "8/4 6/2",
};

inline constexpr Rule bar_first{
    .id = "bar-first",
    .about = Rule::About::play,
    .statement = "A checker on the bar comes in before any other checker moves.",
    .explanation =
        "A checker that was hit waits on the bar and re-enters in the other side's home board, "
        "on the point that a die shows counted from the far end: a 1 enters on your 24, a 6 on "
        "your 19. As long as one of your checkers is on the bar, no other may move. With "
        "several on the bar, all must come in first.",
    .source = "common practice, every rule book",
    .example = "light barx1 13x5 8x3 6x6; dark 24x2 13x3 8x2 6x3 5x2 4x3; light to play 3-1",
    .attempt = "8/7 6/3",
};

inline constexpr Rule blocked_point{
    .id = "blocked-point",
    .about = Rule::About::play,
    .statement = "A checker may not land where two or more of the other side's checkers stand.",
    .explanation =
        "A point is open when it is empty, when your own checkers hold it in any number, or when "
        "a single checker of the other side stands there, which is then hit. Two or more of the "
        "other side's checkers make the point: you may pass over it, but not land on it.",
    .source = "common practice, every rule book",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 5-1",
    .attempt = "24/19 24/23",
};

inline constexpr Rule one_die_at_a_time{
    .id = "one-die-at-a-time",
    .about = Rule::About::play,
    .statement = "A checker that plays several dice lands after each of them, on an open point.",
    .explanation =
        "The dice are never added together. When one checker plays both numbers it moves the one "
        "and then the other, in the order that you choose, and it must be able to land at the "
        "stop between. If both stops are blocked it cannot make the journey, however open the "
        "point at its end.",
    .source = "common practice, every rule book",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x4 8x2 6x5 4x2; light to play 5-3",
    .attempt = "24/16",
};

}  // namespace pointwright::book
