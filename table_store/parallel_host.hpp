#pragma once

#include <functional>

#include "chance/table_build.hpp"

namespace pointwright {

/// A host that splits work over `threads` threads, which live as long as it or a copy of it.
/// With one thread, or none, everything runs on the caller's.
BuildHost parallel_host(unsigned threads, std::function<bool(double done)> progress = {});

}  // namespace pointwright
