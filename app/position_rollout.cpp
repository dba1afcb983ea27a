#include "app/position_rollout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <functional>
#include <utility>

#include "app/interrupt.hpp"
#include "app/judging.hpp"
#include "app/numbers.hpp"
#include "app/options.hpp"
#include "judge/position_valuation.hpp"
#include "judge/shipped.hpp"
#include "rollouts/rollout_file.hpp"
#include "rollouts/rollout_job.hpp"
#include "rules/text.hpp"

namespace pointwright::app {
namespace {

constexpr std::uint64_t most_trials = 100'000'000;
constexpr std::uint64_t most_seed = 1'000'000'000'000ULL;
constexpr std::uint64_t most_parts = 100'000;

/// A standard error in points; 0 if none is given.
Result<double, Failure> error_of(const std::optional<std::string>& text) {
  double error = 0;
  if (!text) return error;
  const char* end = text->data() + text->size();
  const auto read = std::from_chars(text->data(), end, error, std::chars_format::fixed);
  if (read.ec == std::errc{} && read.ptr == end && error > 0 && error < 1) return error;
  return failure("bad-number", fmt::format("--error cannot be `{}`", *text),
                 "write a number of points between 0 and 1: --error 0.002");
}

/// "K/N" as a part of so many, from 0.
struct Part {
  std::uint32_t number = 0;
  std::uint32_t of = 1;
};
Result<Part, Failure> part_of(const std::optional<std::string>& text) {
  if (!text) return Part{};
  const std::size_t slash = text->find('/');
  if (slash != std::string::npos) {
    const auto k = text::number(text->substr(0, slash), most_parts);
    const auto n = text::number(text->substr(slash + 1), most_parts);
    if (k && n && *k >= 1 && *k <= *n)
      return Part{static_cast<std::uint32_t>(*k - 1), static_cast<std::uint32_t>(*n)};
  }
  return failure("bad-part", fmt::format("--part cannot be `{}`", *text),
                 "write which part of how many: --part 2/8");
}

/// What a rollout is asked to do, beside the position.
struct Plan {
  std::uint64_t trials = 0;
  std::uint64_t seed = 1;
  int rolls = 0;
  unsigned threads = 1;
  double error = 0;
  Part part;
};

Result<Plan, Failure> plan_of(const RolloutOptions& options) {
  Plan plan;
  const auto trials = number_of(options.rollout, "--rollout", 0, 36, most_trials);
  if (!trials.ok()) return trials.error();
  const auto seed = number_of(options.seed, "--seed", 1, 0, most_seed);
  if (!seed.ok()) return seed.error();
  const auto rolls = number_of(options.rolls, "--rolls", 0, 1, judge::longest_trial);
  if (!rolls.ok()) return rolls.error();
  const auto threads = threads_of(options.threads);
  if (!threads.ok()) return threads.error();
  const auto error = error_of(options.error);
  if (!error.ok()) return error.error();
  const auto part = part_of(options.part);
  if (!part.ok()) return part.error();
  plan.trials = *trials;
  plan.seed = *seed;
  plan.rolls = static_cast<int>(*rolls);
  plan.threads = *threads;
  plan.error = *error;
  plan.part = *part;
  return plan;
}

void set(RolloutJob& job, const Plan& plan) {
  job.settings.seed = plan.seed;
  job.settings.truncate_after = plan.rolls;
  job.trials = plan.trials;
  job.parts = plan.part.of;
}

Failure state_fault(const RolloutFault& fault) {
  return failure(fault.id, harmless(fault.reason),
                 "give the file of this rollout, or remove it to begin anew");
}

/// The state of the rollout: from the file if there is one, else a new one.
Result<RolloutProgress, Failure> state_of(const RolloutJob& job,
                                          const std::optional<std::string>& file) {
  if (!file || !std::filesystem::exists(*file)) return RolloutProgress(job);
  auto read = load_rollout(*file);
  if (!read.ok()) return state_fault(read.error());
  if (read->job != fingerprint(job) || read->done.size() != job.parts)
    return failure("other-rollout",
                   fmt::format("{} belongs to a different rollout: the position, the seed, the "
                               "number of trials, the parts and --rolls must be the same",
                               harmless(*file)),
                   "give another file, or remove it to begin anew");
  return *read;
}

Result<RolloutProgress, Failure> merged_state(const RolloutJob& job,
                                              const std::vector<std::string>& files) {
  RolloutProgress whole;
  bool first = true;
  for (const std::string& file : files) {
    const auto read = load_rollout(file);
    if (!read.ok()) return state_fault(read.error());
    if (first) {
      RolloutJob of_file = job;
      of_file.parts = static_cast<std::uint32_t>(read->done.size());
      if (fingerprint(of_file) != read->job)
        return failure("other-rollout",
                       fmt::format("{} belongs to a different rollout", harmless(file)),
                       "give the same position, seed, trials and --rolls as for the parts");
      whole = *read;
      first = false;
      continue;
    }
    const std::string problem = merge(whole, *read);
    if (!problem.empty())
      return failure("cannot-merge",
                     fmt::format("{} cannot be merged: {}", harmless(file), problem),
                     "give each part once, all of one rollout");
  }
  return whole;
}

std::function<bool(const RolloutProgress&)> watcher(const RolloutJob& job, const Part& part,
                                                    const std::optional<std::string>& file, Io& io,
                                                    std::string& problem) {
  return [&job, part, file, &io, &problem](const RolloutProgress& progress) {
    if (file) {
      problem = save(*file, progress);
      if (!problem.empty()) return false;
    }
    if (io.colour_err) {
      const std::uint64_t all = std::max<std::uint64_t>(1, job.blocks_of(part.number));
      io.err << fmt::format("\r{:>3}%  {} trials, {} +- {:.4f} ",
                            100 * progress.done[part.number] / all,
                            with_commas(static_cast<long long>(progress.tally.trials)),
                            equity(progress.tally.equity(0)), progress.tally.error(0))
             << std::flush;
    }
    return !InterruptWatch::interrupted();
  };
}

int run_part(const RolloutOptions& options, const Plan& plan, const RolloutJob& job, bool json,
             Io& io, const ReportRollout& report) {
  auto state = state_of(job, options.resume);
  if (!state.ok()) return complain(state.error(), json, io);
  std::string problem;
  bool done = false;
  {
    const InterruptWatch watch;
    RolloutRun how{.threads = plan.threads};
    how.heard = watcher(job, plan.part, options.resume, io, problem);
    if (plan.error > 0) how.stop.error = plan.error;
    done = run(job, plan.part.number, judge::shipped_evaluator(), how, state.value());
  }
  if (io.colour_err) io.err << '\n';
  if (!problem.empty())
    return complain(failure("cannot-write", harmless(problem),
                            "see whether the folder is there and the disk has room"),
                    json, io);
  if (!done) {
    complain(
        failure("interrupted",
                fmt::format("the rollout was interrupted after {} trials",
                            with_commas(static_cast<long long>(state->tally.trials))),
                options.resume ? "give the same command again to go on from " + *options.resume
                               : "with --resume FILE a rollout can go on where it was interrupted"),
        json, io);
    return exit_interrupted;
  }
  const Part& part = plan.part;
  report(state->tally,
         part.of > 1 ? fmt::format("{}/{}", part.number + 1, part.of) : std::string{});
  return exit_fine;
}

}  // namespace

void add_rollout_options(OptionList& list, RolloutOptions& options) {
  list.value("--rollout", "TRIALS", options.rollout, "Play the position on so many times.");
  list.value("--seed", "NUMBER", options.seed, "Of the dice of a rollout; 1 if not given.");
  list.value("--rolls", "NUMBER", options.rolls,
             "Cut trials off after so many rolls; to the end if not given.");
  list.value("--threads", "NUMBER", options.threads,
             "How many threads share the trials, or a search two rolls ahead; as many as there are "
             "processors if not given.");
  list.value("--error", "POINTS", options.error,
             "Stop a rollout once its standard error is below so many points, such as 0.002.");
  list.value("--part", "K/N", options.part, "Do the K-th of N parts of the trials.");
  list.value("--resume", "FILE", options.resume,
             "Keep the state of the rollout there, and go on from it.");
  list.values("--merge", "FILE", options.merged,
              "Put finished parts together; once for each file.");
}

std::optional<Failure> misuse(const RolloutOptions& options) {
  const auto only_with = [&](std::string_view option, bool given,
                             std::string_view other) -> std::optional<Failure> {
    if (!given) return std::nullopt;
    return failure("misused-option", fmt::format("{} is for rollouts", option),
                   fmt::format("give {} too, or leave it out", other));
  };
  const bool rolled = options.rollout.has_value();
  for (const auto& [option, given] : {std::pair{"--seed", options.seed.has_value()},
                                      std::pair{"--rolls", options.rolls.has_value()},
                                      std::pair{"--error", options.error.has_value()},
                                      std::pair{"--part", options.part.has_value()},
                                      std::pair{"--resume", options.resume.has_value()},
                                      std::pair{"--merge", !options.merged.empty()}}) {
    if (!rolled) {
      if (auto wrong = only_with(option, given, "--rollout TRIALS")) return wrong;
    }
  }
  if (!options.merged.empty() && options.resume)
    return failure("misused-option", "--merge and --resume cannot go together",
                   "merge the files of all parts at the end");
  if (options.part && !options.resume && options.merged.empty())
    return failure("misused-option", "a part of a rollout must be kept in a file",
                   "add --resume FILE");
  return std::nullopt;
}

RolloutJob job_of(const Position& position) {
  RolloutJob job;
  job.nets = judge::shipped_nets_hash();
  job.settings.valuation = *judge::valuation_of(position, *position.turn);
  job.starts = {{position.board, *position.turn}};
  job.viewer = *position.turn;
  return job;
}

std::optional<Failure> misuse_in_batch(const RolloutOptions& options) {
  if (options.resume || options.part || !options.merged.empty()) {
    return failure("misused-option",
                   "--resume, --part and --merge are for one rollout, not a batch",
                   "leave them out, or ask about one position at a time");
  }
  if (!options.rollout) return std::nullopt;
  const auto plan = plan_of(options);
  return plan.ok() ? std::nullopt : std::optional(plan.error());
}

Result<judge::Tally, Failure> rolled_out(const RolloutOptions& options, RolloutJob job) {
  const auto plan = plan_of(options);
  if (!plan.ok()) return plan.error();
  set(job, *plan);
  RolloutRun how{.threads = plan->threads};
  how.stop.error = plan->error;
  RolloutProgress progress(job);
  run(job, 0, judge::shipped_evaluator(), how, progress);
  return progress.tally;
}

int roll_out(const RolloutOptions& options, RolloutJob job, bool json, Io& io,
             const ReportRollout& report) {
  const auto plan = plan_of(options);
  if (!plan.ok()) return complain(plan.error(), json, io);
  set(job, *plan);
  if (options.merged.empty()) return run_part(options, *plan, job, json, io, report);
  const auto whole = merged_state(job, options.merged);
  if (!whole.ok()) return complain(whole.error(), json, io);
  job.parts = static_cast<std::uint32_t>(whole->done.size());
  if (!whole->complete(job))
    return complain(failure("parts-missing", "some part of the rollout is missing or unfinished",
                            "finish every part with --resume, then merge all of them"),
                    json, io);
  report(whole->tally, {});
  return exit_fine;
}

}  // namespace pointwright::app
