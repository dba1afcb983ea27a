#include "app/io.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <iostream>

namespace pointwright::app {
namespace {

std::string_view escape(Ink ink) {
  switch (ink) {
    case Ink::strong:
      return "\x1b[1m";
    case Ink::good:
      return "\x1b[1;32m";
    case Ink::bad:
      return "\x1b[1;31m";
    case Ink::quiet:
      return "\x1b[2m";
    case Ink::plain:
      break;
  }
  return {};
}

bool is_continuation(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

/// The value of an environment variable, empty when unset. Read once, before any thread starts.
std::string_view environment(const char* variable) {
  const char* value = std::getenv(variable);  // NOLINT(concurrency-mt-unsafe)
  return value == nullptr ? std::string_view{} : std::string_view{value};
}

int terminal_width(int descriptor) {
  constexpr int usual = 80;
  constexpr int narrowest = 40;
  constexpr int widest_to_read = 100;
  winsize size{};
  if (ioctl(descriptor, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return usual;
  return std::clamp<int>(size.ws_col, narrowest, widest_to_read);
}

}  // namespace

std::string painted(Ink ink, std::string_view text, bool colour) {
  if (!colour || ink == Ink::plain) return std::string{text};
  return std::string{escape(ink)}.append(text).append("\x1b[0m");
}

std::string harmless(std::string_view text) {
  std::string shown;
  shown.reserve(text.size());
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte == '\t') {
      shown += ' ';
    } else if (byte < 0x20U || byte == 0x7FU) {
      shown += '?';
    } else {
      shown += c;
    }
  }
  return shown;
}

int columns(std::string_view text) {
  return static_cast<int>(
      std::count_if(text.begin(), text.end(), [](char c) { return !is_continuation(c); }));
}

std::string wrapped(std::string_view text, int width, int indent) {
  const std::string margin(static_cast<std::size_t>(indent), ' ');
  std::string result;
  std::string line;
  const auto end_line = [&] {
    if (!line.empty()) result.append(margin).append(line).append("\n");
    line.clear();
  };
  std::size_t at = 0;
  while (at < text.size()) {
    if (text[at] == '\n') {
      end_line();
      // An empty line between paragraphs is kept.
      if (at + 1 < text.size() && text[at + 1] == '\n') result += '\n';
      ++at;
      continue;
    }
    if (text[at] == ' ') {
      ++at;
      continue;
    }
    const std::size_t stop = std::min(text.find_first_of(" \n", at), text.size());
    const std::string_view word = text.substr(at, stop - at);
    if (!line.empty() && indent + columns(line) + 1 + columns(word) > width) end_line();
    if (!line.empty()) line += ' ';
    line += word;
    at = stop;
  }
  end_line();
  return result;
}

Io process_io() {
  const bool plain = !environment("NO_COLOR").empty() || environment("TERM") == "dumb";
  Io io{.in = std::cin, .out = std::cout, .err = std::cerr};
  io.out_is_terminal = isatty(STDOUT_FILENO) == 1;
  io.colour_out = io.out_is_terminal && !plain;
  io.err_is_terminal = isatty(STDERR_FILENO) == 1;
  io.colour_err = io.err_is_terminal && !plain;
  io.width = terminal_width(io.err_is_terminal ? STDERR_FILENO : STDOUT_FILENO);
  return io;
}

}  // namespace pointwright::app
