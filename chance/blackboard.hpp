#pragma once

#include <cmath>
#include <string>

/// Numbers as they are written on a blackboard. Differences are taken of what is written, so that a
/// reader who checks a sum finds it right.
namespace pointwright::chance {

/// A chance in tenths of a per cent.
inline long tenths(double chance) {
  return std::lround(chance * 1000);
}

/// "30.3%", of tenths of a per cent.
inline std::string percent_of_tenths(long tenths) {
  return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + "%";
}

/// A chance of 0 to 1 as "30.3%".
inline std::string percent_text(double chance) {
  return percent_of_tenths(tenths(chance));
}

/// Points in hundredths.
inline long hundredths(double points) {
  return std::lround(points * 100);
}

/// "1.25", of hundredths. Precondition: not negative.
inline std::string points_of_hundredths(long hundredths) {
  const std::string rest = std::to_string(hundredths % 100);
  return std::to_string(hundredths / 100) + (rest.size() < 2 ? ".0" : ".") + rest;
}

}  // namespace pointwright::chance
