#include <algorithm>
#include <optional>

#include "chance/combination_reader.hpp"
#include "chance/event.hpp"
#include "rules/text.hpp"

namespace pointwright::chance {
namespace {

using text::Word;

constexpr std::size_t longest_query = 500;

class Reader : public CombinationReader<Event> {
 public:
  Reader(std::string_view text, TextSpan span) : CombinationReader(span), text_(text) {
    cut_into_tokens();
  }

  Result<Query, Faults> run() {
    if (span_.end - span_.begin > longest_query) {
      fault("query-too-long", span_, "the event is too long",
            "an event is shorter than " + std::to_string(longest_query) + " characters");
      return faults_;
    }
    Query::Mode mode = Query::Mode::can;
    if (accept("must"))
      mode = Query::Mode::must;
    else if (accept("cannot"))
      mode = Query::Mode::cannot;
    else
      accept("can");
    auto event = read_either();
    if (event && !at_end())
      fault("event-continues", {tokens_[at_].where.begin, span_.end},
            text::quoted(tokens_[at_].text) + " does not go on from what stands before it",
            "join events with and, or");
    if (!faults_.empty() || !event) return faults_;
    return Query{mode, std::move(*event)};
  }

 private:
  void cut_into_tokens() {
    for (const Word& word : text::words(text_, span_, false)) {
      std::size_t begin = word.where.begin;
      for (std::size_t at = word.where.begin; at <= word.where.end; ++at) {
        const bool bracket = at < word.where.end && (text_[at] == '(' || text_[at] == ')');
        if (at < word.where.end && !bracket) continue;
        if (at > begin) tokens_.push_back({text_.substr(begin, at - begin), {begin, at}});
        if (bracket) tokens_.push_back({text_.substr(at, 1), {at, at + 1}});
        begin = at + 1;
      }
    }
  }

  void report_missing() override {
    fault("event-missing", {span_.end, span_.end}, "an event is missing here", known_events());
  }

  std::optional<Event> read_statement() override {
    const Word word = tokens_[at_++];
    const auto kinds = event_kinds();
    const auto kind = std::find_if(kinds.begin(), kinds.end(), [&](const EventKind& known) {
      return text::same_word(known.name, word.text);
    });
    if (kind == kinds.end()) {
      fault("no-such-event", word.where, "there is no event " + text::quoted(word.text),
            known_events());
      return std::nullopt;
    }
    return read_argument(*kind, word);
  }

  std::optional<Event> read_argument(const EventKind& kind, const Word& word) {
    using Argument = EventKind::Argument;
    const bool given = at_ < tokens_.size() && text::is_digit(tokens_[at_].text.front());
    if (!given) {
      if (kind.argument != Argument::point) return Event::simple(kind, 0);
      fault("argument-missing", word.where, text::quoted(kind.name) + " needs a point",
            "write it behind: " + std::string(kind.name) + " 5");
      return std::nullopt;
    }
    const Word argument = tokens_[at_++];
    const auto number = text::number(argument.text, 1'000'000);
    if (kind.argument == Argument::none) {
      fault("argument-unwanted", argument.where, text::quoted(kind.name) + " takes no number",
            "leave it out");
      return std::nullopt;
    }
    const std::uint64_t most = kind.argument == Argument::count ? 4 : 24;
    if (!number || *number < 1 || *number > most) {
      fault("argument-out-of-range", argument.where,
            text::quoted(argument.text) +
                (most == 4 ? " is not a number of checkers that one roll can bear off"
                           : " is not a point"),
            "write 1 to " + std::to_string(most));
      return std::nullopt;
    }
    return Event::simple(kind, static_cast<int>(*number));
  }

  static std::string known_events() {
    std::string names;
    for (const EventKind& kind : event_kinds())
      names += (names.empty() ? "" : ", ") + std::string(kind.name);
    return "the events are " + names;
  }

  std::string_view text_;
};

}  // namespace

Result<Query, Faults> read_query(std::string_view text, TextSpan span) {
  return Reader(text, span).run();
}

Result<Query, Faults> read_query(std::string_view text) {
  return read_query(text, {0, text.size()});
}

}  // namespace pointwright::chance
