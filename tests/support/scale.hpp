#pragma once

#include <algorithm>
#include <cstdlib>

/// How much work a test does. The slow builds (sanitizers) set POINTWRIGHT_TEST_SCALE to a per cent
/// of the ordinary amount; CMakePresets.json does so for their test presets.
namespace pointwright::testing_support {

/// `ordinary` things to try, or the part of them that this run asks for; at least one.
inline int scaled(int ordinary) {
  const char* const percent = std::getenv("POINTWRIGHT_TEST_SCALE");
  if (percent == nullptr) return ordinary;
  return std::max(1, static_cast<int>(ordinary * std::atof(percent) / 100.0));
}

}  // namespace pointwright::testing_support
