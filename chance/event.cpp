#include "chance/event.hpp"

#include <utility>

namespace pointwright::chance {

Event Event::simple(const EventKind& kind, int argument) {
  Event event;
  event.kind_ = &kind;
  event.argument_ = argument;
  return event;
}

Event Event::combined(Form form, Event left, Event right) {
  Event event;
  event.form_ = form;
  event.parts_.push_back(std::move(left));
  event.parts_.push_back(std::move(right));
  return event;
}

Event Event::negated(Event inner) {
  Event event;
  event.form_ = Form::negation;
  event.parts_.push_back(std::move(inner));
  return event;
}

bool Event::holds(const Outcome& outcome) const {
  switch (form_) {
    case Form::simple:
      return kind_->holds(outcome, argument_);
    case Form::both:
      return parts_[0].holds(outcome) && parts_[1].holds(outcome);
    case Form::either:
      return parts_[0].holds(outcome) || parts_[1].holds(outcome);
    case Form::negation:
      return !parts_[0].holds(outcome);
  }
  return false;
}

bool Event::possible(const Board& board, Side side) const {
  switch (form_) {
    case Form::simple:
      return kind_->possible == nullptr || kind_->possible(board, side, argument_);
    case Form::both:
      return parts_[0].possible(board, side) && parts_[1].possible(board, side);
    case Form::either:
      return parts_[0].possible(board, side) || parts_[1].possible(board, side);
    case Form::negation:
      break;
  }
  return true;
}

namespace {

/// How tightly a form binds; brackets go round a looser form inside a tighter one.
int tightness(Event::Form form) {
  switch (form) {
    case Event::Form::either:
      return 0;
    case Event::Form::both:
      return 1;
    case Event::Form::negation:
      return 2;
    case Event::Form::simple:
      return 3;
  }
  return 3;
}

std::string inner_text(const Event& event, int least) {
  const std::string text = to_text(event);
  return tightness(event.form()) < least ? "(" + text + ")" : text;
}

}  // namespace

std::string to_text(const Event& event) {
  switch (event.form()) {
    case Event::Form::simple:
      return std::string(event.kind().name) +
             (event.argument() == 0 ? "" : " " + std::to_string(event.argument()));
    case Event::Form::both:
      return inner_text(event.parts()[0], 1) + " and " + inner_text(event.parts()[1], 2);
    case Event::Form::either:
      return inner_text(event.parts()[0], 0) + " or " + inner_text(event.parts()[1], 1);
    case Event::Form::negation:
      return "not " + inner_text(event.parts()[0], 2);
  }
  return {};
}

std::string_view verb(Query::Mode mode) {
  switch (mode) {
    case Query::Mode::can:
      return "can";
    case Query::Mode::must:
      return "must";
    case Query::Mode::cannot:
      return "cannot";
  }
  return {};
}

std::string to_text(const Query& query) {
  std::string event = to_text(query.event);
  if (query.mode == Query::Mode::can) return event;
  return std::string(verb(query.mode)) + " " +
         (query.event.form() == Event::Form::simple ? event : "(" + event + ")");
}

std::string phrase(const Event& event) {
  switch (event.form()) {
    case Event::Form::simple: {
      std::string_view pattern = event.kind().phrase;
      int argument = event.argument();
      if (const auto bar = pattern.find('|'); bar != std::string_view::npos)
        pattern = argument == 0 ? pattern.substr(0, bar) : pattern.substr(bar + 1);
      if (argument == 0) argument = 1;
      const auto slot = pattern.find('%');
      if (slot == std::string_view::npos) return std::string(pattern);
      return std::string(pattern.substr(0, slot)) + std::to_string(argument) +
             std::string(pattern.substr(slot + 1));
    }
    case Event::Form::both:
      return phrase(event.parts()[0]) + " and " + phrase(event.parts()[1]);
    case Event::Form::either:
      return phrase(event.parts()[0]) + " or " + phrase(event.parts()[1]);
    case Event::Form::negation:
      return "not " + phrase(event.parts()[0]);
  }
  return {};
}

}  // namespace pointwright::chance
