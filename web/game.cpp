#include "web/game.hpp"

#include "rules/house.hpp"
#include "rules/notation.hpp"
#include "rules/text.hpp"

namespace pointwright::web {
namespace {

using text::Word;

/// Follows a record line by line.
class Follower {
 public:
  std::optional<RecordFault> line(std::string_view line, std::size_t number) {
    const std::vector<Word> words = text::words(line, {0, line.size()}, false);
    if (words.empty() || words.front().text.starts_with('#')) return std::nullopt;
    number_ = number;
    const std::string_view verb = words.front().text;
    const std::string_view rest =
        words.size() < 2 ? std::string_view{} : line.substr(words[1].where.begin);
    return begun_ ? event(verb, rest, words) : heading(verb, rest, words);
  }

  GameSoFar so_far;

 private:
  using Answer = std::optional<RecordFault>;

  [[nodiscard]] Answer fault(std::string reason) const {
    return RecordFault{number_, std::move(reason)};
  }

  Answer heading(std::string_view verb, std::string_view rest, const std::vector<Word>& words) {
    if (verb == "match") {
      const auto length = text::number(rest, longest_match);
      if (!length || *length == 0)
        return fault("a match is played to a number of points from 1 to 999");
      match_ = new_match(static_cast<int>(*length));
    } else if (verb == "house") {
      return house(words);
    } else if (verb == "names") {
      const std::size_t bar = rest.find(" | ");
      if (bar == std::string_view::npos) return fault("names are written as NAME | NAME");
      so_far.names.of = {std::string(rest.substr(0, bar)), std::string(rest.substr(bar + 3))};
    } else if (verb == "sealed") {
      so_far.sealed = rest;
    } else if (verb == "words") {
      so_far.words = rest;
    } else if (verb == "seed") {
      so_far.seed = rest;
    } else {
      begin();
      return event(verb, rest, words);
    }
    so_far.table = new_game(house_, match_);
    return std::nullopt;
  }

  Answer house(const std::vector<Word>& words) {
    for (std::size_t i = 1; i < words.size(); ++i) {
      std::string_view name = words[i].text;
      const bool on = !name.starts_with("no-");
      if (!on) name.remove_prefix(3);
      const HouseRule* rule = find_house_rule(name);
      if (rule == nullptr) return fault("there is no house rule called " + text::quoted(name));
      house_.*rule->member = on;
    }
    return std::nullopt;
  }

  void begin() {
    begun_ = true;
    so_far.table = new_game(house_, match_);
  }

  Answer event(std::string_view verb, std::string_view rest, const std::vector<Word>& words) {
    const Table& table = so_far.table;
    const SideNames& names = so_far.names;
    const Side to_play = table.position.turn.value_or(Side::light);
    const Side other = opponent(to_play);
    const Side answering = table.phase == Phase::beavered ? to_play : other;
    if (verb == "opening" || verb == "throw") return thrown(verb == "opening", words, to_play);
    if (verb == "move") return moves(rest);
    if (verb == "lift") return lift(to_play);
    if (verb == "offer") return cube(offer_cube(table, to_play, names), to_play, "doubles");
    if (verb == "take") return cube(take_cube(table, answering, names), answering, "takes");
    if (verb == "drop") return cube(drop_cube(table, answering, names), answering, "drops");
    if (verb == "beaver") return cube(beaver(table, other, names), other, "beavers");
    if (verb == "next") {
      const Answer refused = take(next_game(table, names));
      if (!refused) ++so_far.game;
      return refused;
    }
    return fault(text::quoted(verb) + " is not an event of a game");
  }

  Answer take(const TableEvent& event) {
    if (!event)
      return RecordFault{number_, event.error().proof, event.error().rule,
                         event.error().alternatives};
    so_far.table = *event;
    return std::nullopt;
  }

  Answer thrown(bool opening, const std::vector<Word>& words, Side by) {
    if (words.size() != 3) return fault("a throw is two dice");
    std::array<int, 2> dice{};
    for (std::size_t i = 0; i < 2; ++i) {
      const auto die = text::number(words[i + 1].text, 6);
      if (!die || *die == 0) return fault("a die shows 1 to 6");
      dice[i] = static_cast<int>(*die);
    }
    Answer refused =
        take(opening ? throw_opening(so_far.table, dice[0], dice[1], true, so_far.names)
                     : throw_dice(so_far.table, by, {dice[0], dice[1], true}, so_far.names));
    if (!refused)
      so_far.thrown.push_back({static_cast<int>(so_far.thrown.size()), dice[0], dice[1]});
    return refused;
  }

  Answer moves(std::string_view rest) {
    const auto attempt = read_play(rest);
    if (!attempt) return fault(attempt.error().front().reason);
    for (const Journey& journey : attempt->journeys) {
      for (std::size_t i = 0; i + 1 < journey.stops.size(); ++i) {
        if (Answer refused = take(
                move_checker(so_far.table, journey.stops[i], journey.stops[i + 1], so_far.names)))
          return refused;
      }
    }
    return std::nullopt;
  }

  Answer lift(Side by) {
    const std::optional<Roll> roll = so_far.table.position.roll;
    if (Answer refused = take(lift_dice(so_far.table, by, so_far.names))) return refused;
    note(by, to_text(*roll) + ": " + to_text(*so_far.table.last_play));
    return std::nullopt;
  }

  Answer cube(const TableEvent& event, Side by, std::string_view word) {
    if (Answer refused = take(event)) return refused;
    note(by, std::string(word));
    return std::nullopt;
  }

  void note(Side side, std::string text) {
    so_far.sheet.push_back({so_far.game, side, std::move(text), number_});
  }

  HouseRules house_;
  std::optional<MatchScore> match_;
  bool begun_ = false;
  std::size_t number_ = 0;
};

}  // namespace

Replay replay(std::string_view record) {
  Follower follower;
  follower.so_far.table = new_game();
  std::optional<RecordFault> fault;
  for (std::size_t number = 0; !record.empty() && !fault; ++number) {
    const std::size_t end = record.find('\n');
    fault = follower.line(record.substr(0, end), number);
    record = end == std::string_view::npos ? std::string_view{} : record.substr(end + 1);
  }
  return {std::move(follower.so_far), std::move(fault)};
}

}  // namespace pointwright::web
