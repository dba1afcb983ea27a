#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "judge/valuation.hpp"
#include "lesson/claim.hpp"

/// Numbers that took long to find, kept in the host's memo from one compilation to the next.
namespace pointwright::lesson {

/// A key for a question about the ask's position: it says what is asked, how, and by which nets, so
/// that what an older program kept is never taken for new.
std::string memo_key(std::string_view what, const Ask& ask, const judge::Valuation& valuation);

/// `count` numbers from the memo if it has so many under that key; else computed and put there.
std::vector<double> remembered(const Ask& ask, const std::string& key, std::size_t count,
                               const std::function<std::vector<double>()>& compute);

}  // namespace pointwright::lesson
