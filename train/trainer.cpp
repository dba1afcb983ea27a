#include "train/trainer.hpp"

#include <algorithm>
#include <barrier>
#include <chrono>
#include <cmath>
#include <memory>
#include <random>
#include <thread>
#include <utility>
#include <vector>

#include "train/adam.hpp"
#include "train/gradient.hpp"
#include "train/practice.hpp"

namespace pointwright::train {
namespace {

/// One of the nets while it learns.
struct Pupil {
  judge::Weights& weights;
  Adam adam;
  std::vector<Gradient> gradients;  ///< of each worker

  Pupil(judge::Weights& net, std::size_t workers)
      : weights(net), adam(net.hidden), gradients(workers, Gradient(net.hidden)) {}
};

/// A worker's latest lessons, to be studied again: a game costs far more than the study of its
/// positions.
class Notebook {
 public:
  explicit Notebook(std::uint64_t seed) : random_(seed) {}

  void add(const Lesson& lesson) {
    if (lessons_.size() < most)
      lessons_.push_back(lesson);
    else
      lessons_[next_++ % most] = lesson;
  }
  /// Precondition: one was added.
  const Lesson& any() { return lessons_[random_() % lessons_.size()]; }

 private:
  static constexpr std::size_t most = 200'000;

  std::mt19937_64 random_;
  std::vector<Lesson> lessons_;
  std::size_t next_ = 0;
};

class Trainer {
 public:
  Trainer(judge::WeightsByPhase& nets, const Training& how,
          const std::function<void(const Report&)>& heard)
      : how_(how),
        heard_(heard),
        nets_(nets),
        squared_error_(how.workers),
        meeting_(static_cast<std::ptrdiff_t>(how.workers)) {
    for (judge::Weights& net : nets) pupils_.emplace_back(net, how.workers);
    for (unsigned k = 0; k < how.workers; ++k)
      practices_.emplace_back(how.seed * 1000003ULL + k, how.rehearsals,
                              SelfPlay{.wandering = how.wandering});
  }

  void run() {
    prepare_round();
    std::vector<std::thread> threads;
    threads.reserve(how_.workers);
    for (unsigned k = 0; k < how_.workers; ++k) threads.emplace_back([this, k] { work(k); });
    for (std::thread& thread : threads) thread.join();
  }

 private:
  [[nodiscard]] std::size_t share() const {
    return std::max<std::size_t>(1, how_.batch / how_.workers);
  }

  void work(std::size_t worker) {
    std::vector<Lesson> lessons;
    Notebook notebook(how_.seed * 1000033ULL + worker);
    while (!over_) {
      practices_[worker].fill(*evaluator_, lambda_, share() * how_.steps, lessons);
      for (std::size_t i = 0; i < how_.steps; ++i) {
        study(worker, lessons, notebook);
        meeting_.arrive_and_wait();
        const long step = steps_ + static_cast<long>(i) + 1;
        for (Pupil& pupil : pupils_)
          pupil.adam.step(pupil.weights, pupil.gradients, rate_, step, worker, how_.workers);
        meeting_.arrive_and_wait();
      }
      if (worker == 0) {
        steps_ += static_cast<long>(how_.steps);
        ++rounds_;
        prepare_round();
      }
      meeting_.arrive_and_wait();
    }
  }

  /// Takes a worker's share of a batch from its lessons, and as many reviews as are wanted.
  void study(std::size_t worker, std::vector<Lesson>& lessons, Notebook& notebook) {
    for (Pupil& pupil : pupils_) pupil.gradients[worker].clear();
    for (std::size_t i = 0; i < share(); ++i) {
      const Lesson lesson = lessons.back();
      lessons.pop_back();
      squared_error_[worker] += learn(worker, lesson);
      if (how_.reviews == 0) continue;
      notebook.add(lesson);
      for (std::size_t k = 0; k < how_.reviews; ++k) learn(worker, notebook.any());
    }
  }

  /// Returns the squared error of the chance to win, before the lesson.
  double learn(std::size_t worker, const Lesson& lesson) {
    Pupil& pupil = pupils_[static_cast<std::size_t>(judge::phase_of(lesson.visit.board))];
    return static_cast<double>(pupil.gradients[worker].add(pupil.weights, lesson.visit.board,
                                                           lesson.visit.on_roll, lesson.target));
  }

  /// One thread alone: reports, and sets the pace of the next round.
  void prepare_round() {
    const double seconds =
        std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
    double done = static_cast<double>(rounds_) / static_cast<double>(how_.rounds);
    if (how_.seconds > 0) done = std::max(done, seconds / how_.seconds);
    over_ = done >= 1;
    const auto part = static_cast<float>(std::min(done, 1.0));
    rate_ = how_.fall_evenly ? how_.first_rate + (how_.last_rate - how_.first_rate) * part
                             : how_.first_rate * std::pow(how_.last_rate / how_.first_rate, part);
    lambda_ = how_.last_lambda +
              (how_.lambda - how_.last_lambda) * static_cast<float>(std::max(0.0, 1 - 2 * done));
    evaluator_ = std::make_unique<judge::Evaluator>(nets_);
    if (rounds_ > 0) report(seconds);
  }

  void report(double seconds) {
    double error = 0;
    for (double& squared : squared_error_) error += std::exchange(squared, 0.0);
    const auto positions = static_cast<double>(share() * how_.workers * how_.steps);
    Report report{.seconds = seconds,
                  .rounds = rounds_,
                  .rms_step = std::sqrt(error / positions),
                  .rate = rate_,
                  .last = over_};
    std::uint64_t gammons = 0;
    for (const Practice& practice : practices_) {
      report.games += practice.games();
      gammons += practice.gammons();
    }
    report.gammons = static_cast<double>(gammons) /
                     static_cast<double>(std::max<std::uint64_t>(1, report.games));
    heard_(report);
  }

  const Training& how_;
  const std::function<void(const Report&)>& heard_;
  const judge::WeightsByPhase& nets_;
  std::vector<Pupil> pupils_;  // of each phase
  std::vector<Practice> practices_;
  std::vector<double> squared_error_;
  std::barrier<> meeting_;
  std::unique_ptr<judge::Evaluator> evaluator_;
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
  std::uint64_t rounds_ = 0;
  long steps_ = 0;
  float rate_ = 0;
  float lambda_ = 0;
  bool over_ = false;
};

}  // namespace

void train(judge::WeightsByPhase& nets, const Training& how,
           const std::function<void(const Report&)>& heard) {
  Trainer(nets, how, heard).run();
}

}  // namespace pointwright::train
