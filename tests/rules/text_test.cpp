#include "rules/text.hpp"

#include <gtest/gtest.h>

namespace pointwright::text {
namespace {

TEST(Number, StopsAtItsLimit) {
  for (std::uint64_t limit = 0; limit <= 120; ++limit) {
    for (std::uint64_t n = 0; n <= 1200; ++n) {
      const auto read = number(std::to_string(n), limit);
      ASSERT_EQ(read.has_value(), n <= limit) << n << " with limit " << limit;
      if (read) ASSERT_EQ(*read, n);
    }
  }
  EXPECT_FALSE(number("", 10));
  EXPECT_FALSE(number("-1", 10));
  EXPECT_FALSE(number("18446744073709551617", UINT64_MAX));
  EXPECT_EQ(number("18446744073709551615", UINT64_MAX), UINT64_MAX);
}

}  // namespace
}  // namespace pointwright::text
