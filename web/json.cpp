#include "web/json.hpp"

#include <fmt/format.h>

namespace pointwright::web {

std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    const auto code = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (code < 0x20) {
      out += fmt::format("\\u{:04x}", code);
    } else {
      out += c;
    }
  }
  return out + '"';
}

Json& Json::set(std::string_view key, float value) {
  return put(key, fmt::format("{}", value));
}

Json& Json::put(std::string_view key, std::string_view value) {
  if (text_.size() > 1) text_ += ',';
  text_ += quoted(key);
  text_ += ':';
  text_ += value;
  return *this;
}

Json& Json::append(std::string_view value) {
  if (text_.size() > 1) text_ += ',';
  text_ += value;
  return *this;
}

}  // namespace pointwright::web
