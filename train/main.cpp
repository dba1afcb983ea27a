#include <CLI/CLI.hpp>
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <string>
#include <thread>

#include "rules/notation.hpp"
#include "train/learner.hpp"
#include "train/self_play.hpp"

/// Trains the nets by self-play, from nothing but the rules. See docs/training.md.
namespace pointwright::train {
namespace {

using judge::Chances;
using judge::Weights;

struct Options {
  std::string contact_file = "contact.net";
  std::string race_file = "race.net";
  bool resume = false;
  int hidden = 128;
  int race_hidden = 32;
  unsigned seed = 1;
  int workers = 2;
  int games_per_round = 50;
  long rounds = 100;
  double seconds = 0;
  float first_rate = 0.05F;
  float last_rate = 0.05F;
  float lambda = 0.5F;
  double report_every = 20;
};

/// One thread's copies of both nets, its dice and its games.
struct Worker {
  Learner contact;
  Learner race;
  std::mt19937_64 random;
  double squared_error = 0;
  long positions = 0;
  long gammons = 0;
  long games = 0;
};

void play_and_learn(Worker& worker, int games, float rate, float lambda) {
  Game game;
  for (int i = 0; i < games; ++i) {
    const judge::Evaluator evaluator(worker.contact.weights(), worker.race.weights());
    play_game(evaluator, SelfPlay{}, worker.random, game);
    if (game.visits.empty()) continue;
    ++worker.games;
    if (game.end.chances.lose_gammon > 0.5F) ++worker.gammons;
    // Backwards: what comes after is known best.
    Chances target = game.end.chances;
    for (auto visit = game.visits.rbegin(); visit != game.visits.rend(); ++visit) {
      target = target.reversed();
      const bool contact = has_contact(visit->board);
      const Chances before = evaluator.evaluate(visit->board, visit->on_roll).chances;
      Learner& learner = contact ? worker.contact : worker.race;
      worker.squared_error +=
          static_cast<double>(learner.learn(visit->board, visit->on_roll, target, rate));
      ++worker.positions;
      const auto mix = [&](float later, float now) { return lambda * later + (1 - lambda) * now; };
      target = {mix(target.win, before.win), mix(target.win_gammon, before.win_gammon),
                mix(target.win_backgammon, before.win_backgammon),
                mix(target.lose_gammon, before.lose_gammon),
                mix(target.lose_backgammon, before.lose_backgammon)};
    }
  }
}

void average(std::vector<Worker>& workers, Learner Worker::* net) {
  const auto each = [&](std::vector<float> Weights::* matrix) {
    std::vector<float>& mean = (workers[0].*net).weights().*matrix;
    for (std::size_t i = 0; i < mean.size(); ++i) {
      float sum = 0;
      for (Worker& worker : workers) sum += ((worker.*net).weights().*matrix)[i];
      mean[i] = sum / static_cast<float>(workers.size());
    }
    for (std::size_t k = 1; k < workers.size(); ++k) (workers[k].*net).weights().*matrix = mean;
  };
  for (auto matrix : {&Weights::first, &Weights::first_bias, &Weights::second,
                      &Weights::second_bias, &Weights::third, &Weights::third_bias})
    each(matrix);
}

void save(const std::string& path, const Weights& weights) {
  const auto bytes = judge::to_bytes(weights);
  const std::string temporary = path + ".new";
  std::ofstream out(temporary, std::ios::binary);
  out.write(reinterpret_cast<const char*>(bytes.data()),
            static_cast<std::streamsize>(bytes.size()));
  out.close();
  if (!out || std::rename(temporary.c_str(), path.c_str()) != 0) {
    std::fprintf(stderr, "cannot write %s\n", path.c_str());
    std::exit(2);
  }
}

Weights load(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  const std::vector<char> raw((std::istreambuf_iterator<char>(in)),
                              std::istreambuf_iterator<char>());
  const std::vector<std::uint8_t> bytes(raw.begin(), raw.end());
  auto weights = judge::weights_from_bytes(bytes);
  if (!weights) {
    std::fprintf(stderr, "%s: %s\n", path.c_str(), weights.error().reason.c_str());
    std::exit(2);
  }
  return *weights;
}

/// The plays that the nets choose for the settled opening rolls.
std::string openings(const judge::Evaluator& evaluator) {
  std::string text;
  for (const Roll roll : {Roll(3, 1), Roll(4, 2), Roll(6, 1), Roll(5, 3), Roll(6, 5)}) {
    const auto plays = legal_plays(starting_board(), Side::light, roll);
    text +=
        "  " + to_text(roll) + " " + to_text(plays[evaluator.best_play(plays, Side::light)].play);
  }
  return text;
}

int run(const Options& options) {
  const Weights contact =
      options.resume ? load(options.contact_file) : random_weights(options.hidden, options.seed);
  const Weights race = options.resume ? load(options.race_file)
                                      : random_weights(options.race_hidden, options.seed + 1);
  std::vector<Worker> workers;
  for (int k = 0; k < options.workers; ++k)
    workers.push_back({Learner(contact), Learner(race),
                       std::mt19937_64(options.seed * 1000003ULL + static_cast<unsigned>(k))});

  using Clock = std::chrono::steady_clock;
  const auto start = Clock::now();
  const auto elapsed = [&] { return std::chrono::duration<double>(Clock::now() - start).count(); };
  double next_report = options.report_every;
  for (long round = 0; round < options.rounds; ++round) {
    double done = static_cast<double>(round) / static_cast<double>(options.rounds);
    if (options.seconds > 0) done = std::min(1.0, elapsed() / options.seconds);
    const float rate = options.first_rate *
                       static_cast<float>(std::pow(options.last_rate / options.first_rate, done));
    std::vector<std::thread> threads;
    threads.reserve(workers.size());
    for (Worker& worker : workers)
      threads.emplace_back(play_and_learn, std::ref(worker), options.games_per_round, rate,
                           options.lambda);
    for (std::thread& thread : threads) thread.join();
    average(workers, &Worker::contact);
    average(workers, &Worker::race);

    const bool over =
        round + 1 == options.rounds || (options.seconds > 0 && elapsed() >= options.seconds);
    if (elapsed() >= next_report || over) {
      next_report += options.report_every;
      double error = 0;
      long positions = 0;
      long gammons = 0;
      long games = 0;
      for (Worker& worker : workers) {
        error += std::exchange(worker.squared_error, 0);
        positions += std::exchange(worker.positions, 0);
        gammons += std::exchange(worker.gammons, 0);
        games += worker.games;
      }
      const judge::Evaluator evaluator(workers[0].contact.weights(), workers[0].race.weights());
      std::printf("%7.1f s %9ld games  rate %.5f  rms step %.5f  gammons %ld%s\n", elapsed(), games,
                  static_cast<double>(rate),
                  std::sqrt(error / static_cast<double>(std::max(1L, positions))), gammons,
                  openings(evaluator).c_str());
      std::fflush(stdout);
      save(options.contact_file, workers[0].contact.weights());
      save(options.race_file, workers[0].race.weights());
    }
    if (over) break;
  }
  return 0;
}

}  // namespace
}  // namespace pointwright::train

int main(int argc, char** argv) {
  pointwright::train::Options options;
  CLI::App app("Trains the nets of the judge by self-play.");
  app.add_option("--contact", options.contact_file, "net for positions with contact")
      ->capture_default_str();
  app.add_option("--race", options.race_file, "net for races")->capture_default_str();
  app.add_flag("--resume", options.resume, "go on from the two files");
  app.add_option("--hidden", options.hidden, "units of the first layer, a multiple of 16")
      ->capture_default_str();
  app.add_option("--seed", options.seed, "")->capture_default_str();
  app.add_option("--workers", options.workers, "threads")->capture_default_str();
  app.add_option("--games", options.games_per_round, "games of each worker between averages")
      ->capture_default_str();
  app.add_option("--rounds", options.rounds, "")->capture_default_str();
  app.add_option("--seconds", options.seconds, "stop after so long; the rate falls with time")
      ->capture_default_str();
  app.add_option("--rate", options.first_rate, "learning rate at the start")->capture_default_str();
  app.add_option("--last-rate", options.last_rate, "at the end")->capture_default_str();
  app.add_option("--lambda", options.lambda, "weight of the later estimates")
      ->capture_default_str();
  CLI11_PARSE(app, argc, argv);
  return pointwright::train::run(options);
}
