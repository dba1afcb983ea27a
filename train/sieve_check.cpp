#include "train/sieve_check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <numeric>

namespace pointwright::train {
namespace {

constexpr int depth = 2;
constexpr judge::Sieve everything{10'000, 100};

judge::SearchOptions with_all_plays() {
  judge::SearchOptions options;
  options.first = everything;
  options.second = everything;
  return options;
}

judge::SearchOptions with_replies() {
  judge::SearchOptions options;
  options.reply = wide_reply;
  return options;
}

/// Leaves of the plays, best first by `value`, what a sieve lets through.
void sift(std::vector<std::size_t>& kept, const std::vector<SeenPlay>& plays,
          float SeenPlay::* value, const judge::Sieve& sieve) {
  std::stable_sort(kept.begin(), kept.end(),
                   [&](std::size_t a, std::size_t b) { return plays[a].*value > plays[b].*value; });
  const float limit = plays[kept.front()].*value - sieve.within;
  std::size_t count = 1;
  while (count < std::min(kept.size(), static_cast<std::size_t>(sieve.most)) &&
         plays[kept[count]].*value >= limit)
    ++count;
  kept.resize(count);
}

template <class Work>
double seconds(const Work& work) {
  const auto began = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
}

std::string text_of(const judge::Sieve& sieve) {
  return fmt::format("{} within {:.2f}", sieve.most, sieve.within);
}

std::string text_of(const SieveLoss& loss, std::size_t decisions) {
  return loss.by_search.text() + " by the wider search, " + loss.by_rollouts.text() +
         " by rollouts; another play in " + std::to_string(loss.others) + " of " +
         std::to_string(decisions) + "\n";
}

}  // namespace

std::size_t chosen_through(const std::vector<SeenPlay>& plays, const judge::Sieve& first,
                           const judge::Sieve& second) {
  std::vector<std::size_t> kept(plays.size());
  std::iota(kept.begin(), kept.end(), std::size_t{0});
  sift(kept, plays, &SeenPlay::at_once, first);
  sift(kept, plays, &SeenPlay::one, second);
  sift(kept, plays, &SeenPlay::two, {1, 0});
  return kept.front();
}

void MeanLoss::add(double loss) {
  count_ += 1;
  const double delta = loss - mean_;
  mean_ += delta / count_;
  squares_ += delta * (loss - mean_);
}

std::string MeanLoss::text() const {
  return fmt::format("{:.5f} +- {:.5f}", mean_,
                     count_ < 2 ? 0.0 : std::sqrt(squares_ / (count_ - 1) / count_));
}

const std::vector<PlaysSieve>& plays_sieves() {
  static const std::vector<PlaysSieve> sieves = [] {
    const judge::SearchOptions usual;
    return std::vector<PlaysSieve>{{usual.first, usual.second}, {{4, 0.08F}, {2, 0.04F}},
                                   {{6, 0.12F}, {3, 0.06F}},    {{8, 0.16F}, {8, 0.16F}},
                                   {{12, 0.24F}, {4, 0.08F}},   {{12, 0.24F}, {6, 0.12F}},
                                   {{16, 0.32F}, {12, 0.24F}}};
  }();
  return sieves;
}

SieveReport empty_report() {
  SieveReport report;
  report.plays.resize(plays_sieves().size());
  return report;
}

SieveCheck::SieveCheck(const judge::Evaluator& evaluator)
    : usual_(evaluator),
      all_plays_(evaluator, with_all_plays()),
      replies_(evaluator, with_replies()) {}

void SieveCheck::add(const Judged& decision, const std::vector<SieveReport*>& reports) {
  const Board& board = decision.board;
  // Empty memories, so that the times compare.
  for (judge::Search* search : {&usual_, &all_plays_, &replies_}) search->clear_cache();
  std::vector<judge::RankedPlay> usual;
  std::vector<judge::RankedPlay> replies;
  std::vector<judge::RankedPlay> all;
  const auto rank = [&](judge::Search& search, std::vector<judge::RankedPlay>& ranked) {
    return seconds([&] { ranked = search.rank(board, Side::light, decision.roll, depth); });
  };
  const double usual_seconds = rank(usual_, usual);
  const double replies_seconds = rank(replies_, replies);
  const double all_seconds = rank(all_plays_, all);

  const auto legal = legal_plays(board, Side::light, decision.roll);
  std::vector<SeenPlay> plays;
  for (const LegalPlay& play : legal) {
    SeenPlay seen;
    seen.at_once = -all_plays_.worth(play.after, Side::dark, 0).equity;
    seen.one = -all_plays_.worth(play.after, Side::dark, 1).equity;
    seen.two = -all_plays_.worth(play.after, Side::dark, depth).equity;
    plays.push_back(seen);
  }
  const std::size_t best = chosen_through(plays, everything, everything);
  const auto by_rollouts = [&](const Board& narrow, const Board& wide) {
    return loss_of(decision, narrow).equity - loss_of(decision, wide).equity;
  };
  const auto value_by_replies = [&](const Board& after) {
    return -replies_.worth(after, Side::dark, depth).equity;
  };
  const Board& by_usual = usual.front().play.after;
  const Board& with_wide_replies = replies.front().play.after;

  for (SieveReport* report : reports) {
    ++report->decisions;
    report->usual_seconds += usual_seconds;
    report->all_plays_seconds += all_seconds;
    report->replies_seconds += replies_seconds;
    for (std::size_t i = 0; i < plays_sieves().size(); ++i) {
      const PlaysSieve& sieve = plays_sieves()[i];
      const std::size_t chosen = chosen_through(plays, sieve.first, sieve.second);
      SieveLoss& loss = report->plays[i];
      loss.by_search.add(static_cast<double>(plays[best].two - plays[chosen].two));
      loss.by_rollouts.add(by_rollouts(legal[chosen].after, legal[best].after));
      loss.others += chosen != best ? 1U : 0U;
      if (i == 0 && legal[chosen].after != by_usual) ++report->mismatches;
    }
    report->reply.by_search.add(std::max(
        0.0,
        static_cast<double>(value_by_replies(with_wide_replies) - value_by_replies(by_usual))));
    report->reply.by_rollouts.add(by_rollouts(by_usual, with_wide_replies));
    report->reply.others += by_usual != with_wide_replies ? 1U : 0U;
  }
}

std::string to_text(const SieveReport& report) {
  const auto each = [&](double total) {
    return 1000 * total / static_cast<double>(std::max<std::size_t>(1, report.decisions));
  };
  std::string text;
  for (std::size_t i = 0; i < plays_sieves().size(); ++i) {
    const PlaysSieve& sieve = plays_sieves()[i];
    text += "  plays " + text_of(sieve.first) + ", then " + text_of(sieve.second) +
            ", against all: " + text_of(report.plays[i], report.decisions);
  }
  text += "  the reply at once, against the best of " + text_of(wide_reply) +
          " by one step: " + text_of(report.reply, report.decisions);
  text += fmt::format("  {:.1f} ms a decision; {:.1f} for all plays, {:.1f} with replies\n",
                      each(report.usual_seconds), each(report.all_plays_seconds),
                      each(report.replies_seconds));
  if (report.mismatches > 0)
    text += "  the search itself chose otherwise in " + std::to_string(report.mismatches) + "\n";
  return text;
}

}  // namespace pointwright::train
