#include "app/game_record.hpp"

#include <fmt/format.h>

#include "rules/notation.hpp"

namespace pointwright::app {
namespace {

/// A block of a lesson holds at most 500 lines; a longer game goes on in a second show.
constexpr std::size_t steps_in_a_show = 400;

}  // namespace

void GameRecord::begin(const Position& position) {
  games_.push_back({.board = to_text(position)});
}

void GameRecord::play(const Play& play) {
  add(to_text(play));
}

void GameRecord::remark(std::string text) {
  games_.back().remark = std::move(text);
}

std::string GameRecord::text(std::string_view title, std::string_view note) const {
  std::string result = fmt::format("---\ntitle: {}\n---\n\n{}\n", title, note);
  for (std::size_t i = 0; i < games_.size(); ++i) {
    const Game& game = games_[i];
    result += fmt::format("\n## Game {}\n\n```board game-{}\n{}\n```\n", i + 1, i + 1, game.board);
    for (std::size_t at = 0; at < game.steps.size(); at += steps_in_a_show) {
      result += "\n```show\n";
      for (std::size_t k = at; k < std::min(at + steps_in_a_show, game.steps.size()); ++k) {
        result += game.steps[k] + "\n";
      }
      result += "```\n";
    }
    if (!game.remark.empty()) result += "\n" + game.remark + "\n";
  }
  return result;
}

}  // namespace pointwright::app
