#pragma once

#include <optional>
#include <vector>

#include "lesson/board.hpp"
#include "lesson/claim_reader.hpp"
#include "lesson/lesson.hpp"

/// Third phase for claims: what was read is proved or refuted.
namespace pointwright::lesson {

/// Checks the claims of one chapter and counts them.
class ClaimChecker {
 public:
  ClaimChecker(const SideNames& names, Tally& tally, const Help& help, Report& report)
      : names_(names), tally_(tally), help_(help), report_(report) {}

  /// Checks the claim written at `where` about `board`. Without a board the claim is read, so that
  /// its own faults show, and stays unchecked. `refuted_as` is the kind of diagnostic for a false
  /// one.
  std::optional<ProvedClaim> check(TextSpan where, const std::optional<Position>& board,
                                   const DiagnosticKind& refuted_as = kinds::false_claim);

  /// Checks each claim of a block.
  std::vector<ProvedClaim> check_block(const Fenced& block, const std::optional<Position>& board);

 private:
  std::optional<Position> position_for(TextSpan where, const std::optional<Position>& board,
                                       const std::optional<WithRoll>& with, const ClaimKind& kind);

  const SideNames& names_;
  Tally& tally_;
  Help help_;
  Report& report_;
};

}  // namespace pointwright::lesson
