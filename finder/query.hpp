#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "finder/predicate.hpp"
#include "rules/result.hpp"

namespace pointwright::finder {

/// A condition on a position, a roll and its plays: predicates joined with and, or, not.
class Query {
 public:
  enum class Form : std::uint8_t { simple, both, either, negation };

  static Query simple(Predicate predicate);
  static Query combined(Form form, Query left, Query right);
  static Query negated(Query inner);

  [[nodiscard]] Form form() const { return form_; }
  [[nodiscard]] const Predicate& predicate() const { return predicate_; }
  [[nodiscard]] const std::vector<Query>& parts() const { return parts_; }

  /// Whether it holds, as far as the parts of the position that are known say.
  [[nodiscard]] Truth truth(Facts& facts) const;

  /// How far the position is from making it true: 0 exactly when it holds. Beyond `limit` it need
  /// not be exact, only larger. Precondition: everything is known.
  [[nodiscard]] int distance(Facts& facts, int limit = boundless) const;

  /// Whether it speaks of a roll that has been thrown.
  [[nodiscard]] bool needs_roll() const;

  /// What makes it true of this position: the statements of the predicates that count, in the
  /// order of the query. Precondition: it holds.
  [[nodiscard]] std::vector<Statement> proof(Facts& facts) const;

  /// Every predicate in it, in order.
  [[nodiscard]] std::vector<const Predicate*> predicates() const;

 private:
  [[nodiscard]] int untrue_distance(Facts& facts, int limit) const;
  void add_proof(Facts& facts, bool wanted, std::vector<Statement>& proof) const;
  void settle();

  Form form_ = Form::simple;
  Predicate predicate_;
  std::vector<Query> parts_;
  std::vector<std::size_t> cheap_first_;  ///< indices of parts_
  int cost_ = 0;
};

/// Reads a query: docs/queries.md. `span` is where to read in `text`; faults point into `text`.
Result<Query, Faults> read_query(std::string_view text, TextSpan span);
Result<Query, Faults> read_query(std::string_view text);

/// Canonical text: what `read_query` reads.
std::string to_text(const Query& query);

}  // namespace pointwright::finder
