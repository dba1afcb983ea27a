#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>
#include <atomic>
#include <chrono>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <memory>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "judge/shipped.hpp"
#include "train/gradient.hpp"
#include "train/lesson_record.hpp"
#include "train/net_files.hpp"
#include "train/practice.hpp"

/// Plays games and writes what they teach to standard output, for a learner that is a program of
/// its own (train/learner.cu). See docs/training.md.
namespace pointwright::train {
namespace {

static_assert(sizeof LessonRecord::counts == sizeof(judge::Counts));
static_assert(sizeof LessonRecord::camps == 2 * sizeof(Camp));

using judge::Weights;
using SharedEvaluator = std::shared_ptr<const judge::Evaluator>;

struct Options {
  std::string folder = ".";
  unsigned workers = 2;
  std::uint64_t seed = 1;
  float lambda = 0.7F;
  double wandering = 0.05;
  double rehearsals = 0.25;
};

/// Raw weights as the learner writes them: the width as a 32-bit integer, then all matrices.
Weights load_raw(const std::string& path) {
  const std::string bytes = read_file(path);
  std::int32_t hidden = 0;
  if (bytes.size() < sizeof hidden) fail(path + ": too short");
  std::memcpy(&hidden, bytes.data(), sizeof hidden);
  if (hidden < 16 || hidden > static_cast<std::int32_t>(judge::widest_hidden))
    fail(path + ": not raw weights");
  Weights weights(hidden);
  std::size_t at = sizeof hidden;
  for (const auto matrix : matrices) {
    const std::size_t size = (weights.*matrix).size() * sizeof(float);
    if (bytes.size() < at + size) fail(path + ": too short");
    std::memcpy((weights.*matrix).data(), bytes.data() + at, size);
    at += size;
  }
  return weights;
}

judge::WeightsByPhase load_generation(const std::string& folder, int generation) {
  const auto load = [&](judge::Phase phase) {
    return load_raw(folder + "/" + std::to_string(generation) + "-" + std::string(name(phase)) +
                    ".raw");
  };
  return {load(judge::Phase::open), load(judge::Phase::blockade), load(judge::Phase::bear_in),
          load(judge::Phase::race)};
}

/// The nets of the folder's latest generation, or the shipped ones as long as there is none.
class Players {
 public:
  explicit Players(std::string folder)
      : folder_(std::move(folder)),
        evaluator_(std::make_shared<const judge::Evaluator>(judge::shipped_weights())) {
    refresh();
  }

  SharedEvaluator now() {
    const std::lock_guard lock(mutex_);
    return evaluator_;
  }

  void refresh() {
    std::ifstream in(folder_ + "/generation");
    int generation = 0;
    in >> generation;
    if (generation == generation_) return;
    auto next = std::make_shared<const judge::Evaluator>(load_generation(folder_, generation));
    generation_ = generation;
    const std::lock_guard lock(mutex_);
    evaluator_ = std::move(next);
  }

 private:
  std::string folder_;
  int generation_ = 0;
  std::mutex mutex_;
  SharedEvaluator evaluator_;
};

LessonRecord record_of(const Lesson& lesson) {
  LessonRecord record{};
  const Visit& visit = lesson.visit;
  record.phase = static_cast<std::uint8_t>(judge::phase_of(visit.board));
  for (std::size_t place = 0; place < judge::places_per_side; ++place) {
    record.camps[0][place] = visit.board.of(visit.on_roll)[place];
    record.camps[1][place] = visit.board.of(opponent(visit.on_roll))[place];
  }
  judge::Counts counts;
  judge::count_measures(visit.board, visit.on_roll, counts);
  std::copy(counts.begin(), counts.end(), record.counts);
  const judge::Chances& t = lesson.target;
  const std::array target{t.win, t.win_gammon, t.win_backgammon, t.lose_gammon, t.lose_backgammon};
  std::copy(target.begin(), target.end(), record.target);
  return record;
}

int play(const Options& options) {
  Players players(options.folder);
  std::mutex out_mutex;
  std::atomic<bool> over = false;
  std::vector<std::thread> threads;
  for (unsigned worker = 0; worker < options.workers; ++worker) {
    threads.emplace_back([&, worker] {
      Practice practice(options.seed * 1000003ULL + worker, options.rehearsals,
                        SelfPlay{.wandering = options.wandering});
      std::vector<Lesson> lessons;
      std::vector<LessonRecord> records;
      while (!over) {
        const SharedEvaluator evaluator = players.now();
        lessons.clear();
        practice.fill(*evaluator, options.lambda, 4096, lessons);
        records.clear();
        for (const Lesson& lesson : lessons) records.push_back(record_of(lesson));
        const std::lock_guard lock(out_mutex);
        if (std::fwrite(records.data(), sizeof(LessonRecord), records.size(), stdout) !=
            records.size())
          over = true;
      }
    });
  }
  while (!over) {
    std::this_thread::sleep_for(std::chrono::milliseconds(500));
    players.refresh();
  }
  for (std::thread& thread : threads) thread.join();
  return 0;
}

int convert(const std::string& from, const std::string& to) {
  save_net(to, load_raw(from));
  return 0;
}

}  // namespace
}  // namespace pointwright::train

int main(int argc, char** argv) {
  pointwright::train::Options options;
  CLI::App app("Plays games and writes what they teach.");
  app.require_subcommand(1);
  CLI::App& play = *app.add_subcommand("play", "games, without end, to standard output");
  play.add_option("--nets", options.folder, "folder of the learner's nets");
  play.add_option("--workers", options.workers, "threads");
  play.add_option("--seed", options.seed, "of the games");
  play.add_option("--lambda", options.lambda, "weight of what came later");
  play.add_option("--wandering", options.wandering, "share of plays that are not the best");
  play.add_option("--rehearsals", options.rehearsals, "share of games from rarer kinds");
  std::string from;
  std::string to;
  CLI::App& convert = *app.add_subcommand("convert", "raw weights into a net file");
  convert.add_option("from", from)->required();
  convert.add_option("to", to)->required();
  CLI11_PARSE(app, argc, argv);
  return play.parsed() ? pointwright::train::play(options) : pointwright::train::convert(from, to);
}
