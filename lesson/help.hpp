#pragma once

#include "chance/table_build.hpp"
#include "judge/search.hpp"
#include "lesson/memo.hpp"

namespace pointwright::lesson {

/// What a host lends to the checking of claims, so that it takes less time. Answers do not depend
/// on it, and each of them may be null.
struct Help {
  Memo* memo = nullptr;                ///< what was found out in earlier compilations
  judge::Search* search = nullptr;     ///< by the shipped nets, perhaps on several threads
  const BuildHost* workers = nullptr;  ///< shares out the trials of rollouts
};

}  // namespace pointwright::lesson
