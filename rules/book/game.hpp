#pragma once

#include "rules/rulebook.hpp"

/// The game: how it is set up, and how it is won.
namespace pointwright::book {

inline constexpr Rule fifteen_each{
    .id = "fifteen-each",
    .about = Rule::About::game,
    .statement = "Each side has fifteen checkers: on the points, on the bar, or borne off.",
    .explanation =
        "No checker enters or leaves the game but by being borne off. Together the checkers on "
        "the points, on the bar and off always make fifteen for each side.",
    .source = "common practice, every rule book",
    .example = "light barx1 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5",
    .attempt = "",
};

inline constexpr Rule start_position{
    .id = "start-position",
    .about = Rule::About::game,
    .statement =
        "Each side starts with two checkers on its 24-point, five on 13, three on 8 and "
        "five on 6.",
    .explanation =
        "The two sides mirror each other, so each faces the other's checkers across the board. "
        "Each has 167 pips to go.",
    .source = "common practice, every rule book",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5",
    .attempt = "",
};

inline constexpr Rule one_side_per_point{
    .id = "one-side-per-point",
    .about = Rule::About::game,
    .statement = "A point is never held by both sides at once.",
    .explanation =
        "A point is empty or belongs to one side. Where a blot is hit it leaves for the bar, and "
        "where two or more stand the other side cannot land.",
    .source = "common practice, every rule book",
    .example = "light 24x1 20x1; dark 6x2 2x1; light to play 3-1",
    .attempt = "",
};

inline constexpr Rule no_stack_limit{
    .id = "no-stack-limit",
    .about = Rule::About::game,
    .statement = "Any number of checkers of one side may stand on a point.",
    .explanation =
        "Tall stacks are allowed, though they are seldom good: checkers beyond the second or "
        "third on a point do little there.",
    .source = "common practice, every rule book",
    .example = "light 6x15; dark 13x5 8x4 6x6; light to play 2-1",
    .attempt = "",
};

inline constexpr Rule win{
    .id = "win",
    .about = Rule::About::game,
    .statement = "The side that first bears off all its checkers wins the game.",
    .explanation =
        "The game ends with the move that takes the last checker off; dice left over are not "
        "played. A single game counts the value of the cube, once.",
    .source = "common practice, every rule book",
    .example = "light offx15; dark 3x2 2x1",
    .attempt = "",
};

inline constexpr Rule gammon{
    .id = "gammon",
    .about = Rule::About::game,
    .statement = "Win before the other side has borne off a checker, and the game counts double.",
    .explanation =
        "A gammon is worth twice the value of the cube. One checker borne off saves the gammon, "
        "wherever the other fourteen are.",
    .source = "common practice, every rule book",
    .example = "light offx15; dark 13x2 8x3 6x10",
    .attempt = "",
};

inline constexpr Rule backgammon{
    .id = "backgammon",
    .about = Rule::About::game,
    .statement =
        "A gammon counts triple if the loser still has a checker on the bar or in the "
        "winner's home board.",
    .explanation =
        "The winner's home board is the loser's points 24 to 19. With a checker left there or on "
        "the bar, and none borne off, the loser has lost a backgammon, worth three times the "
        "value of the cube.",
    .source = "common practice, every rule book",
    .example = "light offx15; dark 22x1 13x4 6x10",
    .attempt = "",
};

}  // namespace pointwright::book
