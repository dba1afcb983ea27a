#include "studio/telling.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "studio/html.hpp"

namespace pointwright {

Telling::Telling(const Position& start) : position_(start) {
  if (start.roll) {
    last_thrown_ = start;
  }
}

BoardPicture Telling::next(const View& view, const SideNames& names, const Step& step,
                           const Position& after) {
  position_ = after;
  BoardPicture picture;
  picture.view = view;
  picture.names = names;
  picture.arrows = step.arrows;
  picture.marks = step.marks;
  picture.arrows_made = step.kind == Step::Kind::move;
  if (step.kind == Step::Kind::offer) {
    picture.offered_by = position_.turn;
  }
  if (position_.turn && position_.roll) {
    last_thrown_ = position_;
  } else if (step.kind != Step::Kind::move) {
    last_thrown_.reset();
  } else if (last_thrown_) {
    picture.dice = ThrownDice{*last_thrown_->turn, *last_thrown_->roll};
  }
  return picture;
}

std::string action_words(const Step& step, const Position& before, const Position& after,
                         const SideNames& names) {
  const auto name = [&](std::optional<Side> side) { return side ? names[*side] : "The side"; };
  const auto answering = [&] {
    return before.turn ? std::optional<Side>(opponent(*before.turn)) : std::nullopt;
  };
  switch (step.kind) {
    case Step::Kind::say:
    case Step::Kind::place:
      return {};
    case Step::Kind::roll:
      return name(after.turn) + " rolls " + step.action;
    case Step::Kind::move:
    case Step::Kind::attempt:
      return step.action;
    case Step::Kind::offer:
      return name(after.turn) + " doubles to " + step.action;
    case Step::Kind::take:
      return name(answering()) + " takes at " + step.action;
    case Step::Kind::drop:
      return name(answering()) + " drops";
  }
  return {};
}

std::string right_answer(const Question& question) {
  std::string text;
  const auto add = [&](const std::string& answer) {
    text += (text.empty() ? "" : " or ") + answer;
  };
  switch (question.kind) {
    case Question::Kind::choice:
      for (const Question::Choice& choice : question.choices) {
        if (choice.right) {
          add(plain_text(choice.text));
        }
      }
      break;
    case Question::Kind::play: {
      std::size_t right = 0;
      for (const Question::PlayAnswer& answer : question.plays) {
        if (answer.right) {
          ++right;
          add(answer.play);
        }
      }
      if (right > 3 && right == static_cast<std::size_t>(std::ranges::count_if(
                                    question.plays, &Question::PlayAnswer::legal))) {
        text = fmt::format("any of the {} legal plays", right);
      }
      break;
    }
    case Question::Kind::number:
      add(fmt::format("{:g}", question.number));
      if (question.tolerance > 0) {
        text += fmt::format(", give or take {:g}", question.tolerance);
      }
      break;
  }
  return text;
}

}  // namespace pointwright
