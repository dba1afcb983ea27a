#include "rollouts/rollout_job.hpp"

#include <algorithm>
#include <memory>
#include <mutex>

#include "rules/fingerprint.hpp"
#include "table_store/parallel_host.hpp"

namespace pointwright {
namespace {

/// Blocks between two looks at the stop rule and at the listener.
constexpr std::uint64_t blocks_per_wave = 8;
/// Trials that a thread takes at a time.
constexpr std::uint64_t trials_per_piece = 4;

/// A rollout and a tally for each thread that asks for one.
class Desks {
 public:
  struct Desk {
    judge::Rollout rollout;
    judge::Tally tally;
  };

  Desks(const RolloutJob& job, const judge::Evaluator& evaluator)
      : job_(job), evaluator_(evaluator) {}

  std::unique_ptr<Desk> take() {
    {
      const std::lock_guard lock(mutex_);
      if (!free_.empty()) {
        auto desk = std::move(free_.back());
        free_.pop_back();
        return desk;
      }
    }
    return std::make_unique<Desk>(
        Desk{judge::Rollout(evaluator_, job_.settings, job_.starts, job_.viewer),
             judge::Tally(job_.starts.size())});
  }
  void give_back(std::unique_ptr<Desk> desk) {
    const std::lock_guard lock(mutex_);
    free_.push_back(std::move(desk));
  }
  /// Moves what all desks have counted into `tally`.
  void collect(judge::Tally& tally) {
    for (const auto& desk : free_) {
      tally.merge(desk->tally);
      desk->tally = judge::Tally(job_.starts.size());
    }
  }

 private:
  const RolloutJob& job_;
  const judge::Evaluator& evaluator_;
  std::mutex mutex_;
  std::vector<std::unique_ptr<Desk>> free_;
};

void add(Fingerprint& print, const judge::RolloutCube& cube) {
  const judge::CubeSituation& at = cube.situation;
  for (const bool flag : {cube.may_offer, at.gammons, at.jacoby, at.beavers, at.match.has_value()})
    print.add(std::uint64_t{flag});
  for (const std::uint64_t number : {cube.unit, at.cube, static_cast<std::uint64_t>(at.access)})
    print.add(number);
  print.add(at.life);
  if (!at.match) return;
  print.add(static_cast<std::uint64_t>(at.match->mine));
  print.add(static_cast<std::uint64_t>(at.match->theirs));
}

}  // namespace

std::uint64_t fingerprint(const RolloutJob& job) {
  Fingerprint print;
  print.add(job.nets);
  const judge::RolloutSettings& s = job.settings;
  print.add(s.seed);
  for (const int number : {s.truncate_after, s.play_depth, s.end_depth})
    print.add(static_cast<std::uint64_t>(number));
  print.add(std::uint64_t{s.adjust_luck});
  print.add(std::uint64_t{s.stratify});
  const judge::Valuation& v = s.valuation;
  for (const float number :
       {v.base, v.win, v.win_gammon, v.win_backgammon, v.lose_gammon, v.lose_backgammon})
    print.add(number);
  for (const judge::RolloutStart& start : job.starts) {
    print.add(hash(start.board));
    print.add(std::uint64_t{index(start.on_roll)});
    if (start.cube) add(print, *start.cube);
  }
  print.add(std::uint64_t{index(job.viewer)});
  print.add(job.blocks());
  print.add(std::uint64_t{job.parts});
  return print.value();
}

bool RolloutProgress::complete(const RolloutJob& of) const {
  for (std::uint32_t part = 0; part < of.parts; ++part) {
    if (done[part] < of.blocks_of(part)) return false;
  }
  return true;
}

std::string merge(RolloutProgress& progress, const RolloutProgress& other) {
  if (progress.job != other.job || progress.done.size() != other.done.size())
    return "they belong to different rollouts: the position, the seed, the number of trials, the "
           "number of parts and all settings must be the same";
  for (std::size_t part = 0; part < progress.done.size(); ++part) {
    if (progress.done[part] != 0 && other.done[part] != 0)
      return "both hold trials of part " + std::to_string(part + 1) +
             ", which would be counted twice";
  }
  for (std::size_t part = 0; part < progress.done.size(); ++part)
    progress.done[part] += other.done[part];
  progress.tally.merge(other.tally);
  return "";
}

bool run(const RolloutJob& job, std::uint32_t part, const judge::Evaluator& evaluator,
         const RolloutRun& how, RolloutProgress& progress) {
  const BuildHost host = parallel_host(how.threads);
  Desks desks(job, evaluator);
  const std::uint64_t all = job.blocks_of(part);
  while (progress.done[part] < all) {
    if (job.parts == 1 && judge::is_settled(progress.tally, how.stop)) return true;
    const std::uint64_t first = progress.done[part];
    // Waves begin at multiples of their size, in every sitting.
    const std::uint64_t last = std::min(all, (first / blocks_per_wave + 1) * blocks_per_wave);
    const std::uint64_t pieces = (last - first) * judge::trials_per_block / trials_per_piece;
    host.split(static_cast<std::size_t>(pieces), [&](std::size_t begin, std::size_t end) {
      auto desk = desks.take();
      for (std::uint64_t i = begin * trials_per_piece; i < end * trials_per_piece; ++i) {
        const std::uint64_t block = (first + i / judge::trials_per_block) * job.parts + part;
        desk->rollout.add_trial(block * judge::trials_per_block + i % judge::trials_per_block,
                                desk->tally);
      }
      desks.give_back(std::move(desk));
    });
    desks.collect(progress.tally);
    progress.done[part] = last;
    if (how.heard && !how.heard(progress)) return false;
  }
  return true;
}

}  // namespace pointwright
