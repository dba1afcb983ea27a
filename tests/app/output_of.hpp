#pragma once

#include <cstdio>
#include <string>

namespace pointwright::app {

/// What another program prints, with what it complains of.
inline std::string output_of(const std::string& command) {
  std::string out;
  std::FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) return out;
  char buffer[4096];
  while (const std::size_t got = std::fread(buffer, 1, sizeof buffer, pipe))
    out.append(buffer, got);
  pclose(pipe);
  return out;
}

}  // namespace pointwright::app
