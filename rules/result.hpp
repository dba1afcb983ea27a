#pragma once

#include <utility>
#include <variant>

namespace pointwright {

/// Holds either a value or the reason why there is none. Stands in for std::expected, which
/// C++20 lacks; like it, it never throws by itself, so it can cross into WebAssembly.
template <class Value, class Error>
class Result {
 public:
  Result(Value value)
      : state_(std::in_place_index<0>, std::move(value)) {}  // NOLINT(google-explicit-constructor)
  Result(Error error)
      : state_(std::in_place_index<1>, std::move(error)) {}  // NOLINT(google-explicit-constructor)

  [[nodiscard]] bool ok() const { return state_.index() == 0; }
  explicit operator bool() const { return ok(); }

  /// The value. Precondition: ok().
  [[nodiscard]] const Value& value() const { return *std::get_if<0>(&state_); }
  [[nodiscard]] Value& value() { return *std::get_if<0>(&state_); }
  const Value& operator*() const { return value(); }
  const Value* operator->() const { return &value(); }

  /// The reason. Precondition: !ok().
  [[nodiscard]] const Error& error() const { return *std::get_if<1>(&state_); }

 private:
  std::variant<Value, Error> state_;
};

}  // namespace pointwright
