#pragma once

#include <optional>
#include <vector>

#include "lesson/claim.hpp"
#include "lesson/report.hpp"

/// Second phase for claims: the text of a claim becomes a kind and its arguments.
namespace pointwright::lesson {

/// A claim whose words are understood.
struct ReadClaim {
  const ClaimKind* kind = nullptr;
  std::size_t form = 0;
  std::vector<Argument> arguments;
};

/// Finds the kind of the claim written at `where` and reads what stands in its blanks. Reports what
/// cannot be read and returns nothing then.
std::optional<ReadClaim> read_claim(TextSpan where, const SideNames& names, Report& report);

/// What stands before a claim: `with 6-6:` or `with dark 6-6:`.
struct WithRoll {
  std::optional<Side> side;
  Roll roll;
  TextSpan where;     ///< of the prefix, its colon included
  std::size_t claim;  ///< where the claim itself begins
};

/// Whether the claim at `where` begins with `with`.
bool has_with(TextSpan where, const SourceText& source);

/// Reads the prefix. Precondition: has_with(where). Reports what cannot be read.
std::optional<WithRoll> read_with(TextSpan where, Report& report);

/// A roll "6-4" as people write it, the dice in either order.
std::optional<Roll> roll_named(std::string_view word);

}  // namespace pointwright::lesson
