#include "lesson/claim_reader.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "lesson/blank.hpp"
#include "lesson/board.hpp"
#include "lesson/suggest.hpp"
#include "rules/text.hpp"

namespace pointwright::lesson {
namespace {

using text::quoted;
using text::Word;

/// The longest claim that is read, in bytes.
constexpr std::size_t longest_claim = 1000;

/// The words of a claim or of a form; a colon at the end of a word is a word of its own.
std::vector<Word> claim_words(std::string_view text, TextSpan where) {
  std::vector<Word> result;
  for (const Word& word : text::words(text, where, false)) {
    if (word.text.size() > 1 && word.text.ends_with(':')) {
      const std::size_t colon = word.where.end - 1;
      result.push_back({word.text.substr(0, word.text.size() - 1), {word.where.begin, colon}});
      result.push_back({word.text.substr(word.text.size() - 1), {colon, word.where.end}});
    } else {
      result.push_back(word);
    }
  }
  return result;
}

/// One attempt to read a claim as one form of one kind.
struct Reading {
  ReadClaim claim;
  int literals = 0;           ///< words of the form that were found
  int filled = 0;             ///< blanks that could be read
  bool complete = false;      ///< the whole claim fits the form
  std::size_t stopped = 0;    ///< index of the word at which it stopped to fit
  std::string_view expected;  ///< the word or blank that the form has there; empty: nothing more
  std::vector<BlankFault> faults;

  [[nodiscard]] bool fits() const { return complete && faults.empty(); }
  [[nodiscard]] int score() const { return 8 * literals + 2 * filled + (complete ? 1 : 0); }
};

class FormReader {
 public:
  FormReader(const SourceText& source, const std::vector<Word>& words, const SideNames& names)
      : source_(source), words_(words), names_(names) {}

  [[nodiscard]] Reading read(const ClaimKind& kind, std::size_t form) const {
    Reading reading;
    reading.claim.kind = &kind;
    reading.claim.form = form;
    const std::string_view text = kind.forms[form];
    const std::vector<Word> parts = claim_words(text, {0, text.size()});
    std::size_t at = 0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      reading.stopped = at;
      reading.expected = parts[i].text;
      if (at == words_.size()) return reading;
      const Blank* blank = find_blank(parts[i].text);
      if (blank == nullptr) {
        if (!text::same_word(words_[at].text, parts[i].text)) return reading;
        if (parts[i].text != ":") ++reading.literals;
        ++at;
        continue;
      }
      std::size_t end = at + 1;
      if (blank->takes_words) {
        const std::size_t parts_left = parts.size() - i - 1;
        end = words_.size();
        if (parts_left > 0 && find_blank(parts[i + 1].text) == nullptr) {
          end = find_word(parts[i + 1].text, at + 1);
          if (end == words_.size()) {
            reading.stopped = end;
            reading.expected = parts[i + 1].text;
            return reading;
          }
        } else {
          // No word of the form ends this blank: each part after it takes one word.
          if (words_.size() < at + 1 + parts_left) {
            reading.stopped = words_.size();
            reading.expected = parts[i + 1].text;
            return reading;
          }
          end -= parts_left;
        }
      }
      add_argument(*blank, at, end, reading);
      at = end;
    }
    reading.stopped = at;
    reading.expected = {};
    reading.complete = at == words_.size();
    return reading;
  }

 private:
  [[nodiscard]] std::size_t find_word(std::string_view word, std::size_t from) const {
    while (from < words_.size() && !text::same_word(words_[from].text, word)) ++from;
    return from;
  }

  void add_argument(const Blank& blank, std::size_t begin, std::size_t end,
                    Reading& reading) const {
    const TextSpan where{words_[begin].where.begin, words_[end - 1].where.end};
    Argument argument{blank.name, std::string(source_.text(where)), where, {}};
    std::vector<BlankFault> faults = fill(argument, names_);
    if (faults.empty()) ++reading.filled;
    reading.faults.insert(reading.faults.end(), faults.begin(), faults.end());
    reading.claim.arguments.push_back(std::move(argument));
  }

  const SourceText& source_;
  const std::vector<Word>& words_;
  const SideNames& names_;
};

/// The words with which claims may begin.
std::vector<std::string> first_words() {
  std::vector<std::string> words;
  for (const ClaimKind* kind : claim_kinds()) {
    for (const std::string_view form : kind->forms) {
      const std::string word(form.substr(0, form.find(' ')));
      if (find_blank(word) == nullptr && std::ranges::find(words, word) == words.end())
        words.push_back(word);
    }
  }
  return words;
}

void report_unknown(const Word& first, Report& report) {
  Diagnostic& diagnostic = report.add(kinds::unknown_claim, first.where,
                                      fmt::format("no claim begins with {}", quoted(first.text)));
  const std::vector<std::string> known = first_words();
  if (const auto meant = did_you_mean(first.text, known)) {
    diagnostic.hints.push_back(fmt::format("did you mean `{}`?", *meant));
    diagnostic.fix = Fix{first.where, *meant};
  } else {
    diagnostic.hints.push_back("claims begin with a side, or with " + one_of(known, known.size()));
  }
}

/// Where a word of the form was not found at all, one that was written may be that word misspelt.
bool report_misspelt(const std::vector<Word>& words, const std::vector<std::string>& expected,
                     std::string_view form, Report& report) {
  for (const Word& word : words) {
    const auto meant = did_you_mean(word.text, expected);
    if (!meant) continue;
    Diagnostic& diagnostic =
        report.add(kinds::bad_claim, word.where,
                   fmt::format("{} stands where `{}` is expected", quoted(word.text), *meant));
    diagnostic.fix = Fix{word.where, *meant};
    diagnostic.hints.push_back(fmt::format("its form is: {}", form));
    return true;
  }
  return false;
}

/// Spaces that look like a space and are none; word processors put them there.
bool report_odd_space(TextSpan where, Report& report) {
  for (const std::string_view space : {"\u00A0", "\u2007", "\u2009", "\u202F"}) {
    const std::size_t at = report.source().text(where).find(space);
    if (at == std::string_view::npos) continue;
    const TextSpan span{where.begin + at, where.begin + at + space.size()};
    Diagnostic& diagnostic =
        report.add(kinds::bad_claim, span, "this looks like a space and is another character");
    diagnostic.hints.emplace_back("type an ordinary space");
    diagnostic.fix = Fix{span, " "};
    return true;
  }
  return false;
}

/// Reports where the best readings of a claim stop to fit.
void report_misfit(const std::vector<Reading>& best, const std::vector<Word>& words,
                   Report& report) {
  std::vector<std::string> expected;
  for (const Reading& reading : best) {
    const std::string word(reading.expected);
    if (!word.empty() && find_blank(word) == nullptr &&
        std::ranges::find(expected, word) == expected.end())
      expected.push_back(word);
  }
  std::vector<std::string> shown;
  for (const std::string& word : expected) shown.push_back("`" + word + "`");
  const Reading& first = best.front();
  const std::string_view form = first.claim.kind->forms[first.claim.form];
  const bool at_end = first.stopped >= words.size();
  const std::size_t last = words.back().where.end;
  const TextSpan where = at_end ? TextSpan{last, last} : words[first.stopped].where;
  std::string message;
  if (at_end && first.expected == ":") {
    message = "a colon is missing";
  } else if (at_end) {
    message = fmt::format("the claim ends too soon: {} is missing",
                          shown.empty() ? std::string(first.expected) : one_of(shown));
  } else if (first.expected.empty()) {
    message = fmt::format("the claim is complete before {}", quoted(words[first.stopped].text));
  } else {
    message = fmt::format("{} stands where {} is expected", quoted(words[first.stopped].text),
                          shown.empty() ? std::string(first.expected) : one_of(shown));
  }
  if (at_end && report_misspelt(words, expected, form, report)) return;
  Diagnostic& diagnostic = report.add(kinds::bad_claim, where, std::move(message));
  if (!at_end) {
    if (const auto meant = did_you_mean(words[first.stopped].text, expected))
      diagnostic.fix = Fix{where, *meant};
  }
  diagnostic.hints.push_back(fmt::format("its form is: {}", form));
}

}  // namespace

std::optional<ReadClaim> read_claim(TextSpan where, const SideNames& names, Report& report) {
  const SourceText& source = report.source();
  if (where.end - where.begin > longest_claim) {
    report.add(kinds::bad_claim, where,
               fmt::format("the claim has {} bytes; at most {} are read", where.end - where.begin,
                           longest_claim));
    return std::nullopt;
  }
  const std::vector<Word> words = claim_words(source.text(), where);
  if (words.empty()) {
    report.add(kinds::bad_claim, where, "a claim is missing here");
    return std::nullopt;
  }
  const FormReader reader(source, words, names);
  std::vector<Reading> best;
  for (const ClaimKind* kind : claim_kinds()) {
    for (std::size_t form = 0; form < kind->forms.size(); ++form) {
      Reading reading = reader.read(*kind, form);
      if (reading.fits()) return std::move(reading.claim);
      if (!best.empty() && reading.score() > best.front().score()) best.clear();
      if (best.empty() || reading.score() == best.front().score())
        best.push_back(std::move(reading));
    }
  }
  if (report_odd_space(where, report)) return std::nullopt;
  const Reading& first = best.front();
  if (first.literals == 0 && first.filled == 0) {
    report_unknown(words.front(), report);
  } else if (!first.complete && first.faults.empty()) {
    report_misfit(best, words, report);
  } else {
    for (const BlankFault& fault : first.faults) {
      Diagnostic& diagnostic = report.add(*fault.kind, fault.where, fault.message);
      diagnostic.detail = fault.detail;
      if (!fault.hint.empty()) diagnostic.hints.push_back(fault.hint);
      diagnostic.fix = fault.fix;
    }
    if (!first.complete) report_misfit(best, words, report);
  }
  return std::nullopt;
}

std::optional<Roll> roll_named(std::string_view word) {
  const auto die = [](char c) { return c >= '1' && c <= '6' ? c - '0' : 0; };
  if (word.size() != 3 || word[1] != '-' || die(word[0]) == 0 || die(word[2]) == 0)
    return std::nullopt;
  return Roll(die(word[0]), die(word[2]));
}

bool has_with(TextSpan where, const SourceText& source) {
  const auto words =
      text::words(source.text(), {where.begin, std::min(where.end, where.begin + 5)}, false);
  return !words.empty() && text::same_word(words.front().text, "with");
}

namespace {

/// `with 6-4 legal ...`: everything is there but the colon.
bool report_missing_colon(const std::vector<Word>& words, Report& report) {
  const std::size_t at = words.size() > 2 && side_named(words[1].text) ? 2 : 1;
  if (words.size() <= at || !roll_named(words[at].text)) return false;
  const TextSpan behind{words[at].where.end, words[at].where.end};
  report.add(kinds::bad_claim, behind, "a colon is missing after the roll").fix = Fix{behind, ":"};
  return true;
}

}  // namespace

std::optional<WithRoll> read_with(TextSpan where, Report& report) {
  const std::string_view text = report.source().text();
  const std::size_t colon = report.source().text(where).find(':');
  const TextSpan head{where.begin,
                      colon == std::string_view::npos ? where.end : where.begin + colon};
  const auto words = text::words(text, head, false);
  const bool sided = words.size() == 3 && side_named(words[1].text);
  const auto roll = words.size() == 2 || sided ? roll_named(words.back().text) : std::nullopt;
  if (colon == std::string_view::npos && report_missing_colon(words, report)) return std::nullopt;
  if (!roll || colon == std::string_view::npos) {
    report
        .add(kinds::bad_claim, head,
             fmt::format("{} gives no roll", quoted(report.source().text(head))))
        .hints.emplace_back("write it like: with 6-4: plays 3, or: with dark 6-4: plays 3");
    return std::nullopt;
  }
  WithRoll result{std::nullopt, *roll, {where.begin, head.end + 1}, head.end + 1};
  if (sided) result.side = side_named(words[1].text);
  return result;
}

}  // namespace pointwright::lesson
