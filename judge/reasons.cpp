#include "judge/reasons.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "judge/words.hpp"
#include "rules/notation.hpp"
#include "rules/text.hpp"

namespace pointwright::judge {
namespace {

using words::amount;
using words::listed;
using words::percent;

/// Parts below this, in points a game, say nothing: they round to less than a digit that a reader
/// would trust.
constexpr double least_part = 0.004;
/// Parts below this part of the largest one are left out as well.
constexpr double least_of_largest = 0.15;
constexpr std::size_t most_groups = 3;

std::string capitalised(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') {
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  }
  return text;
}

/// The words that compare the two plays.
class Comparison {
 public:
  Comparison(const Considered& first, const Considered& second, Side side,
             const Valuation& valuation, const SideNames& names)
      : first_(first),
        second_(second),
        valuation_(valuation),
        other_(names[opponent(side)]),
        mover_(names[side]),
        race_lead_{first.facts.their_pips - first.facts.pips,
                   second.facts.their_pips - second.facts.pips},
        a_(to_text(first.play.play)),
        b_(to_text(second.play.play)) {}

  [[nodiscard]] Reason difference() const {
    const double gain = first_.look.worth - second_.look.worth;
    Reason reason{.kind = Reason::Kind::difference, .share = gain};
    const std::string how = "One roll ahead, " + other_ + " answering each roll at its best, ";
    if (amount(gain) == amount(0)) {
      reason.text = how + a_ + " and " + b_ + " are worth the same.";
    } else {
      reason.text = how + a_ + " is worth " + amount(gain) + " points " +
                    (gain > 0 ? "more than " : "less than ") + b_ + ".";
    }
    return reason;
  }

  [[nodiscard]] std::vector<Reason> replies() const {
    std::vector<Reason> result;
    if (first_.look.replies.empty() || second_.look.replies.empty()) return result;
    for (const ReplyGroup& group : compare(first_.look, second_.look)) {
      if (result.size() == most_groups) break;
      if (amount(group.share) == amount(0)) break;
      result.push_back({Reason::Kind::replies, sentence(group), group.share});
    }
    return telling(std::move(result));
  }

  [[nodiscard]] std::vector<Reason> ends() const {
    const Chances& a = first_.look.chances;
    const Chances& b = second_.look.chances;
    std::vector<Reason> result;
    const auto part = [&](std::string_view what, float with_a, float with_b, double each) {
      const double share = each * (static_cast<double>(with_a) - static_cast<double>(with_b));
      std::string text = capitalised(mover_) + " " + std::string(what) + " in " + percent(with_a) +
                         " of the games after " + a_ + " and in " + percent(with_b) + " after " +
                         b_ + ": " + amount(share) + " points for " + (share > 0 ? a_ : b_) + ".";
      result.push_back({Reason::Kind::ends, std::move(text), share});
    };
    part("wins", a.win, b.win, valuation_.win);
    part("wins a gammon", a.win_gammon, b.win_gammon, valuation_.win_gammon);
    part("wins a backgammon", a.win_backgammon, b.win_backgammon, valuation_.win_backgammon);
    part("loses a gammon", a.lose_gammon, b.lose_gammon, valuation_.lose_gammon);
    part("loses a backgammon", a.lose_backgammon, b.lose_backgammon, valuation_.lose_backgammon);
    std::ranges::stable_sort(result, std::ranges::greater{},
                             [](const Reason& reason) { return std::abs(reason.share); });
    return telling(std::move(result));
  }

  /// Counts in which the plays differ: "Home points 3 against 2". Nothing if there are none.
  [[nodiscard]] std::optional<Reason> counts() const {
    std::vector<std::string> parts;
    const auto count = [&](std::string_view what, int with_a, int with_b) {
      if (with_a == with_b) return;
      parts.push_back(std::string(what) + " " + std::to_string(with_a) + " against " +
                      std::to_string(with_b));
    };
    const PlayFacts& a = first_.facts;
    const PlayFacts& b = second_.facts;
    count("home points", a.home_points, b.home_points);
    count("anchors", a.anchors, b.anchors);
    count("longest prime", a.prime, b.prime);
    count("builders", a.builders, b.builders);
    count("lead in the race", race_lead_[0], race_lead_[1]);
    count(other_ + "'s shots", first_.shots.ways, second_.shots.ways);
    if (parts.empty()) return std::nullopt;
    return Reason{Reason::Kind::board,
                  "Counted after " + a_ + " and after " + b_ + ": " + listed(parts) + ".", 0};
  }

 private:
  /// The parts that are worth words, of parts sorted by size.
  static std::vector<Reason> telling(std::vector<Reason> parts) {
    if (parts.empty()) return parts;
    const double least = std::max(least_part, least_of_largest * std::abs(parts.front().share));
    std::erase_if(parts, [&](const Reason& part) { return std::abs(part.share) < least; });
    return parts;
  }

  [[nodiscard]] std::string sentence(const ReplyGroup& group) const {
    return "With " + words::rolls(group.rolls) + " (" + std::to_string(group.ways) + " of 36) " +
           other_ + " " + pair_text(group) + ". That costs " + (group.share > 0 ? b_ : a_) + " " +
           amount(group.mean) + " on average, " + amount(group.share) + " points in all.";
  }

  /// What the other side does: "hits after 24/20 and not after 8/5 6/5".
  [[nodiscard]] std::string pair_text(const ReplyGroup& group) const {
    const auto text = [](ReplyKind kind) { return std::string(phrase(kind)); };
    if (group.first == group.second) return text(group.first) + " after either play";
    if (group.second == ReplyKind::calm)
      return text(group.first) + " after " + a_ + " and not after " + b_;
    if (group.first == ReplyKind::calm)
      return text(group.second) + " after " + b_ + " and not after " + a_;
    return text(group.first) + " after " + a_ + " and " + text(group.second) + " after " + b_;
  }

  const Considered& first_;
  const Considered& second_;
  const Valuation& valuation_;
  const std::string& other_;
  const std::string& mover_;
  std::array<int, 2> race_lead_;
  std::string a_;
  std::string b_;
};

std::string shots_text(const Shots& shots, const std::string& other) {
  if (shots.ways == 0) return other + " has no shot";
  std::string text = other + " can hit with " + std::to_string(shots.ways) + " of 36 rolls";
  std::vector<std::string> parts;
  for (const Shots::OnBlot& blot : shots.blots) {
    parts.push_back("the " + to_text(blot.blot) + " with " + std::to_string(blot.ways) +
                    (blot.direct ? "" : ", indirectly"));
  }
  // With a single blot its count is the count already given.
  if (shots.blots.size() == 1) {
    return text + (shots.blots.front().direct ? "" : ", indirectly");
  }
  return text + " (" + listed(parts) + ")";
}

}  // namespace

std::string_view phrase(ReplyKind kind) {
  switch (kind) {
    case ReplyKind::wins:
      return "bears off its last checker";
    case ReplyKind::hits:
      return "hits";
    case ReplyKind::stuck:
      return "cannot move";
    case ReplyKind::waits:
      return "leaves a checker on the bar";
    case ReplyKind::anchors:
      return "makes an anchor";
    case ReplyKind::closes:
      return "makes its 7 or a point at home";
    case ReplyKind::escapes:
      return "gets a checker away from the back";
    case ReplyKind::enters:
      return "comes in from the bar";
    case ReplyKind::quiet:
      return "moves quietly";
    case ReplyKind::calm:
      return "neither hits nor is held up";
  }
  return {};
}

Considered consider(const Evaluator& evaluator, const Board& before, Side side,
                    const LegalPlay& play, const Valuation& valuation) {
  const chance::NextRoll next(play.after, opponent(side));
  return {play, facts_of(before, side, play), shots(next), look(evaluator, next, valuation)};
}

std::string board_sentence(const Considered& play, Side side, const SideNames& names) {
  const PlayFacts& facts = play.facts;
  std::vector<std::string> does;
  if (!facts.hits.empty()) does.push_back("hits on the " + listed(facts.hits));
  if (!facts.made.empty()) does.push_back("makes the " + listed(facts.made));
  if (!facts.broken.empty()) does.push_back("gives up the " + listed(facts.broken));
  if (facts.escaped > 0) {
    does.push_back("takes " + text::counted(facts.escaped, "checker") + " away from the back");
  }
  if (facts.off > 0) does.push_back("bears off " + text::counted(facts.off, "checker"));
  if (facts.blots.empty()) {
    does.emplace_back("leaves no blot");
  } else {
    does.push_back(facts.blots.size() == 1 ? "leaves a blot on the " + listed(facts.blots)
                                           : "leaves blots on " + listed(facts.blots));
  }
  std::string text = to_text(play.play.play) + " " + listed(does);
  if (!facts.blots.empty()) text += "; " + shots_text(play.shots, names[opponent(side)]);
  return text + ".";
}

std::vector<Reason> reasons(const Considered& first, const Considered& second, Side side,
                            const Valuation& valuation, const SideNames& names) {
  const Comparison comparison(first, second, side, valuation, names);
  std::vector<Reason> result{comparison.difference()};
  for (Reason& reason : comparison.replies()) result.push_back(std::move(reason));
  for (Reason& reason : comparison.ends()) result.push_back(std::move(reason));
  for (const Considered* play : {&first, &second}) {
    result.push_back({Reason::Kind::board, board_sentence(*play, side, names), 0});
  }
  if (auto counts = comparison.counts()) result.push_back(std::move(*counts));
  return result;
}

}  // namespace pointwright::judge
