#include <string>

#include "rules/position.hpp"
#include "rules/setup.hpp"
#include "rules/text.hpp"

namespace pointwright {
namespace {

using text::Word;

/// The longest position line that is read; a canonical one stays far below it.
constexpr std::size_t longest_line = 2000;

/// Reads one position line into a set-up and remembers where each part stood, so that what is wrong
/// with the set-up can be shown in the text.
class Reader {
 public:
  explicit Reader(std::string_view line) : line_(line) {}

  Result<Position, Faults> run() {
    if (line_.size() > longest_line) {
      fault("line-too-long", {longest_line, line_.size()},
            "the line has " + std::to_string(line_.size()) + " characters",
            "a position line is shorter than " + std::to_string(longest_line));
      return faults_;
    }
    for (const TextSpan part : text::split(line_, {0, line_.size()}, ';')) read_part(part);
    for (const Side side : {Side::light, Side::dark}) {
      if (side_at_[index(side)]) continue;
      const std::string who(name(side));
      std::string fix = "add: ; ";
      fix.append(who).append(" 24x2 13x5 8x3 6x5 (or ").append(who).append(" offx15)");
      fault("side-missing", {line_.size(), line_.size()}, "no checkers are given for " + who, fix);
    }
    if (!faults_.empty()) return faults_;

    auto position = validate(setup_);
    if (position) return *position;
    for (const SetupFault& found : position.error())
      fault(found.id, where(found), found.reason, found.fix);
    return faults_;
  }

 private:
  void fault(std::string_view id, TextSpan where, std::string reason, std::string fix) {
    faults_.push_back({id, where, std::move(reason), std::move(fix)});
  }

  [[nodiscard]] TextSpan where(const SetupFault& found) const {
    const TextSpan everything{0, line_.size()};
    switch (found.part) {
      case SetupFault::Part::side:
        return side_at_[index(found.side)].value_or(everything);
      case SetupFault::Part::place: {
        const auto& at = place_at_[index(found.side)][found.place];
        return at ? *at : side_at_[index(found.side)].value_or(everything);
      }
      case SetupFault::Part::dice:
        return turn_at_.value_or(everything);
      case SetupFault::Part::cube:
        return cube_at_.value_or(everything);
      case SetupFault::Part::match:
        return match_at_.value_or(everything);
    }
    return everything;
  }

  void read_part(TextSpan part) {
    const std::vector<Word> words = text::words(line_, part, true);
    if (words.empty()) {
      // A semicolon at the very end is harmless; an empty part elsewhere is a slip worth showing.
      if (part.end != line_.size() || line_.empty())
        fault("empty-part", part, "there is nothing between two semicolons", "remove one of them");
      return;
    }
    const TextSpan whole{words.front().where.begin, words.back().where.end};
    const std::string_view first = words.front().text;
    if (const auto side = text::side_named(first)) {
      if (words.size() > 1 && text::same_word(words[1].text, "to"))
        read_turn(*side, words, whole);
      else
        read_side(*side, words, whole);
    } else if (text::same_word(first, "cube")) {
      read_cube(words, whole);
    } else if (text::same_word(first, "match")) {
      read_match(words, whole);
    } else if (text::same_word(first, "house")) {
      read_house(words, whole);
    } else {
      fault("unknown-part", words.front().where, "no part begins with " + text::quoted(first),
            "a part begins with light, dark, cube, match or house");
    }
  }

  /// Notes where a part stands; false, with a fault, if it is there for the second time.
  bool note_once(std::optional<TextSpan>& at, TextSpan whole, std::string_view what) {
    if (at) {
      fault("part-twice", whole, std::string(what) + " is given twice", "keep one of them");
      return false;
    }
    at = whole;
    return true;
  }

  void read_side(Side side, const std::vector<Word>& words, TextSpan whole) {
    const std::string who(name(side));
    if (!note_once(side_at_[index(side)], whole, who)) return;
    if (words.size() == 1) {
      fault("side-empty", whole, who + " has no checkers listed",
            "list them as in 24x2 13x5, or write offx15 if all are borne off");
    }
    for (std::size_t i = 1; i < words.size(); ++i) {
      if (i + 1 < words.size() && is_apart(words[i], words[i + 1])) {
        ++i;
      } else {
        read_stack(side, words[i]);
      }
    }
  }

  /// Whether a place and its count stand in two words, as in `off 15` or `13 x5`, with a fault.
  bool is_apart(const Word& place_word, const Word& count_word) {
    const auto place = read_place(place_word.text);
    if (!place) return false;
    const bool has_x = text::lower(count_word.text.front()) == 'x';
    // After a point a number alone may be the next point.
    if (!has_x && *place != bar_place && *place != off_place) return false;
    const auto count = text::number(has_x ? count_word.text.substr(1) : count_word.text,
                                    static_cast<std::uint64_t>(checkers_per_side));
    if (!count || *count == 0) return false;
    const std::string name = to_text(*place);
    const std::string number = std::to_string(*count);
    fault("count-missing", {place_word.where.begin, count_word.where.end},
          "the count of " + name + " is not joined to it",
          "write " + name + "x" + number + ", in one word" +
              (has_x || *place == off_place ? "" : ", or " + name + "x1 " + number + "x1"));
    return true;
  }

  void read_stack(Side side, const Word& word) {
    std::size_t cut = word.text.size();
    for (std::size_t i = 0; i < word.text.size(); ++i) {
      if (text::lower(word.text[i]) == 'x') cut = i;
    }
    const std::string_view place_text = word.text.substr(0, cut);
    const auto place = read_place(place_text);
    if (!place) {
      if (text::number(place_text, 1'000'000)) {
        fault("no-such-point", {word.where.begin, word.where.begin + cut},
              "there is no point " + std::string(place_text),
              "points are 1 to 24; the bar is written bar and borne-off checkers off");
      } else {
        fault("no-such-place", word.where, text::quoted(word.text) + " is not a place and a count",
              "write the place, x and the count, such as 13x5, barx1 or offx2");
      }
      return;
    }
    if (cut == word.text.size()) {
      fault("count-missing", word.where, "no count is given for " + to_text(*place),
            "write " + to_text(*place) + "x1");
      return;
    }
    const std::string_view count_text = word.text.substr(cut + 1);
    const auto count = text::number(count_text, 1'000'000);
    if (!count || *count == 0) {
      fault("no-such-count", {word.where.begin + cut + 1, word.where.end},
            text::quoted(count_text) + " is not a number of checkers",
            "write a number from 1 to 15 after the x");
      return;
    }
    auto& at = place_at_[index(side)][*place];
    if (at) {
      fault("place-twice", word.where,
            to_text(*place) + " is listed twice for " + std::string(name(side)),
            "add the two counts together");
      return;
    }
    at = word.where;
    if (*place == off_place)
      setup_.stated_off[index(side)] = static_cast<int>(*count);
    else
      setup_.camps[index(side)][*place] = static_cast<int>(*count);
  }

  static std::optional<Place> read_place(std::string_view word) {
    if (text::same_word(word, "bar")) return bar_place;
    if (text::same_word(word, "off")) return off_place;
    const auto point = text::number(word, 1'000'000);
    if (!point || *point < 1 || *point > 24) return std::nullopt;
    return static_cast<Place>(*point);
  }

  void read_turn(Side side, const std::vector<Word>& words, TextSpan whole) {
    if (!note_once(turn_at_, whole, "whose turn it is")) return;
    setup_.turn = side;
    const std::string who(name(side));
    if (words.size() == 3 && text::same_word(words[2].text, "roll")) return;
    if (words.size() == 4 && text::same_word(words[2].text, "play")) {
      read_dice(words[3]);
      return;
    }
    fault("turn-unclear", whole,
          text::quoted(line_.substr(whole.begin, whole.end - whole.begin)) + " does not say what " +
              who + " is to do",
          "write: " + who + " to roll, or: " + who + " to play 6-4");
  }

  void read_dice(const Word& word) {
    const auto pieces = text::split(line_, word.where, '-');
    std::array<int, 2> dice{};
    bool readable = pieces.size() == 2;
    for (std::size_t i = 0; readable && i < 2; ++i) {
      const auto die =
          text::number(line_.substr(pieces[i].begin, pieces[i].end - pieces[i].begin), 1'000'000);
      readable = die.has_value();
      if (die) dice[i] = static_cast<int>(*die);
    }
    if (readable)
      setup_.dice = dice;
    else
      fault("dice-unclear", word.where, text::quoted(word.text) + " is not a roll",
            "write the two dice with a hyphen, such as 6-4");
  }

  void read_cube(const std::vector<Word>& words, TextSpan whole) {
    if (!note_once(cube_at_, whole, "the cube")) return;
    std::optional<std::uint64_t> value;
    if (words.size() > 1) value = text::number(words[1].text, ~std::uint64_t{0});
    if (value) {
      setup_.cube_value = *value;
      if (words.size() == 3 &&
          (text::same_word(words[2].text, "centred") || text::same_word(words[2].text, "centered")))
        return;
      if (words.size() == 4 && text::same_word(words[2].text, "with")) {
        setup_.cube_holder = text::side_named(words[3].text);
        if (setup_.cube_holder) return;
      }
    }
    fault("cube-unclear", whole,
          text::quoted(line_.substr(whole.begin, whole.end - whole.begin)) +
              " does not say the cube's value and where it is",
          "write: cube 1 centred, or: cube 2 with dark");
  }

  void read_match(const std::vector<Word>& words, TextSpan whole) {
    if (!note_once(match_at_, whole, "the match")) return;
    const bool crawford = words.size() == 6 && text::same_word(words[5].text, "crawford");
    if ((words.size() == 5 || crawford) && text::same_word(words[1].text, "to") &&
        text::same_word(words[3].text, "score")) {
      const auto length = text::number(words[2].text, 1'000'000);
      const auto pieces = text::split(line_, words[4].where, '-');
      if (length && pieces.size() == 2) {
        const auto light =
            text::number(line_.substr(pieces[0].begin, pieces[0].end - pieces[0].begin), 1'000'000);
        const auto dark =
            text::number(line_.substr(pieces[1].begin, pieces[1].end - pieces[1].begin), 1'000'000);
        if (light && dark) {
          setup_.match = MatchScore{static_cast<int>(*length),
                                    {static_cast<int>(*light), static_cast<int>(*dark)},
                                    crawford};
          return;
        }
      }
    }
    fault("match-unclear", whole,
          text::quoted(line_.substr(whole.begin, whole.end - whole.begin)) +
              " does not say the length and the score",
          "write: match to 7 score 3-5, light's points first, and crawford after it if this is "
          "the Crawford game");
  }

  void read_house(const std::vector<Word>& words, TextSpan whole) {
    if (!note_once(house_at_, whole, "the list of house rules")) return;
    if (words.size() == 1)
      fault("house-empty", whole, "no house rule follows", "name one, or leave the part out");
    for (std::size_t i = 1; i < words.size(); ++i) {
      std::string wanted;
      for (const char c : words[i].text) wanted += text::lower(c);
      const bool off = wanted.starts_with("no-");
      const HouseRule* rule = find_house_rule(off ? std::string_view(wanted).substr(3) : wanted);
      if (rule != nullptr) {
        setup_.house.*(rule->member) = !off;
        continue;
      }
      std::string names;
      for (const HouseRule& known : house_rules())
        names += (names.empty() ? "" : ", ") + std::string(known.name);
      fault("no-such-house-rule", words[i].where,
            "there is no house rule " + text::quoted(words[i].text),
            "the house rules are " + names + "; no- in front turns one off");
    }
  }

  std::string_view line_;
  Setup setup_;
  Faults faults_;
  std::array<std::optional<TextSpan>, 2> side_at_;
  std::array<std::array<std::optional<TextSpan>, 26>, 2> place_at_;
  std::optional<TextSpan> turn_at_;
  std::optional<TextSpan> cube_at_;
  std::optional<TextSpan> match_at_;
  std::optional<TextSpan> house_at_;
};

}  // namespace

Result<Position, Faults> read_position(std::string_view text) {
  return Reader(text).run();
}

}  // namespace pointwright
