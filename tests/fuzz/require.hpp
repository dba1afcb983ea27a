#pragma once

#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "rules/fault.hpp"

namespace pointwright::fuzz {

/// Stops the fuzzer, which then keeps the input, when something that must hold does not.
inline void require(bool holds, std::string_view what) {
  if (holds) return;
  std::fprintf(stderr, "does not hold: %.*s\n", static_cast<int>(what.size()), what.data());
  std::abort();
}

/// Faults are never empty, point into the text, and have a reason and a fix.
inline void require_good_faults(const Faults& faults, std::string_view text) {
  require(!faults.empty(), "a refused text has a fault");
  for (const Fault& fault : faults) {
    require(fault.where.begin <= fault.where.end && fault.where.end <= text.size(),
            "a fault points into the text");
    require(!fault.id.empty() && !fault.reason.empty() && !fault.fix.empty(),
            "a fault has a name, a reason and a fix");
  }
}

}  // namespace pointwright::fuzz
