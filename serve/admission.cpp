#include "serve/admission.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace pointwright::serve {
namespace {

constexpr std::array<std::string_view, 3> own_names{"127.0.0.1", "localhost", "[::1]"};
constexpr int http_port = 80;  // a browser leaves it out

std::string lower(std::string_view text) {
  std::string result(text);
  std::ranges::transform(result, result.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return result;
}

/// Whether a Host header is a name of this computer and this port.
bool is_own(std::string_view host, int port) {
  const std::string given = lower(host);
  return std::ranges::any_of(own_names, [&](std::string_view name) {
    return given == fmt::format("{}:{}", name, port) || (port == http_port && given == name);
  });
}

}  // namespace

std::optional<Refusal> refusal(const Asked& asked, int port) {
  if (asked.hosts.size() != 1 || !is_own(asked.hosts.front(), port)) {
    return Refusal{421, fmt::format("This is a preview for this computer alone. Open it as "
                                    "http://127.0.0.1:{}/.",
                                    port)};
  }
  constexpr std::string_view scheme = "http://";
  for (const std::string& origin : asked.origins) {
    if (!origin.starts_with(scheme) || !is_own(origin.substr(scheme.size()), port))
      return Refusal{403, "Pages from elsewhere get no answer."};
  }
  if (asked.method != "GET" && asked.method != "HEAD")
    return Refusal{405, "Things can be read here, not changed."};
  return std::nullopt;
}

std::optional<std::vector<std::string>> names_along(std::string_view path) {
  if (!path.starts_with('/')) return std::nullopt;
  std::vector<std::string> names;
  while (!path.empty()) {
    path.remove_prefix(1);
    const std::string_view name = path.substr(0, path.find('/'));
    const bool plain = std::ranges::all_of(name, [](char c) {
      constexpr unsigned char space = 0x20;
      constexpr unsigned char rub_out = 0x7F;
      const auto code = static_cast<unsigned char>(c);
      return code >= space && code != rub_out && c != '\\';
    });
    if (name.empty() || name.front() == '.' || !plain) return std::nullopt;
    names.emplace_back(name);
    path.remove_prefix(name.size());
  }
  return names;
}

}  // namespace pointwright::serve
