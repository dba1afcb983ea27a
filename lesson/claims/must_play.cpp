#include <fmt/format.h>

#include <array>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

// Three kinds that ask the same question, how much of the roll must be played.
constexpr std::array<std::string_view, 1> both_forms{"must use both"};
constexpr std::array<std::string_view, 1> one_forms{"must play D"};
constexpr std::array<std::string_view, 1> double_forms{"must play N of 4"};

/// The claim that is true of an obligation, as an author would write it.
std::string claim_of(const Obligation& duty) {
  switch (duty.kind) {
    case Obligation::Kind::none:
      return "no play";
    case Obligation::Kind::one_die:
      return fmt::format("must play {}", duty.die);
    case Obligation::Kind::both_dice:
      return "must use both";
    case Obligation::Kind::of_double:
      return fmt::format("must play {} of 4", duty.moves);
  }
  return {};
}

std::string sentence_of(const Ask& ask, const Obligation& duty) {
  const std::string who = Name(ask, ask.side());
  const std::string roll = to_text(ask.roll());
  switch (duty.kind) {
    case Obligation::Kind::none:
      return fmt::format("{} has no legal move with {}.", who, roll);
    case Obligation::Kind::one_die:
      return fmt::format("With {} {} can play only one die, and must play the {}.", roll,
                         ask.names()[ask.side()], duty.die);
    case Obligation::Kind::both_dice:
      return fmt::format("{} can play both dice of {}, so both must be played.", who, roll);
    case Obligation::Kind::of_double:
      return fmt::format("With {} {} must make {} of the four moves.", roll,
                         ask.names()[ask.side()], duty.moves);
  }
  return {};
}

Answer answer(const Ask& ask, bool (*agrees)(const Ask&, const Obligation&),
              std::string_view wrong) {
  const Obligation duty = obligation(ask.position().board, ask.side(), ask.roll());
  const std::string proof = explain_obligation(ask.position(), ask.names());
  if (agrees(ask, duty)) return Proved{sentence_of(ask, duty), proof};
  return Refuted{sentence_of(ask, duty), proof, wrong, claim_of(duty)};
}

Answer check_both(const Ask& ask) {
  return answer(
      ask,
      [](const Ask&, const Obligation& duty) { return duty.kind == Obligation::Kind::both_dice; },
      "");
}

Answer check_one(const Ask& ask) {
  return answer(
      ask,
      [](const Ask& a, const Obligation& duty) {
        return duty.kind == Obligation::Kind::one_die && duty.die == a.number("D");
      },
      "D");
}

Answer check_double(const Ask& ask) {
  return answer(
      ask,
      [](const Ask& a, const Obligation& duty) {
        return duty.kind == Obligation::Kind::of_double && duty.moves == a.number("N");
      },
      "N");
}

}  // namespace

const ClaimKind must_use_both_claim{
    .name = "must-use-both",
    .forms = both_forms,
    .says = "Both dice can be used, so both must be. Not for doubles.",
    .needs = ClaimKind::Needs::roll,
    .example_board = "start; light to play 6-1",
    .example = "must use both",
    .counterexample = "with 6-6: must use both",
    .check = check_both,
};

const ClaimKind must_play_claim{
    .name = "must-play",
    .forms = one_forms,
    .says = "Only one of the two dice can be played, and it must be this one.",
    .needs = ClaimKind::Needs::roll,
    .example_board = "light 13x1; dark 23x2 6x2; light to play 6-5",
    .example = "must play 6",
    .counterexample = "must play 5",
    .check = check_one,
};

const ClaimKind must_play_of_four_claim{
    .name = "must-play-of-four",
    .forms = double_forms,
    .says = "Of the four moves of a double, so many can be made and so must be.",
    .needs = ClaimKind::Needs::roll,
    .example_board = "start; light to play 6-6",
    .example = "must play 4 of 4",
    .counterexample = "must play 3 of 4",
    .check = check_double,
};

}  // namespace pointwright::lesson
