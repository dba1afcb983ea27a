#include <algorithm>
#include <optional>

#include "chance/combination_reader.hpp"
#include "finder/query.hpp"
#include "finder/tempting.hpp"
#include "rules/suggest.hpp"
#include "rules/text.hpp"

namespace pointwright::finder {
namespace {

using text::quoted;
using text::Word;

constexpr std::size_t longest_query = 2000;
constexpr int largest_number = 400;  // more than all the pips of a side

/// Cuts a query into words and brackets. A bracket inside a word, as in 6/off(2), stays there.
std::vector<Word> tokens_of(std::string_view text, TextSpan span) {
  std::vector<Word> tokens;
  for (Word word : text::words(text, span, false)) {
    const auto add = [&](std::size_t from, std::size_t to) {
      if (from < to) tokens.push_back({text.substr(from, to - from), {from, to}});
    };
    auto [begin, end] = word.where;
    while (begin < end && text[begin] == '(') {
      add(begin, begin + 1);
      ++begin;
    }
    const std::string_view rest = text.substr(begin, end - begin);
    auto unmatched =
        std::count(rest.begin(), rest.end(), ')') - std::count(rest.begin(), rest.end(), '(');
    std::size_t closing = end;
    while (closing > begin && unmatched > 0 && text[closing - 1] == ')') {
      --closing;
      --unmatched;
    }
    add(begin, closing);
    for (std::size_t at = closing; at < end; ++at) add(at, at + 1);
  }
  return tokens;
}

bool is_move(std::string_view word) {
  return word.find('/') != std::string_view::npos;
}
bool is_number(std::string_view word) {
  return !word.empty() && std::all_of(word.begin(), word.end(), text::is_digit);
}

std::vector<std::string> ids_of_rules() {
  std::vector<std::string> ids;
  for (const Temptation& temptation : temptations()) ids.emplace_back(temptation.rule->id);
  return ids;
}

/// Matches one form of one kind with the tokens from some place on.
class FormMatch {
 public:
  FormMatch(std::string_view text, const std::vector<Word>& tokens, std::size_t at)
      : text_(text), tokens_(tokens), at_(at) {}

  /// Whether all of it matched; else `fault()` may say why, and `at()` how far it went.
  bool run(const PredicateKind& kind, std::size_t form) {
    predicate_.kind = &kind;
    predicate_.form = form;
    predicate_.range = {1, boundless};
    if (kind.name == "bar") predicate_.place = bar_place;
    if (kind.name == "off") predicate_.place = off_place;
    const std::size_t first = at_;
    const std::string_view pattern = kind.forms[form];
    for (const Word& word : text::words(pattern, {0, pattern.size()}, false)) {
      if (!take(word.text)) return false;
    }
    predicate_.where = {tokens_[first].where.begin, tokens_[at_ - 1].where.end};
    return true;
  }

  [[nodiscard]] std::size_t at() const { return at_; }
  [[nodiscard]] const std::optional<Fault>& fault() const { return fault_; }
  [[nodiscard]] Predicate& predicate() { return predicate_; }

 private:
  [[nodiscard]] bool ended() const { return at_ == tokens_.size(); }
  [[nodiscard]] std::string_view word() const { return ended() ? "" : tokens_[at_].text; }

  bool fail(std::string_view id, TextSpan where, std::string reason, std::string fix) {
    fault_ = Fault{id, where, std::move(reason), std::move(fix)};
    return false;
  }

  bool take(std::string_view part) {
    if (part == "SIDE") return take_side();
    if (part == "RANGE") return take_range(0);
    if (part == "FRACTION") return take_range(36);
    if (part == "AMOUNT") return take_range(1000);
    if (part == "RULE") return take_rule();
    if (part == "PLAY") return take_play();
    if (part == "PLACE") return take_place();
    if (part == "EVENT") return take_event();
    if (part == "D") return take_die();
    if (part == "D-D") return take_roll();
    if (!text::same_word(word(), part) || ended()) return false;
    ++at_;
    return true;
  }

  bool take_side() {
    for (const Side side : {Side::light, Side::dark}) {
      if (!ended() && text::same_word(word(), name(side))) {
        predicate_.side = side;
        ++at_;
        return true;
      }
    }
    return false;
  }

  /// A number of points with up to three decimals, in thousandths.
  std::optional<int> amount(std::string_view written) {
    const std::size_t point = std::min(written.find('.'), written.size());
    const auto whole = text::number(written.substr(0, point), 6);
    std::string part(written.substr(std::min(point + 1, written.size())));
    if (!whole || part.size() > 3 || (point < written.size() && part.empty())) {
      fail("not-an-amount", tokens_[at_].where, quoted(written) + " is not an amount of points",
           "write it like 0.1 or 0.080");
      return std::nullopt;
    }
    part.append(3 - part.size(), '0');
    const auto thousandths = text::number(part, 999);
    if (!thousandths) return std::nullopt;
    ++at_;
    return static_cast<int>(*whole) * 1000 + static_cast<int>(*thousandths);
  }

  /// A whole number, or a fraction of 36.
  std::optional<int> number(int per) {
    if (ended()) return std::nullopt;
    const std::string_view written = word();
    if (per == 1000) return amount(written);
    if (per == 0) {
      const bool negative = written.starts_with('-');
      const auto value = text::number(negative ? written.substr(1) : written, largest_number);
      if (!value) {
        if (is_number(written))
          fail("number-too-large", tokens_[at_].where, quoted(written) + " is too large",
               "write a number up to " + std::to_string(largest_number));
        return std::nullopt;
      }
      ++at_;
      return negative ? -static_cast<int>(*value) : static_cast<int>(*value);
    }
    const std::size_t cut = written.find('/');
    if (cut == std::string_view::npos) return std::nullopt;
    const auto above = text::number(written.substr(0, cut), 36);
    const auto below = text::number(written.substr(cut + 1), 36);
    if (!above || !below || *below == 0 || per % static_cast<int>(*below) != 0 || *above > *below) {
      fail("not-a-fraction", tokens_[at_].where,
           quoted(written) + " is not a fraction of the 36 rolls", "write it like 11/36 or 3/4");
      return std::nullopt;
    }
    ++at_;
    return static_cast<int>(*above) * (per / static_cast<int>(*below));
  }

  bool take_range(int per) {
    if (text::same_word(word(), "at") && at_ + 1 < tokens_.size()) {
      const bool least = text::same_word(tokens_[at_ + 1].text, "least");
      if (!least && !text::same_word(tokens_[at_ + 1].text, "most"))
        return fail("at-what", tokens_[at_].where, "`at` goes on with least or most",
                    "write it like: at least 2");
      at_ += 2;
      const auto bound = number(per);
      if (!bound) return false;
      predicate_.range = least ? Range{*bound, boundless} : Range{-boundless, *bound};
      return true;
    }
    const std::size_t first = at_;
    const auto from = number(per);
    if (!from) return false;
    predicate_.range = {*from, *from};
    if (predicate_.kind->name == "must play of 4" && *from > 4) {
      at_ = first;  // then it is more likely a die that was meant
      return false;
    }
    if (!text::same_word(word(), "to") || ended()) return true;
    ++at_;
    const auto to = number(per);
    if (!to) return false;
    if (*to < *from)
      return fail("range-backward", {tokens_[first].where.begin, tokens_[at_ - 1].where.end},
                  "the range ends before it begins", "write the smaller number first");
    predicate_.range.most = *to;
    return true;
  }

  bool take_rule() {
    if (ended()) return false;
    const Rule* rule = find_rule(word());
    if (rule == nullptr) {
      const auto meant = text::did_you_mean(word(), ids_of_rules());
      return fail("no-such-rule", tokens_[at_].where, quoted(word()) + " is not the name of a rule",
                  meant ? "did you mean `" + *meant + "`?"
                        : "the rules of play are " + text::one_of(ids_of_rules(), 20));
    }
    if (temptation_of(*rule) == nullptr)
      return fail("not-a-rule-of-play", tokens_[at_].where,
                  "no play is refused because of " + quoted(word()),
                  "the rules by which plays are refused are " + text::one_of(ids_of_rules(), 20));
    predicate_.rule = rule;
    ++at_;
    return true;
  }

  bool take_play() {
    const std::size_t first = at_;
    if (at_ + 1 < tokens_.size() && text::same_word(word(), "no") &&
        text::same_word(tokens_[at_ + 1].text, "play")) {
      at_ += 2;
    } else {
      while (!ended() && is_move(word())) ++at_;
    }
    if (at_ == first) return false;
    const TextSpan where{tokens_[first].where.begin, tokens_[at_ - 1].where.end};
    predicate_.play_text = std::string(text_.substr(where.begin, where.end - where.begin));
    auto attempt = read_play(predicate_.play_text);
    if (!attempt.ok()) {
      Fault fault = attempt.error().front();
      fault.where = {fault.where.begin + where.begin, fault.where.end + where.begin};
      fault_ = std::move(fault);
      return false;
    }
    predicate_.attempt = std::move(attempt.value());
    return true;
  }

  bool take_place() {
    if (ended()) return false;
    if (text::same_word(word(), "bar")) {
      predicate_.place = bar_place;
    } else if (text::same_word(word(), "off")) {
      predicate_.place = off_place;
    } else {
      const auto point = text::number(word(), 99);
      if (!point) return false;
      if (*point < 1 || *point > 24)
        return fail("not-a-place", tokens_[at_].where, quoted(word()) + " is not a point",
                    "write 1 to 24, bar or off");
      predicate_.place = static_cast<Place>(*point);
    }
    ++at_;
    return true;
  }

  bool take_die() {
    if (ended()) return false;
    const auto die = text::number(word(), 99);
    if (!die) return false;
    if (*die < 1 || *die > 6)
      return fail("not-a-die", tokens_[at_].where, "no die shows " + quoted(word()),
                  "write 1 to 6");
    predicate_.range = {static_cast<int>(*die), static_cast<int>(*die)};
    ++at_;
    return true;
  }

  bool take_roll() {
    const std::string_view w = word();
    if (w.size() != 3 || w[1] != '-' || !text::is_digit(w[0]) || !text::is_digit(w[2]))
      return false;
    const int a = w[0] - '0';
    const int b = w[2] - '0';
    if (a < 1 || a > 6 || b < 1 || b > 6)
      return fail("not-a-roll", tokens_[at_].where, quoted(w) + " is not a roll",
                  "write two dice of 1 to 6, such as 6-4");
    predicate_.roll = Roll(a, b);
    ++at_;
    return true;
  }

  /// Where the event that begins here ends: one event, or one pair of brackets; for `chance` all
  /// up to its fraction.
  [[nodiscard]] std::size_t end_of_event() const {
    std::size_t end = at_;
    if (predicate_.kind->name == "chance") {
      while (end < tokens_.size() && !is_move(tokens_[end].text) &&
             !text::same_word(tokens_[end].text, "at"))
        ++end;
      return end;
    }
    if (ended()) return end;
    if (word() == "(") {
      int depth = 0;
      do {
        depth += tokens_[end].text == "(" ? 1 : tokens_[end].text == ")" ? -1 : 0;
        ++end;
      } while (end < tokens_.size() && depth > 0);
      return end;
    }
    ++end;
    const bool argument = end < tokens_.size() && is_number(tokens_[end].text);
    return argument ? end + 1 : end;
  }

  bool take_event() {
    const std::size_t end = end_of_event();
    if (end == at_) return false;
    auto query = chance::read_query(text_, {tokens_[at_].where.begin, tokens_[end - 1].where.end});
    if (!query.ok()) {
      fault_ = query.error().front();
      std::vector<std::string> names;
      for (const chance::EventKind& kind : chance::event_kinds()) names.emplace_back(kind.name);
      if (fault_->id == "no-such-event") {
        const auto meant = text::did_you_mean(
            text_.substr(fault_->where.begin, fault_->where.end - fault_->where.begin), names);
        if (meant) fault_->fix = "did you mean `" + *meant + "`?";
      }
      return false;
    }
    using Mode = chance::Query::Mode;
    if (query->mode != Mode::can) {
      // `chance must hit 3/36` is a form of its own; must twice is one too many.
      fault_.reset();
      return false;
    }
    const std::string_view form = predicate_.kind->forms[predicate_.form];
    if (form.find("cannot") != std::string_view::npos) query.value().mode = Mode::cannot;
    if (form.find("must") != std::string_view::npos) query.value().mode = Mode::must;
    predicate_.event = std::move(query.value());
    at_ = end;
    return true;
  }

  std::string_view text_;
  const std::vector<Word>& tokens_;
  std::size_t at_;
  Predicate predicate_;
  std::optional<Fault> fault_;
};

class Reader : public chance::CombinationReader<Query> {
 public:
  Reader(std::string_view text, TextSpan span) : CombinationReader(span), text_(text) {}

  Result<Query, Faults> run() {
    if (span_.end - span_.begin > longest_query) {
      fault("query-too-long", span_, "the query is too long",
            "a query is shorter than " + std::to_string(longest_query) + " characters");
      return faults_;
    }
    tokens_ = tokens_of(text_, span_);
    auto query = read_either();
    if (query && !at_end()) {
      fault("query-continues", {tokens_[at_].where.begin, span_.end},
            quoted(tokens_[at_].text) + " does not go on from what stands before it",
            "join statements with and, or");
    }
    if (!faults_.empty() || !query) return faults_;
    return std::move(*query);
  }

 private:
  void report_missing() override {
    fault("statement-missing", {span_.end, span_.end}, "a statement is missing here",
          "write one such as: must play larger");
  }

  std::optional<Query> read_statement() override {
    std::optional<FormMatch> best;
    std::optional<FormMatch> nearest;
    for (const PredicateKind* kind : predicate_kinds()) {
      for (std::size_t form = 0; form < kind->forms.size(); ++form) {
        FormMatch match(text_, tokens_, at_);
        const bool matched = match.run(*kind, form);
        auto& kept = matched ? best : nearest;
        const bool farther = !kept || match.at() > kept->at() ||
                             (match.at() == kept->at() && match.fault() && !kept->fault());
        if (farther) kept.emplace(match);
      }
    }
    // A fault inside the words that follow a match is more telling than the match cut short.
    const bool cut_short = best && nearest && nearest->fault() && nearest->at() >= best->at();
    if (best && !cut_short) {
      at_ = best->at();
      return Query::simple(std::move(best->predicate()));
    }
    if (auto rule = read_rule_alone()) return rule;
    explain(nearest && nearest->at() > at_ ? &*nearest : nullptr);
    return std::nullopt;
  }

  /// `larger-die` stands for `illegal because larger-die`.
  std::optional<Query> read_rule_alone() {
    const Rule* rule = find_rule(tokens_[at_].text);
    if (rule == nullptr || temptation_of(*rule) == nullptr) return std::nullopt;
    Predicate predicate;
    predicate.kind = predicate_kinds().front();
    predicate.rule = rule;
    predicate.where = tokens_[at_].where;
    ++at_;
    return Query::simple(std::move(predicate));
  }

  void explain(FormMatch* nearest) {
    if (nearest != nullptr && nearest->fault()) {
      faults_.push_back(*nearest->fault());
      return;
    }
    if (nearest != nullptr) {
      const PredicateKind& kind = *nearest->predicate().kind;
      const TextSpan begun{tokens_[at_].where.begin, tokens_[nearest->at() - 1].where.end};
      const std::string seen = quoted(text_.substr(begun.begin, begun.end - begun.begin));
      const bool more = nearest->at() < tokens_.size();
      fault("statement-unfinished", more ? tokens_[nearest->at()].where : begun,
            more ? quoted(tokens_[nearest->at()].text) + " cannot follow " + seen
                 : seen + " is not finished",
            "it is written `" + std::string(kind.forms[nearest->predicate().form]) +
                "`, such as `" + std::string(kind.example) + "`");
      return;
    }
    std::vector<std::string> known = ids_of_rules();
    for (const PredicateKind* kind : predicate_kinds()) {
      for (const std::string_view form : kind->forms)
        known.emplace_back(form.substr(0, form.find(' ')));
    }
    const Word word = tokens_[at_];
    for (const chance::EventKind& kind : chance::event_kinds()) {
      if (!text::same_word(kind.name, word.text)) continue;
      fault("event-alone", word.where, quoted(word.text) + " is an event, not a statement",
            "write `can " + std::string(kind.name) + "` for the roll on the board, or `chance " +
                std::string(kind.name) + " at least 18/36` for the roll to come");
      return;
    }
    const auto meant = text::did_you_mean(word.text, known);
    fault("no-such-statement", word.where, "no statement begins with " + quoted(word.text),
          meant ? "did you mean `" + *meant + "`?" : "docs/queries.md lists what can be asked for");
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

}  // namespace pointwright::finder
