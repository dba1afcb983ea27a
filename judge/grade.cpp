#include "judge/grade.hpp"

#include <array>

namespace pointwright::judge {

std::span<const Grade> grades() {
  static constexpr std::array<Grade, 5> all{
      {{"level", 0}, {"a shade", 0.01}, {"a slip", 0.03}, {"a stumble", 0.08}, {"a fall", 0.16}}};
  return all;
}

const Grade& grade_of(double cost) {
  const Grade* result = &grades().front();
  for (const Grade& grade : grades()) {
    if (cost >= grade.from) result = &grade;
  }
  return *result;
}

}  // namespace pointwright::judge
