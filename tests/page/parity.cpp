// Writes, for so many positions, the position, a play to rule on, whether plays were ranked too,
// and a digest of what the native engine answers about them. parity.test.mjs compares it with the
// WebAssembly build's answers.
//
// usage: parity COUNT SEED
//        parity evaluate TIMES    evaluations a second of the positions on standard input
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <iostream>
#include <string>
#include <string_view>
#include <vector>

#include "rules/notation.hpp"
#include "rules/position.hpp"
#include "tests/reference/positions.hpp"
#include "web/engine.hpp"
#include "web/sealed_dice.hpp"

namespace {

using namespace pointwright;

/// A play that somebody might try: one to four moves of pips near the dice, legal or not.
std::string random_attempt(reference::Random& random, const reference::Trial& trial) {
  std::string text;
  const int moves = 1 + reference::random_below(random, trial.roll.is_double() ? 4 : 2);
  for (int i = 0; i < moves; ++i) {
    int from = 1 + reference::random_below(random, 25);
    for (int tries = 0;
         tries < 20 && trial.board.of(trial.side)[static_cast<std::size_t>(from)] == 0; ++tries)
      from = 1 + reference::random_below(random, 25);
    const int wrong =
        reference::random_below(random, 6) == 0 ? reference::random_below(random, 3) - 1 : 0;
    const int die =
        (reference::random_below(random, 2) == 0 ? trial.roll.high() : trial.roll.low()) + wrong;
    const int to = from - die < 0 ? 0 : from - die;
    if (to == from) continue;
    text += (text.empty() ? "" : " ") + to_text(static_cast<Place>(from)) + "/" +
            to_text(static_cast<Place>(to));
  }
  return text.empty() ? "no play" : text;
}

/// Rankings search, which takes as long as ten of the other questions: one position in so many. No
/// multiple of the number of kinds of positions, so that each kind has its turn.
constexpr int between_rankings = 21;
static_assert(between_rankings % reference::kind_count != 0);

std::string answers(const std::string& position, const std::string& play, bool ranked) {
  const std::string about = "\nposition " + position;
  std::string all;
  for (const char* verb : {"plays", "turn", "chances", "evaluation", "cube", "picture"})
    all += web::answer(verb + about);
  if (ranked) all += web::answer("ranking" + about);
  return all + web::answer("rule" + about + "\nplay " + play);
}

/// Times the questions that measure.mjs asks the WebAssembly build.
double evaluations_a_second(int times) {
  std::vector<std::string> lines;
  for (std::string line; std::getline(std::cin, line);) lines.push_back(line);
  // The first questions make tables, which is not what is measured.
  for (const std::string& line : lines) web::answer("evaluation\nposition " + line);
  const auto start = std::chrono::steady_clock::now();
  std::size_t bytes = 0;
  for (int i = 0; i < times; ++i) {
    for (const std::string& line : lines)
      bytes += web::answer("evaluation\nposition " + line).size();
  }
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
  return bytes == 0 ? 0 : static_cast<double>(lines.size()) * times / taken.count();
}

}  // namespace

int main(int argc, char** argv) {
  if (argc > 2 && std::string_view(argv[1]) == "evaluate") {
    std::printf("%.0f\n",
                evaluations_a_second(static_cast<int>(std::strtol(argv[2], nullptr, 10))));
    return 0;
  }
  const int count = argc > 1 ? static_cast<int>(std::strtol(argv[1], nullptr, 10)) : 1000;
  const auto seed = argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1;
  reference::Trials trials(seed);
  reference::Random random(seed + 1);
  for (int i = 0; i < count; ++i) {
    const reference::Trial trial =
        trials.next(static_cast<reference::Kind>(i % reference::kind_count));
    Position position;
    position.board = trial.board;
    position.turn = trial.side;
    position.roll = trial.roll;
    const std::string line = to_text(position);
    const std::string play = random_attempt(random, trial);
    const bool ranked = i % between_rankings == 0;
    std::printf("%s\t%s\t%s\t%s\n", line.c_str(), play.c_str(), ranked ? "ranked" : "",
                web::hex(web::sha256(answers(line, play, ranked))).c_str());
  }
}
