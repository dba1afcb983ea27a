#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>

#include "app/json.hpp"
#include "app/options.hpp"
#include "app/verbs.hpp"
#include "rules/text.hpp"
#include "web/dice_check.hpp"
#include "web/sealed_dice.hpp"

namespace pointwright::app {
namespace {

constexpr std::uint64_t most_throws = 100'000;

struct DiceOptions {
  std::optional<std::string> seed;
  std::vector<std::string> throws;
  std::optional<std::string> seal;
  std::optional<std::string> words;
  std::optional<std::string> first;
  std::optional<std::string> count;
  bool json = false;
};

const Guide guide{
    .name = "dice",
    .summary = "Check that the program's dice were settled beforehand.",
    .text =
        "Before a game the program shows a seal, the SHA-256 digest of a secret seed; afterwards "
        "it shows the seed. This verb makes the throws again from the seed, and from the words "
        "that the players added, if any. It says whether the seed fits the seal and whether each "
        "THROW, such as 3-1, is the one that follows; the dice of a throw may be given in either "
        "order. Throws count from 0, rerolled opening throws included. A THROW that is not known "
        "is written as `?`.\n\n"
        "Throw N takes the first two bytes below 252 of the SHA-256 digests of `SEED|WORDS|N|0`, "
        "`SEED|WORDS|N|1` and so on; a die is one more than a byte's remainder by 6. In the "
        "opening the first die is light's. Anybody can work that out with `sha256sum`.\n\n"
        "The exit code is 0 when all is as it should be, and 1 when something differs.",
    .examples = {
        {.command = "pointwright dice evening --count 4",
         .shows = "The first throws that follow from a seed:"},
        {.command = "pointwright dice evening --seal "
                    "e5bd0801d10e5965354604c20443ddf47fdfc375115151277a525467ad4816a3 5-2 4-2",
         .shows = "Whether a game's seal and throws follow from it:"}}};

std::string dice_text(std::array<int, 2> dice) {
  return fmt::format("{}-{}", dice[0], dice[1]);
}

Result<std::vector<web::NotedThrow>, Failure> read_throws(const std::vector<std::string>& texts) {
  std::vector<web::NotedThrow> noted;
  for (const std::string& text : texts) {
    const auto read = web::read_noted_throw(text);
    if (!read) {
      return failure("bad-throw", fmt::format("`{}` is no throw", harmless(text)),
                     "write two dice from 1 to 6, such as 3-1, or ? for a throw that is not known");
    }
    noted.push_back(*read);
  }
  return noted;
}

void print(const std::vector<web::CheckedThrow>& checked, const std::string& seal,
           const std::optional<bool>& fits, Io& io) {
  io.out << "seal " << seal;
  if (fits) io.out << (*fits ? ": the seed fits it" : ": the seed does not fit the one given");
  io.out << '\n';
  for (const web::CheckedThrow& each : checked) {
    io.out << fmt::format("{:>5}  {}", each.number, dice_text(each.made));
    if (each.noted.dice) {
      io.out << (each.holds() ? "  as noted" : "  but noted was " + dice_text(*each.noted.dice));
    }
    io.out << '\n';
  }
}

int run_dice(const DiceOptions& options, Io& io) {
  const auto complain_of = [&](const Failure& failure) {
    return complain(failure, options.json, io);
  };
  if (!options.seed) {
    return complain_of(failure("missing-seed", "it is not said from which seed the dice follow",
                               "give the seed that was shown after the game"));
  }
  const auto first = number_of(options.first, "--first", 0, 0, most_throws);
  if (!first.ok()) return complain_of(first.error());
  const auto count = number_of(options.count, "--count", options.throws.size(), 0, most_throws);
  if (!count.ok()) return complain_of(count.error());
  if (options.seal && !web::is_digest(*options.seal)) {
    return complain_of(failure("bad-seal", "the seal is no SHA-256 digest",
                               "a digest has 64 digits from 0 to 9 and a to f"));
  }
  const auto noted = read_throws(options.throws);
  if (!noted.ok()) return complain_of(noted.error());
  const std::vector<web::CheckedThrow> checked = web::check_throws(
      *options.seed, options.words.value_or(""), static_cast<int>(*first), *noted, *count);
  const std::string seal = web::commitment(*options.seed);
  const auto fits = options.seal ? std::optional{*options.seal == seal} : std::nullopt;
  const bool holds = fits.value_or(true) && std::ranges::all_of(checked, &web::CheckedThrow::holds);
  if (options.json) {
    Json throws = Json::array();
    for (const web::CheckedThrow& each : checked) {
      throws.push_back({{"number", each.number},
                        {"dice", each.made},
                        {"noted", each.noted.dice ? Json(*each.noted.dice) : Json(nullptr)},
                        {"holds", each.holds()}});
    }
    io.out << to_line({{"seal", seal},
                       {"fits", fits ? Json(*fits) : Json(nullptr)},
                       {"holds", holds},
                       {"throws", std::move(throws)}})
           << '\n';
  } else {
    print(checked, seal, fits, io);
  }
  return holds ? exit_fine : exit_no;
}

}  // namespace

void declare_dice(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<DiceOptions>();
  verb.options.argument("SEED", options->seed, "What the dice follow from.");
  verb.options.arguments("THROW", options->throws, "The throws of the game, in order.");
  verb.options.value("--seal", "DIGEST", options->seal, "What was shown before the game.");
  verb.options.value("--words", "WORDS", options->words, "What the players added.");
  verb.options.value("--first", "NUMBER", options->first,
                     "The number of the first THROW; 0 unless this says otherwise.");
  verb.options.value("--count", "NUMBER", options->count, "Make so many throws, noted or not.");
  verb.options.flag("--json", options->json, "Answer with one JSON object.");
  verb.act = [options](Io& io) { return run_dice(*options, io); };
}

}  // namespace pointwright::app
