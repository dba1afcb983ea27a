#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/game_record.hpp"
#include "app/io.hpp"
#include "judge/cube_model.hpp"
#include "judge/levels.hpp"
#include "rules/conduct.hpp"
#include "web/sealed_dice.hpp"

namespace pointwright::app {

/// What the person is asked, and how the table stands.
struct PlayQuestion {
  const Table& table;
  std::string_view question;
};

/// How a game in the terminal is to be played.
struct PlaySetup {
  const judge::Level* level = nullptr;
  Side person = Side::light;
  HouseRules house{};
  std::optional<int> match{};  ///< its length; nothing: one game for points
  std::string seed{};
  /// Puts the questions instead of the terminal's prompt. Empty: the prompt.
  std::function<void(const PlayQuestion&)> asked{};
};

/// A game or a match between a person, who types, and a level. Every event goes through the conduct
/// of the table, so that the referee refuses what the rules refuse.
class PlaySession {
 public:
  PlaySession(PlaySetup setup, Io& io);

  /// Plays until the game or match is over, or the input ends or says `quit`. Returns whether it
  /// was played to the end.
  bool run();

  /// As it stands, or as it stood at the end.
  [[nodiscard]] const Table& table() const { return table_; }

  /// The games so far as a lesson.
  [[nodiscard]] std::string record() const;

 private:
  /// A play of the person's that cost something, valued one roll ahead.
  struct Slip {
    Position position;
    Play play;
    Play best;
    double cost = 0;
  };

  bool play_game();
  void open_game();
  bool person_acts();
  void level_acts();
  bool before_roll();
  bool answer_offer();
  bool move_checkers();
  void enter_moves(const std::string& text);
  void put_up(const TableEvent& event);
  bool lift();
  void throw_for(Side side);
  void finish_turn(const Position& before, Side side);
  void note_cost(const Position& before, const Play& play, const Board& after);
  [[nodiscard]] bool level_doubles() const;
  [[nodiscard]] bool level_takes() const;
  /// What is best about the cube by the chances seen at once. Nothing beyond the match table.
  [[nodiscard]] std::optional<judge::CubeDecision> cube_decision() const;
  void show_board();
  void hint();
  void tell_result();
  void tell_slips();
  void tell_seed();
  [[nodiscard]] judge::Valuation valuation(Side side) const;
  std::optional<std::string> ask(const std::string& prompt);
  void say(const std::string& text);

  PlaySetup setup_;
  Io& io_;
  web::SealedDice dice_;
  Table table_;
  judge::Opponent opponent_;
  GameRecord record_;
  std::vector<Slip> slips_;
  judge::Losses costs_;  ///< of the person, one roll ahead
};

}  // namespace pointwright::app
