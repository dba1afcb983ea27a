#pragma once

#include "rules/rulebook.hpp"

/// The doubling cube.
namespace pointwright::book {

inline constexpr Rule cube_start{
    .id = "cube-start",
    .about = Rule::About::cube,
    .statement = "The cube starts in the middle with the value 1, and either side may turn it.",
    .explanation =
        "The cube says how many points the game is worth before gammons are counted. While it "
        "lies in the middle nobody holds it, and whichever side is to play may offer it first.",
    .source = "common practice, every rule book",
    .example =
        "light 24x2 13x5 8x3 6x5; dark 24x2 13x3 11x1 8x4 6x5; light to roll; cube 1 "
        "centred",
    .attempt = "",
};

inline constexpr Rule cube_in_use{
    .id = "cube-in-use",
    .about = Rule::About::cube,
    .statement = "The cube is offered only in a game that is played with it.",
    .explanation =
        "Players may agree to play without the cube; the house rule is called cube. Then every "
        "game counts one point, two for a gammon and three for a backgammon.",
    .source = "common practice",
    .example =
        "light 24x2 13x5 8x3 6x5; dark 24x2 13x3 11x1 8x4 6x5; light to roll; house "
        "no-cube",
    .attempt = "",
};

inline constexpr Rule cube_own_turn{
    .id = "cube-own-turn",
    .about = Rule::About::cube,
    .statement = "Only the side whose turn it is may offer the cube.",
    .explanation =
        "Having the better position is not enough: wait until the other side has finished its "
        "turn, and then decide before you throw.",
    .source = "common practice, every rule book",
    .example =
        "light 24x2 13x5 8x3 6x5; dark 24x2 13x3 11x1 8x4 6x5; light to roll; cube 1 "
        "centred",
    .attempt = "",
};

inline constexpr Rule cube_before_roll{
    .id = "cube-before-roll",
    .about = Rule::About::cube,
    .statement = "The cube is offered before the dice are thrown.",
    .explanation =
        "Once the dice have been thrown it is too late for this turn. The first turn of a game "
        "has its roll from the opening, so nobody doubles before it.",
    .source = "common practice, every rule book",
    .example =
        "light 24x2 13x5 8x3 6x5; dark 24x2 13x3 11x1 8x4 6x5; light to play 6-4; cube 1 "
        "centred",
    .attempt = "",
};

inline constexpr Rule cube_holder{
    .id = "cube-holder",
    .about = Rule::About::cube,
    .statement =
        "After a take the cube belongs to the side that took it; only that side may "
        "offer it again.",
    .explanation =
        "The side that accepts a double holds the cube on its side of the board. The other side "
        "has given up the right to turn it, until it is itself offered the cube and takes it.",
    .source = "common practice, every rule book",
    .example =
        "light 24x2 13x5 8x3 6x5; dark 24x2 13x3 11x1 8x4 6x5; light to roll; cube 2 with "
        "dark",
    .attempt = "",
};

inline constexpr Rule cube_take_or_drop{
    .id = "cube-take-or-drop",
    .about = Rule::About::cube,
    .statement =
        "The side that is offered the cube takes it at twice the value, or drops and "
        "loses the old value.",
    .explanation =
        "A take goes on with the game at the doubled value and the cube in hand. A drop ends the "
        "game at once: the side that offered wins the value that the cube had before, with no "
        "gammon counted. Nothing else happens until the offer is answered.",
    .source = "common practice, every rule book",
    .example =
        "light 24x2 13x5 8x3 6x5; dark 24x2 13x3 11x1 8x4 6x5; light to roll; cube 2 with "
        "light",
    .attempt = "",
};

inline constexpr Rule cube_no_limit{
    .id = "cube-no-limit",
    .about = Rule::About::cube,
    .statement = "There is no limit to how often the cube is turned.",
    .explanation =
        "The cube in the box goes to 64, but the value of a game may go beyond: 128, 256 and on, "
        "written down beside the board. Each turn of the cube doubles the value.",
    .source = "common practice, every rule book",
    .example =
        "light 24x2 13x5 8x3 6x5; dark 24x2 13x3 11x1 8x4 6x5; light to roll; cube 64 "
        "with light",
    .attempt = "",
};

inline constexpr Rule cube_multiplies{
    .id = "cube-multiplies",
    .about = Rule::About::cube,
    .statement =
        "The winner scores the cube's value, twice for a gammon, three times for a "
        "backgammon.",
    .explanation =
        "With the cube at 4 a single game scores 4, a gammon 8 and a backgammon 12. By the Jacoby "
        "rule, a house rule of play for points, gammons and backgammons count as single games "
        "while the cube has not been turned.",
    .source = "common practice, every rule book",
    .example = "light offx15; dark 13x2 8x3 6x10; cube 4 with dark",
    .attempt = "",
};

}  // namespace pointwright::book
