#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rules/fault.hpp"
#include "rules/text.hpp"

namespace pointwright::chance {

/// Reads statements joined with `and`, `or`, `not` and brackets into a tree, by recursive descent:
/// one function for each level of binding. What a single statement looks like, the heir says.
///
/// `Tree` has a `Form` with `either` and `both`, and the makers `combined(form, left, right)` and
/// `negated(tree)`.
template <class Tree>
class CombinationReader {
 public:
  virtual ~CombinationReader() = default;
  CombinationReader(const CombinationReader&) = delete;
  CombinationReader& operator=(const CombinationReader&) = delete;

 protected:
  explicit CombinationReader(TextSpan span) : span_(span) {}

  /// Reads one statement. Precondition: a word is left. Nothing after reporting a fault.
  virtual std::optional<Tree> read_statement() = 0;
  /// Reports that a statement is wanted where the text ends.
  virtual void report_missing() = 0;

  void fault(std::string_view id, TextSpan where, std::string reason, std::string fix) {
    faults_.push_back({id, where, std::move(reason), std::move(fix)});
  }

  [[nodiscard]] bool at_end() const { return at_ == tokens_.size(); }

  /// Passes over the next word if it is this one.
  bool accept(std::string_view word) {
    if (at_end() || !text::same_word(tokens_[at_].text, word)) return false;
    ++at_;
    return true;
  }

  /// Reads a whole combination: what binds least is `or`.
  std::optional<Tree> read_either() {
    if (++nesting_ > deepest_nesting) {
      fault("nested-too-deeply", span_, "the brackets are nested too deeply", "use fewer");
      return std::nullopt;
    }
    auto tree = read_both();
    while (tree && accept("or")) {
      auto right = read_both();
      if (!right) return right;
      tree = Tree::combined(Tree::Form::either, std::move(*tree), std::move(*right));
    }
    --nesting_;
    return tree;
  }

  std::vector<text::Word> tokens_;
  std::size_t at_ = 0;
  TextSpan span_;
  Faults faults_;

 private:
  static constexpr int deepest_nesting = 20;

  std::optional<Tree> read_both() {
    auto tree = read_negation();
    while (tree && accept("and")) {
      auto right = read_negation();
      if (!right) return right;
      tree = Tree::combined(Tree::Form::both, std::move(*tree), std::move(*right));
    }
    return tree;
  }

  std::optional<Tree> read_negation() {
    bool negated = false;
    while (accept("not")) negated = !negated;
    auto tree = read_simple();
    if (tree && negated) return Tree::negated(std::move(*tree));
    return tree;
  }

  std::optional<Tree> read_simple() {
    if (at_end()) {
      report_missing();
      return std::nullopt;
    }
    if (!accept("(")) return read_statement();
    auto tree = read_either();
    if (tree && !accept(")")) {
      fault("bracket-open", {span_.end, span_.end}, "a bracket is not closed", "add )");
      return std::nullopt;
    }
    return tree;
  }

  int nesting_ = 0;
};

}  // namespace pointwright::chance
