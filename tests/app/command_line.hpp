#pragma once

#include <sstream>
#include <string>
#include <vector>

#include "app/json.hpp"
#include "app/program.hpp"

namespace pointwright::app {

/// What came of a command line.
struct Outcome {
  int exit = 0;
  std::string out;
  std::string err;

  [[nodiscard]] Json json() const { return Json::parse(out); }
  /// One object for each line of `out`.
  [[nodiscard]] std::vector<Json> lines() const {
    std::vector<Json> result;
    std::istringstream text(out);
    for (std::string line; std::getline(text, line);) result.push_back(Json::parse(line));
    return result;
  }
};

/// Runs a command line in this process, with that standard input.
inline Outcome command(const std::vector<std::string>& arguments, const std::string& input = {}) {
  std::istringstream in(input);
  std::ostringstream out;
  std::ostringstream err;
  Io io{.in = in, .out = out, .err = err};
  const int exit = Program{}.run(arguments, io);
  return {.exit = exit, .out = out.str(), .err = err.str()};
}

}  // namespace pointwright::app
