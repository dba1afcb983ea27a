#include "lesson/claim_check.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "lesson/claim.hpp"
#include "lesson/claim_reader.hpp"
#include "rules/text.hpp"

namespace pointwright::lesson {
namespace {

/// A line of claims without its comment.
TextSpan without_comment(const SourceText& source, TextSpan line) {
  const std::size_t hash = source.text(line).find('#');
  if (hash != std::string_view::npos) line.end = line.begin + hash;
  return trimmed(source, line);
}

}  // namespace

/// The position that the claim is about, or nothing after reporting what it lacks.
std::optional<Position> ClaimChecker::position_for(TextSpan where,
                                                   const std::optional<Position>& board,
                                                   const std::optional<WithRoll>& with,
                                                   const ClaimKind& kind) {
  Position position = *board;
  const auto needs = [&](std::string message, std::string hint) {
    report_.add(kinds::claim_needs, where, std::move(message)).hints.push_back(std::move(hint));
    return std::nullopt;
  };
  if (with) {
    if (has_won(position.board, Side::light) || has_won(position.board, Side::dark))
      return needs("the game is over on this board, so nobody rolls", "choose another board");
    if (with->side) position.turn = with->side;
    if (!position.turn) {
      return needs("the board does not say whose roll this is",
                   fmt::format("write it like: with light {}: ...", to_text(with->roll)));
    }
    position.roll = with->roll;
  }
  if (kind.needs != ClaimKind::Needs::board && !position.turn) {
    return needs("the board does not say whose turn it is",
                 "end its position line with: light to roll, or begin the claim like: with light "
                 "6-4: ...");
  }
  if (kind.needs == ClaimKind::Needs::roll && !position.roll) {
    return needs("the claim is about a roll, and the board has none",
                 fmt::format("end its position line with: {} to play 6-4, or begin the claim like: "
                             "with 6-4: ...",
                             name(*position.turn)));
  }
  return position;
}

std::optional<ProvedClaim> ClaimChecker::check(TextSpan where, const std::optional<Position>& board,
                                               const DiagnosticKind& refuted_as) {
  const SourceText& source = report_.source();
  ++tally_.written;
  std::optional<WithRoll> with;
  TextSpan own = where;
  if (has_with(where, source)) {
    with = read_with(where, report_);
    if (!with) return std::nullopt;
    own = trimmed(source, {with->claim, where.end});
  }
  auto claim = read_claim(own, names_, report_);
  if (!claim || !board) return std::nullopt;
  const auto position = position_for(where, board, with, *claim->kind);
  if (!position) return std::nullopt;

  const std::vector<Argument> arguments = claim->arguments;
  const Answer answer =
      claim->kind->check(Ask(*position, names_, claim->form, std::move(claim->arguments), help_));
  if (const auto* proved = std::get_if<Proved>(&answer)) {
    ++tally_.proved;
    return ProvedClaim{std::string(claim->kind->name),
                       std::string(source.text(where)),
                       proved->statement,
                       proved->proof,
                       proved->known,
                       source_at(source, where)};
  }
  if (const auto* refuted = std::get_if<Refuted>(&answer)) {
    ++tally_.refuted;
    TextSpan wrong = own;
    for (const Argument& argument : arguments) {
      if (argument.blank == refuted->wrong) wrong = argument.where;
    }
    Diagnostic& diagnostic = report_.add(
        refuted_as, wrong, fmt::format("{} is false", text::quoted(source.text(where))));
    diagnostic.detail = claim->kind->name;
    diagnostic.truth = refuted->truth;
    diagnostic.proof = refuted->proof;
    if (!refuted->correction.empty()) diagnostic.fix = Fix{own, refuted->correction};
    return std::nullopt;
  }
  if (const auto* unsettled = std::get_if<Unsettled>(&answer)) {
    Diagnostic& diagnostic = report_.add(kinds::not_settled, own, unsettled->reason);
    diagnostic.detail = claim->kind->name;
    diagnostic.hints.push_back(unsettled->hint);
    return std::nullopt;
  }
  const auto& unanswerable = *std::get_if<Unanswerable>(&answer);
  Diagnostic& diagnostic = report_.add(kinds::claim_needs, own, unanswerable.reason);
  if (!unanswerable.hint.empty()) diagnostic.hints.push_back(unanswerable.hint);
  return std::nullopt;
}

std::vector<ProvedClaim> ClaimChecker::check_block(const Fenced& block,
                                                   const std::optional<Position>& board) {
  std::vector<ProvedClaim> proved;
  for (const TextSpan line : block.lines) {
    const TextSpan claim = without_comment(report_.source(), line);
    if (claim.begin == claim.end) continue;
    if (auto result = check(claim, board)) proved.push_back(std::move(*result));
  }
  return proved;
}

}  // namespace pointwright::lesson
