#pragma once

#include <cstdint>
#include <string>
#include <string_view>

/// JSON text, written piece by piece. There is no reader: the browser's requests are plain lines.
namespace pointwright::web {

/// A text in quotation marks, with what JSON wants escaped.
std::string quoted(std::string_view text);

/// An object or a list that grows.
class Json {
 public:
  static Json object() { return {'{', '}'}; }
  static Json list() { return {'[', ']'}; }

  // Into an object.
  Json& set(std::string_view key, std::string_view text) { return put(key, quoted(text)); }
  Json& set(std::string_view key, const std::string& text) { return put(key, quoted(text)); }
  Json& set(std::string_view key, const char* text) { return put(key, quoted(text)); }
  Json& set(std::string_view key, bool value) { return put(key, value ? "true" : "false"); }
  Json& set(std::string_view key, int value) { return put(key, std::to_string(value)); }
  Json& set(std::string_view key, std::uint64_t value) { return put(key, std::to_string(value)); }
  /// The shortest text that reads back as the same number.
  Json& set(std::string_view key, float value);
  Json& set(std::string_view key, const Json& value) { return put(key, value.text()); }

  // Into a list.
  Json& add(const std::string& text) { return append(quoted(text)); }
  Json& add(int value) { return append(std::to_string(value)); }
  Json& add(const Json& value) { return append(value.text()); }

  [[nodiscard]] std::string text() const { return text_ + close_; }

 private:
  Json(char open, char close) : text_(1, open), close_(close) {}
  Json& put(std::string_view key, std::string_view value);
  Json& append(std::string_view value);

  std::string text_;
  char close_;
};

}  // namespace pointwright::web
