#include "rules/ruling.hpp"

#include <algorithm>
#include <cstdlib>

#include "rules/book/must_play.hpp"
#include "rules/obligation.hpp"
#include "rules/ruling_reading.hpp"
#include "rules/ruling_refusal.hpp"
#include "rules/ruling_wording.hpp"

namespace pointwright {
namespace {

using reading::Leg;
using reading::Reading;
using wording::sentence;

/// How many checkers each place gains by some moves.
using Change = std::array<int, 26>;

template <class Moves>
Change change_of(const Moves& moves) {
  Change change{};
  for (const auto& move : moves) {
    --change[move.from];
    ++change[move.to];
  }
  return change;
}

/// How unlike two changes are: first how many checkers differ, then by how many pips.
std::pair<int, int> difference(const Change& a, const Change& b) {
  int count = 0;
  int distance = 0;
  int carried = 0;
  for (std::size_t place = 0; place < a.size(); ++place) {
    const int d = a[place] - b[place];
    count += std::abs(d);
    carried += d;
    distance += std::abs(carried);
  }
  return {count, distance};
}

/// Rules on one attempt.
class Referee {
 public:
  Referee(const Position& position, const Attempt& attempt, const SideNames& names)
      : position_(position),
        board_(position.board),
        side_(*position.turn),
        roll_(*position.roll),
        attempt_(attempt),
        names_(names),
        legs_(reading::legs_of(attempt)),
        legal_(legal_plays(board_, side_, roll_)) {
    sort_by_nearness();
  }

  Ruling run() {
    const refusal::Case c{board_, side_, roll_, attempt_, legs_, legal_, names_};
    if (legs_.empty()) return legal_.empty() ? pass() : refuse(by_passing(c));
    if (auto reason = refusal::by_writing(c)) return refuse(*std::move(reason));
    const reading::Match match = reading::match(board_, side_, roll_, legs_);
    if (match.stuck) return refuse(refusal::by_board(c, *match.stuck));
    const std::vector<Reading> legal = legal_readings(match.readings);
    if (legal.empty()) return refuse(refusal::by_duty(c, fullest(match.readings)));
    if (legal.size() > 1) return refuse(ambiguous(legal));
    return allow(legal.front());
  }

 private:
  void sort_by_nearness() {
    const Change wanted = change_of(legs_);
    std::vector<std::pair<std::pair<int, int>, std::size_t>> order;
    order.reserve(legal_.size());
    for (std::size_t i = 0; i < legal_.size(); ++i)
      order.emplace_back(difference(wanted, change_of(legal_[i].play)), i);
    std::ranges::sort(order);
    std::vector<LegalPlay> sorted;
    sorted.reserve(legal_.size());
    for (const auto& [unlike, i] : order) sorted.push_back(legal_[i]);
    legal_ = std::move(sorted);
  }

  /// The readings that lead to legal results and agree best with the stars, one for each result.
  [[nodiscard]] std::vector<Reading> legal_readings(const std::vector<Reading>& readings) const {
    std::vector<Reading> found;
    for (const Reading& candidate : readings) {
      if (std::ranges::none_of(
              legal_, [&](const LegalPlay& legal) { return legal.after == candidate.after; }))
        continue;
      if (!found.empty() && candidate.mismatches > found.front().mismatches) continue;
      if (!found.empty() && candidate.mismatches < found.front().mismatches) found.clear();
      const auto same = std::ranges::find_if(
          found, [&](const Reading& other) { return other.after == candidate.after; });
      if (same == found.end())
        found.push_back(candidate);
      else if (candidate.steps.size() > same->steps.size())
        *same = candidate;
    }
    return found;
  }

  static const Reading& fullest(const std::vector<Reading>& readings) {
    return *std::ranges::max_element(readings, [](const Reading& a, const Reading& b) {
      return a.steps.size() != b.steps.size() ? a.steps.size() < b.steps.size()
                                              : a.mismatches > b.mismatches;
    });
  }

  static refusal::Reason ambiguous(const std::vector<Reading>& readings) {
    std::vector<std::string> texts;
    texts.reserve(readings.size());
    for (const Reading& reading : readings) texts.push_back(to_text(reading.play()));
    return {&book::one_meaning,
            "This can be played in " + wording::number_word(static_cast<int>(readings.size())) +
                " ways that hit different blots: " + wording::listed(texts, "or") +
                ". Write which is meant."};
  }

  [[nodiscard]] Ruling refuse(refusal::Reason reason) const {
    Ruling ruling;
    ruling.rule = reason.rule;
    ruling.proof = std::move(reason.proof);
    if (legal_.empty()) {
      const std::string& mover = names_[side_];
      ruling.proof += " " + sentence(mover + " has no legal move with " + to_text(roll_) +
                                     ", and the turn passes.");
    }
    ruling.alternatives.reserve(legal_.size());
    for (const LegalPlay& legal : legal_) ruling.alternatives.push_back(legal.play);
    return ruling;
  }

  [[nodiscard]] Ruling pass() const {
    Ruling ruling;
    ruling.allowed = true;
    ruling.after = board_;
    ruling.proof = explain_obligation(position_, names_);
    return ruling;
  }

  [[nodiscard]] Ruling allow(const Reading& read) const {
    Ruling ruling;
    ruling.allowed = true;
    ruling.play = read.play();
    ruling.after = read.after;
    ruling.proof = dice_used(read) + hits(read) + idle_stars(read);
    if (has_won(read.after, side_))
      ruling.proof += " " + sentence(names_[side_] + " has borne off its last checker and wins.");
    if (legal_.size() == 1) ruling.proof += " It is the only legal play.";
    return ruling;
  }

  /// How each die was used: "The 6 is played 24/18 and the 4 13/9."
  [[nodiscard]] std::string dice_used(const Reading& read) const {
    const int made = static_cast<int>(read.steps.size());
    const std::string many(wording::number_word(made));
    if (roll_.is_double()) {
      const std::string die = std::to_string(roll_.high());
      if (made == 4) return "All four " + die + "s are played.";
      return sentence(many + " of the four " + die + "s " + (made == 1 ? "is" : "are") +
                      " played, and no play uses more.");
    }
    const reading::Taken& first = read.steps.front();
    const std::string one = "The " + std::to_string(first.die) + " is played " +
                            wording::step_text(first.move.from, first.move.to);
    if (made == 2) {
      const reading::Taken& second = read.steps.back();
      return one + " and the " + std::to_string(second.die) + " " +
             wording::step_text(second.move.from, second.move.to) + ".";
    }
    if (has_won(read.after, side_)) return one + ".";
    const std::string other = std::to_string(roll_.high() + roll_.low() - first.die);
    if (obligation(board_, side_, roll_).either)
      return one + "; only one die can be played, and the larger must be.";
    return one + "; there is no legal " + other + " before or after it.";
  }

  [[nodiscard]] std::string hits(const Reading& read) const {
    const wording::Speaker speaker(names_, side_);
    std::vector<std::string> places;
    for (const reading::Taken& step : read.steps) {
      if (step.move.hit) places.push_back(speaker.both_numbers(step.move.to));
    }
    if (places.empty()) return {};
    return " It hits " + wording::possessive(speaker.other()) +
           (places.size() == 1 ? " blot on " : " blots on ") + wording::listed(places) + ".";
  }

  /// A note on each star behind a point on which nothing is hit, or nothing on the way there.
  [[nodiscard]] std::string idle_stars(const Reading& read) const {
    std::vector<std::string> places;
    for (std::size_t leg = 0; leg < legs_.size(); ++leg) {
      if (!legs_[leg].star) continue;
      const bool hit = std::ranges::any_of(read.steps, [&](const reading::Taken& step) {
        return step.move.hit && (step.leg == leg || step.move.to == legs_[leg].to);
      });
      const std::string place = to_text(legs_[leg].to);
      if (!hit && std::ranges::find(places, place) == places.end()) places.push_back(place);
    }
    if (places.empty()) return {};
    return " Nothing is hit on " + wording::listed(places) + ", so the * there says nothing.";
  }

  const Position& position_;
  const Board& board_;
  Side side_;
  Roll roll_;
  const Attempt& attempt_;
  const SideNames& names_;
  std::vector<Leg> legs_;
  std::vector<LegalPlay> legal_;  ///< the nearest to the attempt first
};

}  // namespace

Ruling rule_on(const Position& position, const Attempt& attempt, const SideNames& names) {
  return Referee(position, attempt, names).run();
}

}  // namespace pointwright
