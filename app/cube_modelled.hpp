#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "app/io.hpp"
#include "app/json.hpp"
#include "judge/cube_model.hpp"
#include "judge/search.hpp"
#include "rules/position.hpp"

namespace pointwright::app {

/// A cube decision by the model, where no table knows the answer.
struct ModelledCube {
  judge::CubeSituation situation;
  judge::SearchedValue value;  ///< chances without a cube
  judge::CubeDecision decision;
};

/// A search, and how many rolls it is to look ahead.
struct Lookahead {
  judge::Search& search;
  int depth = 1;
};

/// Looks ahead. Nothing if the match is over or too long, or the game is over.
/// Precondition: the position has a turn.
std::optional<ModelledCube> modelled_cube(const Position& position, const Lookahead& ahead);

/// What equities with the cube count: "in units of the cube as it stands", or how in a match.
std::string_view equity_unit(const Position& position);

/// "light doubles; dark takes."
std::string verdict(const Position& position, const judge::CubeDecision& decision);

/// {"action", "answer", "hold", "double_take", "double_drop", "margin", "answer_margin", "win",
/// "win_gammon", "lose_gammon", "cube_life", "depth", "known"}.
Json modelled_object(const ModelledCube& cube);

/// The decision in words and numbers.
void print_modelled(const Position& position, const ModelledCube& cube, Io& io);

}  // namespace pointwright::app
