#pragma once

#include "rules/rulebook.hpp"

/// How a turn goes: the throw, the checkers, the end of the turn.
namespace pointwright::book {

inline constexpr Rule opening_roll{
    .id = "opening-roll",
    .about = Rule::About::turn,
    .statement = "Each side throws one die; the higher begins and plays both numbers.",
    .explanation =
        "The first turn of a game has no throw of its own: the two dice of the opening are its "
        "roll. So the first roll of a game is never a double, and the cube is never turned "
        "before it.",
    .source = "common practice, every rule book",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 5-2",
    .attempt = "",
};

inline constexpr Rule opening_tie{
    .id = "opening-tie",
    .about = Rule::About::turn,
    .statement = "If both sides open with the same number, both throw again.",
    .explanation =
        "Equal numbers decide nothing, so each side throws its die again until they differ. By "
        "the house rule of automatic doubles the cube goes up by one step at a tie, if the "
        "players agreed on that beforehand.",
    .source = "common practice, every rule book",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5",
    .attempt = "",
};

inline constexpr Rule turns_alternate{
    .id = "turns-alternate",
    .about = Rule::About::turn,
    .statement = "The sides take turns; each throws two dice and plays them.",
    .explanation =
        "After the opening the turn passes from side to side until the game ends. Nobody plays "
        "twice in a row, whatever the dice show: a double gives four moves, not another throw.",
    .source = "common practice, every rule book",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x3 11x1 8x4 6x5; light to roll",
    .attempt = "",
};

inline constexpr Rule valid_roll{
    .id = "valid-roll",
    .about = Rule::About::turn,
    .statement = "The dice are thrown together, and lie flat on the board to the thrower's right.",
    .explanation =
        "Both dice are shaken and thrown together onto the half of the board at the thrower's "
        "right hand. They count as they lie when they have come to rest flat on its surface.",
    .source = "U.S. Backgammon Tournament Rules and Procedures, 2008, sections 4.1 to 4.6",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x3 11x1 8x4 6x5; light to roll",
    .attempt = "",
};

inline constexpr Rule cocked_dice{
    .id = "cocked-dice",
    .about = Rule::About::turn,
    .statement = "If a die leaves that half or leans on anything, both dice are thrown again.",
    .explanation =
        "A die that lies on a checker, leans against the edge, crosses the bar or falls to the "
        "floor is cocked. The throw is void even if the other die lies flat: both are thrown "
        "again.",
    .source = "U.S. Backgammon Tournament Rules and Procedures, 2008, sections 4.1 to 4.6",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x3 11x1 8x4 6x5; light to roll",
    .attempt = "",
};

inline constexpr Rule dice_lifted{
    .id = "dice-lifted",
    .about = Rule::About::turn,
    .statement = "A turn ends when the player lifts a die; until then the play may be changed.",
    .explanation =
        "While the dice lie on the board you may move checkers, put them back and try another "
        "play. Lifting a die says that you have finished: the play stands, and the other side's "
        "turn begins.",
    .source = "U.S. Backgammon Tournament Rules and Procedures, 2008, sections 4.1 to 4.6",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 6-1",
    .attempt = "",
};

inline constexpr Rule premature_roll{
    .id = "premature-roll",
    .about = Rule::About::turn,
    .statement = "A throw made before the other side's turn has ended is premature.",
    .explanation =
        "Wait until the other side has lifted a die. At home a premature throw is commonly void "
        "and made again. Under tournament rules it stands if it is otherwise valid, and the "
        "other side finishes its turn in the knowledge of it; the house rule "
        "premature-roll-stands says which of the two holds.",
    .source =
        "U.S. Backgammon Tournament Rules and Procedures, 2008, sections 4.1 to 4.6; home "
        "form: common practice",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 6-1",
    .attempt = "",
};

inline constexpr Rule doubles_four{
    .id = "doubles-four",
    .about = Rule::About::turn,
    .statement = "A double gives four moves of its number.",
    .explanation =
        "When both dice show the same number it is played four times, by one checker or by "
        "several. Each of the four is a move of its own and must find an open point.",
    .source = "common practice, every rule book",
    .example = "light 24x2 13x5 8x3 6x5; dark 24x2 13x3 11x1 8x4 6x5; light to play 3-3",
    .attempt = "",
};

inline constexpr Rule hit{
    .id = "hit",
    .about = Rule::About::turn,
    .statement = "A checker that lands on a single opposing checker sends it to the bar.",
    .explanation =
        "A single checker on a point is a blot. Landing on it, be it only at a stop on the way, "
        "hits it: it goes to the bar and has to come in again from the far end. A turn may hit "
        "several blots, and any number of checkers may be on the bar at once.",
    .source = "common practice, every rule book",
    .example = "light 8x2 6x2; dark 21x1 13x2; light to play 4-2",
    .attempt = "",
};

inline constexpr Rule dance{
    .id = "dance",
    .about = Rule::About::turn,
    .statement = "A side that has no legal move plays nothing, and its turn is over.",
    .explanation =
        "If none of the dice can be played, for instance when every point on which a checker on "
        "the bar could come in is blocked, the side loses that turn. From the bar this is called "
        "dancing.",
    .source = "common practice, every rule book",
    .example = "light barx1 6x5; dark 6x2 5x2 4x2 3x2 2x2 1x2; light to play 5-2",
    .attempt = "",
};

}  // namespace pointwright::book
