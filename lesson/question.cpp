#include "lesson/question.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "lesson/near_misses.hpp"
#include "lesson/suggest.hpp"
#include "rules/ruling.hpp"
#include "rules/text.hpp"

namespace pointwright::lesson {
namespace {

using text::quoted;

const std::vector<std::string>& known_keys() {
  static const std::vector<std::string> keys{"ask",   "on",     "play", "right",
                                             "wrong", "number", "why"};
  return keys;
}

/// A number with an optional fraction, as digits: "71", "-3", "7.5".
std::optional<double> decimal(std::string_view word) {
  const bool negative = word.starts_with('-');
  if (negative) word.remove_prefix(1);
  const std::size_t point = std::min(word.find('.'), word.size());
  const auto whole = text::number(word.substr(0, point), 1'000'000'000'000);
  if (!whole || point + 1 == word.size()) return std::nullopt;
  auto value = static_cast<double>(*whole);
  double unit = 0.1;
  for (const char c : word.substr(std::min(point + 1, word.size()))) {
    if (!text::is_digit(c)) return std::nullopt;
    value += unit * (c - '0');
    unit /= 10;
  }
  return negative ? -value : value;
}

/// The pieces between bars, trimmed.
std::vector<TextSpan> pieces(const SourceText& source, TextSpan value) {
  std::vector<TextSpan> result;
  for (const TextSpan piece : text::split(source.text(), value, '|'))
    result.push_back(trimmed(source, piece));
  return result;
}

bool empty(TextSpan span) {
  return span.begin == span.end;
}

}  // namespace

struct QuestionReader::Entries {
  std::optional<TextSpan> ask;
  std::optional<TextSpan> on;
  std::optional<TextSpan> why;
  std::optional<TextSpan> play;
  std::optional<TextSpan> number;
  std::vector<std::pair<bool, TextSpan>> choices;  ///< whether right, and what follows
};

void QuestionReader::read_name(const Fenced& block, Question& question) {
  const std::string_view text = report_.source().text();
  const auto words = text::words(text, block.info, false);
  if (words.size() != 1 || !is_block_name(words.front().text)) {
    report_
        .add(kinds::bad_info, empty(block.info) ? block.opening : block.info,
             words.empty()
                 ? "this question has no name"
                 : fmt::format("{} is not a name", quoted(report_.source().text(block.info))))
        .hints.emplace_back(
            "a name is one word of lower case letters, digits and hyphens: question coming-in");
    return;
  }
  question.id = words.front().text;
  for (const auto& [name, where] : known_) {
    if (name != question.id) continue;
    report_
        .add(kinds::duplicate_name, words.front().where,
             fmt::format("`{}` names two questions", question.id))
        .labels.push_back({where, "the first one"});
  }
  known_.emplace_back(question.id, words.front().where);
}

const NamedBoard* QuestionReader::find(const Entries& entries, const Fenced& block, bool needed) {
  if (entries.on) return find_board(*entries.on, boards_, report_);
  if (!needed) return nullptr;
  if (boards_.last() == nullptr) {
    report_.add(kinds::no_board, block.opening, "there is no board above that this could be about")
        .hints.emplace_back("put a board block above it");
  }
  return boards_.last();
}

void QuestionReader::prove(TextSpan claim, const Position* position, Question& question) {
  ClaimChecker checker(names_, answers_, help_, report_);
  const std::optional<Position> board =
      position == nullptr ? std::nullopt : std::optional<Position>(*position);
  if (!board) {
    report_.add(kinds::no_board, claim, "the claim needs a board, and the question names none")
        .hints.emplace_back("add a line `on:` with the name of a board");
  }
  if (auto proved = checker.check(claim, board, kinds::false_answer))
    question.claims.push_back(std::move(*proved));
}

void QuestionReader::read_choices(const Entries& entries, const Position* position,
                                  Question& question) {
  const SourceText& source = report_.source();
  question.kind = Question::Kind::choice;
  for (const auto& [right, value] : entries.choices) {
    const std::vector<TextSpan> parts = pieces(source, value);
    Question::Choice choice;
    choice.right = right;
    choice.text = read_words(parts[0], report_);
    if (parts.size() > 1) choice.reply = source.text(parts[1]);
    if (empty(parts[0])) {
      report_.add(kinds::bad_question, value, "this choice has no text")
          .hints.emplace_back("write it like: wrong: Twelve. | That is one side of the board.");
    }
    if (parts.size() > 2) {
      if (right && parts.size() == 3) {
        prove(parts[2], position, question);
      } else {
        report_
            .add(kinds::bad_question, parts[2],
                 right ? "a right choice has at most three parts"
                       : "a wrong choice has at most two parts")
            .hints.emplace_back("the parts are the choice, the reply and, if it is right, a claim");
      }
    }
    question.choices.push_back(std::move(choice));
  }
}

void QuestionReader::read_number(TextSpan value, const Position* position, Question& question) {
  const SourceText& source = report_.source();
  question.kind = Question::Kind::number;
  const std::vector<TextSpan> parts = pieces(source, value);
  const auto words = text::words(source.text(), parts[0], false);
  const bool toleranced = words.size() == 3 && (words[1].text == "+-" || words[1].text == "\u00B1");
  const auto number = words.empty() ? std::nullopt : decimal(words[0].text);
  const auto tolerance = toleranced ? decimal(words[2].text) : std::optional<double>(0.0);
  if ((words.size() != 1 && !toleranced) || !number || !tolerance || *tolerance < 0 ||
      parts.size() > 2) {
    report_
        .add(kinds::bad_question, value,
             fmt::format("{} is not a number", quoted(source.text(value))))
        .hints.emplace_back("write it like: 71, or 71 +- 1, or 71 | pips light 71");
    return;
  }
  question.number = *number;
  question.tolerance = *tolerance;
  if (parts.size() != 2) return;
  const auto claim = text::words(source.text(), parts[1], false);
  const bool named = std::ranges::any_of(claim, [&](const text::Word& word) {
    // Of `chance hit 11/36` the number is 11.
    const std::size_t rolls = word.text.find("/36");
    return decimal(word.text.substr(0, rolls)) == number;
  });
  if (!named) {
    report_.add(kinds::bad_question, parts[1],
                fmt::format("the claim does not mention {}, so it does not prove the answer",
                            words[0].text));
  }
  prove(parts[1], position, question);
}

void QuestionReader::read_plays(const Entries& entries, const Fenced& block,
                                const Position* position, Question& question) {
  constexpr std::size_t most_near_misses = 60;
  const SourceText& source = report_.source();
  question.kind = Question::Kind::play;
  const std::vector<TextSpan> accepted = pieces(source, *entries.play);
  answers_.written += static_cast<int>(accepted.size());
  if (position == nullptr) return;
  if (!position->turn || !position->roll) {
    report_
        .add(kinds::claim_needs, block.opening,
             "the question asks for a play, and its board has no roll")
        .hints.emplace_back("end the board's position line with: light to play 6-4");
    return;
  }
  const auto legal = legal_plays(position->board, *position->turn, *position->roll);
  for (const LegalPlay& play : legal) {
    question.plays.push_back({to_text(play.play), true, false, to_text(play.after),
                              "The rules allow it, but it is not what was asked for."});
  }
  if (legal.empty())
    question.plays.push_back({"no play", true, false, to_text(position->board), ""});
  const auto entry_for = [&](const std::string& after) {
    return std::ranges::find_if(
        question.plays, [&](const Question::PlayAnswer& play) { return play.after == after; });
  };
  for (const TextSpan where : accepted) {
    const std::string_view text = source.text(where);
    if (text::same_word(text, "any")) {
      for (Question::PlayAnswer& play : question.plays) play.right = true;
      ++answers_.proved;
      continue;
    }
    auto attempt = read_play(text);
    if (!attempt) {
      report_.add_faults(kinds::bad_play, attempt.error(), where.begin);
      continue;
    }
    const Ruling ruling = rule_on(*position, *attempt, names_);
    const auto entry = ruling.allowed ? entry_for(to_text(ruling.after)) : question.plays.end();
    if (entry == question.plays.end()) {
      ++answers_.refuted;
      Diagnostic& diagnostic =
          report_.add(kinds::false_answer, where,
                      fmt::format("{} is called right, but the referee refuses it", quoted(text)));
      if (ruling.rule != nullptr) {
        diagnostic.detail = ruling.rule->id;
        diagnostic.truth = ruling.rule->statement;
      }
      diagnostic.proof = ruling.proof;
      if (!ruling.alternatives.empty())
        diagnostic.hints.push_back("a legal play is " + to_text(ruling.alternatives.front()));
      continue;
    }
    ++answers_.proved;
    entry->right = true;
    question.claims.push_back(
        {"legal",
         std::string(text),
         fmt::format("{} may be played with {}.", entry->play, to_text(*position->roll)),
         ruling.proof,
         {},
         source_at(source, where)});
  }
  for (Question::PlayAnswer& play : question.plays) {
    if (play.right) play.reply = question.explanation;
  }
  for (const Play& miss : near_misses(*position, legal, most_near_misses)) {
    const std::string text = to_text(miss);
    const auto attempt = read_play(text);
    if (!attempt) continue;
    const Ruling ruling = rule_on(*position, *attempt, names_);
    if (!ruling.allowed) question.plays.push_back({text, false, false, "", ruling.proof});
  }
  for (const auto& [right, value] : entries.choices) {
    const std::vector<TextSpan> parts = pieces(source, value);
    auto attempt = read_play(source.text(parts[0]));
    if (!attempt) {
      report_.add_faults(kinds::bad_play, attempt.error(), parts[0].begin);
      continue;
    }
    const Ruling ruling = rule_on(*position, *attempt, names_);
    const std::string reply = parts.size() > 1 ? std::string(source.text(parts[1])) : "";
    if (!ruling.allowed) {
      question.plays.push_back({std::string(source.text(parts[0])), false, false, "",
                                reply.empty() ? ruling.proof : reply + " " + ruling.proof});
      continue;
    }
    const auto entry = entry_for(to_text(ruling.after));
    if (entry != question.plays.end() && entry->right) {
      report_.add(kinds::bad_question, parts[0],
                  fmt::format("{} is called both right and wrong", quoted(source.text(parts[0]))));
    } else if (entry != question.plays.end() && !reply.empty()) {
      entry->reply = reply;
    }
  }
}

Question QuestionReader::read(const Fenced& block) {
  const SourceText& source = report_.source();
  Question question;
  question.source = source_at(source, block.opening);
  read_name(block, question);
  Entries entries;
  for (const TextSpan whole : block.lines) {
    const auto line = key_value(source, whole);
    if (!line) {
      report_
          .add(kinds::bad_line, whole,
               fmt::format("{} is not `key: value`", quoted(source.text(whole))))
          .hints.push_back("the lines of a question begin with " +
                           one_of(known_keys(), known_keys().size()) + ", and a colon");
      continue;
    }
    const std::string_view key = source.text(line->key);
    const auto set = [&](std::optional<TextSpan>& entry) {
      if (entry)
        report_.add(kinds::duplicate_key, line->key, fmt::format("`{}` is written twice", key));
      entry = line->value;
    };
    if (key == "ask") {
      set(entries.ask);
    } else if (key == "on") {
      set(entries.on);
    } else if (key == "why") {
      set(entries.why);
    } else if (key == "play") {
      set(entries.play);
    } else if (key == "number") {
      set(entries.number);
    } else if (key == "right" || key == "wrong") {
      entries.choices.emplace_back(key == "right", line->value);
    } else {
      report_unknown_key(line->key, known_keys(), report_);
    }
  }
  if (!entries.ask || empty(*entries.ask)) {
    report_.add(kinds::missing_key, block.opening, "the question asks nothing")
        .hints.emplace_back("add a line like: ask: Which play is allowed?");
  } else {
    question.ask = read_words(*entries.ask, report_);
  }
  if (entries.why) question.explanation = source.text(*entries.why);

  const auto is_right = [](const auto& choice) { return choice.first; };
  const bool any_right = std::ranges::any_of(entries.choices, is_right);
  const bool any_wrong = !std::ranges::all_of(entries.choices, is_right);
  const bool by_choice = !entries.play && !entries.choices.empty();
  const int ways = (entries.play ? 1 : 0) + (entries.number ? 1 : 0) + (by_choice ? 1 : 0);
  const NamedBoard* board = find(entries, block, entries.play.has_value());
  const Position* position = board != nullptr && board->position ? &*board->position : nullptr;
  if (position != nullptr) {
    question.position = to_text(*position);
    question.view = board->view;
  }
  if (ways != 1 || (entries.play && any_right) || (by_choice && !(any_right && any_wrong))) {
    report_
        .add(kinds::bad_question, block.opening,
             ways == 0                ? "the question does not say what is right"
             : by_choice && ways == 1 ? "the choices need a right one and a wrong one"
                                      : "the question is answered in more than one way")
        .hints.emplace_back("give one of: `play`; `number`; or `right` and `wrong` choices");
    return question;
  }
  if (entries.play) read_plays(entries, block, position, question);
  if (entries.number) read_number(*entries.number, position, question);
  if (by_choice) read_choices(entries, position, question);
  return question;
}

}  // namespace pointwright::lesson
