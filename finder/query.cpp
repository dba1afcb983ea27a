#include "finder/query.hpp"

#include <algorithm>
#include <numeric>

namespace pointwright::finder {
namespace {

int distance_of(const Predicate& predicate, Facts& facts) {
  facts.spend(predicate.kind->cost);
  return predicate.kind->distance(facts, predicate);
}

}  // namespace

Query Query::simple(Predicate predicate) {
  Query query;
  query.predicate_ = std::move(predicate);
  query.cost_ = query.predicate_.kind->cost;
  return query;
}

Query Query::combined(Form form, Query left, Query right) {
  Query query;
  query.form_ = form;
  // `a and b and c` is one list, whichever way it was read.
  for (Query* part : {&left, &right}) {
    if (part->form_ == form)
      std::move(part->parts_.begin(), part->parts_.end(), std::back_inserter(query.parts_));
    else
      query.parts_.push_back(std::move(*part));
  }
  query.settle();
  return query;
}

Query Query::negated(Query inner) {
  if (inner.form_ == Form::negation) return std::move(inner.parts_.front());
  Query query;
  query.form_ = Form::negation;
  query.parts_.push_back(std::move(inner));
  query.settle();
  return query;
}

void Query::settle() {
  cheap_first_.resize(parts_.size());
  std::iota(cheap_first_.begin(), cheap_first_.end(), std::size_t{0});
  std::stable_sort(cheap_first_.begin(), cheap_first_.end(),
                   [&](std::size_t a, std::size_t b) { return parts_[a].cost_ < parts_[b].cost_; });
  cost_ = 0;
  for (const Query& part : parts_) cost_ += part.cost_;
}

Truth Query::truth(Facts& facts) const {
  switch (form_) {
    case Form::simple: {
      const std::uint8_t needed = needs(predicate_, facts.side());
      facts.spend(1);
      if (facts.knows(needed)) return truth_of(distance_of(predicate_, facts) == 0);
      return predicate_.kind->early ? predicate_.kind->early(facts, predicate_) : Truth::unknown;
    }
    case Form::negation:
      return opposite(parts_.front().truth(facts));
    case Form::both:
    case Form::either: {
      const Truth decisive = form_ == Form::both ? Truth::no : Truth::yes;
      Truth result = opposite(decisive);
      for (const std::size_t i : cheap_first_) {
        const Truth part = parts_[i].truth(facts);
        if (part == decisive) return decisive;
        if (part == Truth::unknown) result = Truth::unknown;
      }
      return result;
    }
  }
  return Truth::unknown;
}

int Query::distance(Facts& facts, int limit) const {
  switch (form_) {
    case Form::simple:
      return distance_of(predicate_, facts);
    case Form::negation:
      return parts_.front().untrue_distance(facts, limit);
    case Form::both: {
      int sum = 0;
      for (const std::size_t i : cheap_first_) {
        sum += parts_[i].distance(facts, limit - sum);
        if (sum > limit) break;
      }
      return sum;
    }
    case Form::either: {
      int least = boundless;
      for (const std::size_t i : cheap_first_) {
        least = std::min(least, parts_[i].distance(facts, std::min(limit, least)));
        if (least == 0) break;
      }
      return least;
    }
  }
  return boundless;
}

int Query::untrue_distance(Facts& facts, int limit) const {
  switch (form_) {
    case Form::simple:
      return distance_of(predicate_, facts) == 0 ? 1 : 0;
    case Form::negation:
      return parts_.front().distance(facts, limit);
    case Form::either: {
      int sum = 0;
      for (const std::size_t i : cheap_first_) {
        sum += parts_[i].untrue_distance(facts, limit - sum);
        if (sum > limit) break;
      }
      return sum;
    }
    case Form::both: {
      int least = boundless;
      for (const std::size_t i : cheap_first_) {
        least = std::min(least, parts_[i].untrue_distance(facts, std::min(limit, least)));
        if (least == 0) break;
      }
      return least;
    }
  }
  return boundless;
}

bool Query::needs_roll() const {
  if (form_ != Form::simple) {
    return std::any_of(parts_.begin(), parts_.end(),
                       [](const Query& part) { return part.needs_roll(); });
  }
  return predicate_.kind->subject >= PredicateKind::Subject::roll;
}

std::vector<Statement> Query::proof(Facts& facts) const {
  std::vector<Statement> proof;
  add_proof(facts, true, proof);
  return proof;
}

void Query::add_proof(Facts& facts, bool wanted, std::vector<Statement>& proof) const {
  switch (form_) {
    case Form::simple: {
      Statement statement = predicate_.kind->state(facts, predicate_);
      const bool said = std::any_of(proof.begin(), proof.end(), [&](const Statement& other) {
        return other.sentence == statement.sentence;
      });
      if (!said) proof.push_back(std::move(statement));
      return;
    }
    case Form::negation:
      return parts_.front().add_proof(facts, !wanted, proof);
    case Form::both:
    case Form::either: {
      const bool all = (form_ == Form::both) == wanted;
      for (const Query& part : parts_) {
        if (truth_of(wanted) != part.truth(facts)) continue;
        part.add_proof(facts, wanted, proof);
        if (!all) return;
      }
    }
  }
}

std::vector<const Predicate*> Query::predicates() const {
  if (form_ == Form::simple) return {&predicate_};
  std::vector<const Predicate*> all;
  for (const Query& part : parts_) {
    const auto inner = part.predicates();
    all.insert(all.end(), inner.begin(), inner.end());
  }
  return all;
}

namespace {

int tightness(Query::Form form) {
  switch (form) {
    case Query::Form::either:
      return 0;
    case Query::Form::both:
      return 1;
    case Query::Form::negation:
      return 2;
    case Query::Form::simple:
      break;
  }
  return 3;
}

std::string inner_text(const Query& query, int least) {
  const std::string text = to_text(query);
  return tightness(query.form()) < least ? "(" + text + ")" : text;
}

}  // namespace

std::string to_text(const Query& query) {
  if (query.form() == Query::Form::simple) return to_text(query.predicate());
  if (query.form() == Query::Form::negation) return "not " + inner_text(query.parts().front(), 2);
  const bool both = query.form() == Query::Form::both;
  std::string text;
  for (const Query& part : query.parts()) {
    if (!text.empty()) text += both ? " and " : " or ";
    text += inner_text(part, both ? 2 : 1);
  }
  return text;
}

}  // namespace pointwright::finder
