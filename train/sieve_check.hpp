#pragma once

#include <functional>
#include <string>
#include <vector>

#include "judge/search.hpp"
#include "train/judge_set.hpp"

/// What a search two steps deep loses by its sieves: see docs/decisions/search.md.
namespace pointwright::train {

/// A legal play as each depth values it, to the side that plays.
struct SeenPlay {
  float at_once = 0;
  float one = 0;
  float two = 0;
};

/// The play that a search would choose through these sieves, from the values of all plays: an index
/// into `plays`, which is not empty and in the order of legal_plays().
std::size_t chosen_through(const std::vector<SeenPlay>& plays, const judge::Sieve& first,
                           const judge::Sieve& second);

/// A mean and its standard error, one number at a time.
class MeanLoss {
 public:
  void add(double loss);
  [[nodiscard]] std::string text() const;  ///< "0.00012 +- 0.00004"

 private:
  double count_ = 0;
  double mean_ = 0;
  double squares_ = 0;
};

/// Choices of a sieve beside those of a wider one.
struct SieveLoss {
  MeanLoss by_search;    ///< as the wider search values both choices
  MeanLoss by_rollouts;  ///< as the rollouts of the set do: below nought where the wider is worse
  std::size_t others = 0;
};

/// What was found for a number of decisions. The sieves of plays are compared with two steps for
/// all plays, the reply at once with the best of several replies by one step.
struct SieveReport {
  std::vector<SieveLoss> plays;  ///< in the order of plays_sieves()
  SieveLoss reply;
  std::size_t decisions = 0;
  std::size_t mismatches = 0;  ///< where chosen_through() and the search itself differ: none should
  double usual_seconds = 0;
  double all_plays_seconds = 0;
  double replies_seconds = 0;
};

/// Pairs of sieves for the plays, the usual one first.
struct PlaysSieve {
  judge::Sieve first;
  judge::Sieve second;
};
const std::vector<PlaysSieve>& plays_sieves();
/// The wider sieve of replies.
inline constexpr judge::Sieve wide_reply{4, 0.16F};

/// Looks at one decision after the other on one thread and adds each to all of its reports.
class SieveCheck {
 public:
  explicit SieveCheck(const judge::Evaluator& evaluator);
  void add(const Judged& decision, const std::vector<SieveReport*>& reports);

 private:
  judge::Search usual_;
  judge::Search all_plays_;
  judge::Search replies_;
};

/// An empty report.
SieveReport empty_report();

/// The report in lines.
std::string to_text(const SieveReport& report);

}  // namespace pointwright::train
