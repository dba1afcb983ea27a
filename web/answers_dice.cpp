// The program's dice, and whether they were settled beforehand.

#include <algorithm>
#include <optional>

#include "rules/text.hpp"
#include "web/answers.hpp"
#include "web/dice_check.hpp"
#include "web/game.hpp"
#include "web/sealed_dice.hpp"

namespace pointwright::web {
namespace {

constexpr std::uint64_t most_throws = 1'000'000;

Json dice_list(const std::array<int, 2>& dice) {
  return Json::list().add(dice[0]).add(dice[1]);
}

/// Adds the throws of one field: a line of a record, or a list of throws. Otherwise says what is no
/// throw.
std::optional<std::string> add_throws(std::vector<NotedThrow>& noted, const Request::Field& field) {
  const bool listed = field.key == "throws";
  if (!listed && field.key != "opening" && field.key != "throw") return std::nullopt;
  std::string text(field.value);
  if (listed) {
    std::ranges::replace_if(text, [](char c) { return c == ',' || c == ';'; }, ' ');
  } else {
    std::ranges::replace(text, ' ', '-');  // "6 4" of a record
  }
  for (const text::Word& word : text::words(text, {0, text.size()}, false)) {
    auto read = read_noted_throw(word.text);
    if (!read) return std::string(word.text);
    read->in_order = field.key == "opening";
    noted.push_back(*read);
  }
  return std::nullopt;
}

}  // namespace

Json answer_sealed(const Request& request) {
  const std::string_view seed = request.value("seed");
  if (request.has("number")) {
    const auto number = text::number(request.value("number"), most_throws);
    if (!number) return error_object("no-number", "A throw has a number from 0 to 1000000.");
    return Json::object().set(
        "dice", dice_list(sealed_throw(seed, request.value("words"), static_cast<int>(*number))));
  }
  return Json::object().set("digest", commitment(seed));
}

Json answer_verify(const Request& request) {
  const Replay followed = replay(record_of(request));
  const GameSoFar& game = followed.so_far;
  Json wrong = Json::list();
  for (const GameSoFar::Thrown& each : game.thrown) {
    const auto dice = sealed_throw(game.seed, game.words, each.number);
    if (dice[0] != each.first || dice[1] != each.second) wrong.add(each.number);
  }
  return Json::object()
      .set("digest", commitment(game.seed))
      .set("sealed", game.sealed)
      .set("holds", !game.seed.empty() && commitment(game.seed) == game.sealed)
      .set("throws", static_cast<int>(game.thrown.size()))
      .set("wrong", wrong);
}

Json answer_throws(const Request& request) {
  const std::string_view seed = request.value("seed");
  if (seed.empty())
    return error_object("no-seed", "There is no secret that dice could follow from.");
  const std::string_view sealed = request.value("sealed");
  if (!sealed.empty() && !is_digest(sealed))
    return error_object("bad-seal", "The seal has 64 digits from 0 to 9 and a to f.");
  std::optional<std::uint64_t> first = 0;
  if (request.has("first")) first = text::number(request.value("first"), most_throws);
  if (!first) return error_object("no-number", "A throw has a number from 0 to 1000000.");
  std::vector<NotedThrow> noted;
  for (const Request::Field& field : request.fields) {
    if (const auto bad = add_throws(noted, field)) return error_object("bad-throw", *bad);
  }
  Json throws = Json::list();
  for (const CheckedThrow& each :
       check_throws(seed, request.value("words"), static_cast<int>(*first), noted)) {
    Json one = Json::object();
    one.set("number", each.number).set("made", dice_list(each.made)).set("holds", each.holds());
    if (each.noted.dice) one.set("noted", dice_list(*each.noted.dice));
    throws.add(one);
  }
  const std::string digest = commitment(seed);
  Json answer = Json::object();
  answer.set("digest", digest).set("throws", throws);
  if (!sealed.empty()) answer.set("fits", digest == sealed);
  return answer;
}

}  // namespace pointwright::web
