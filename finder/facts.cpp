#include "finder/facts.hpp"

#include "judge/shipped.hpp"

namespace pointwright::finder {
void Facts::look_at(const Board& board, std::optional<Roll> roll, std::uint8_t known) {
  board_ = board;
  roll_ = roll;
  known_ = known;
  has_plays_ = false;
  has_duty_ = false;
  has_worths_ = false;
}

void Facts::throw_dice(Roll roll) {
  roll_ = roll;
  known_ |= knows_roll;
  has_plays_ = false;
  has_duty_ = false;
  has_worths_ = false;
}

const std::vector<LegalPlay>& Facts::plays() {
  if (!has_plays_) {
    legal_plays(board_, side_, *roll_, plays_);
    has_plays_ = true;
  }
  return plays_;
}

const Obligation& Facts::duty() {
  if (!has_duty_) {
    duty_ = obligation(board_, side_, *roll_, plays());
    has_duty_ = true;
  }
  return duty_;
}

const std::vector<float>& Facts::worths() {
  if (has_worths_) return worths_;
  const judge::Evaluator& evaluator = judge::shipped_evaluator();
  worths_.clear();
  for (const LegalPlay& play : plays())
    worths_.push_back(-evaluator.evaluate(play.after, opponent(side_)).chances.equity());
  has_worths_ = true;
  return worths_;
}

Position Facts::position() const {
  Position position;
  position.board = board_;
  position.turn = side_;
  position.roll = roll_;
  return position;
}

bool answers(const chance::Event& event, const Board& before, Side side, const LegalPlay& play,
             int choices) {
  return event.holds({before, side, play.play, play.after, choices});
}

int Facts::ways(const chance::Query& query) {
  using Mode = chance::Query::Mode;
  int ways = 0;
  for (const Roll roll : all_rolls()) {
    legal_plays(board_, side_, roll, scratch_);
    const auto choices = static_cast<int>(scratch_.size());
    if (scratch_.empty()) scratch_.push_back({Play{}, board_});
    bool some = false;
    bool all = true;
    for (const LegalPlay& play : scratch_) {
      const bool holds = answers(query.event, board_, side_, play, choices);
      some = some || holds;
      all = all && holds;
      if (query.mode == Mode::must ? !all : some) break;
    }
    const bool counts = query.mode == Mode::can ? some : query.mode == Mode::must ? all : !some;
    if (counts) ways += roll.ways();
  }
  return ways;
}

}  // namespace pointwright::finder
