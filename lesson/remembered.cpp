#include "lesson/remembered.hpp"

#include <fmt/format.h>

#include <optional>
#include <sstream>

#include "judge/search.hpp"
#include "judge/shipped.hpp"

namespace pointwright::lesson {
namespace {

/// The nets and the way of searching.
const std::string& version() {
  static const std::string text = [] {
    const judge::SearchOptions usual;
    return fmt::format("2 {:016x} {} {} {} {} {}", judge::shipped_nets_hash(), usual.first.most,
                       usual.first.within, usual.second.most, usual.second.within,
                       usual.reply.most);
  }();
  return text;
}

std::optional<std::vector<double>> found(Memo& memo, const std::string& key, std::size_t count) {
  const auto line = memo.find(key);
  if (!line) return std::nullopt;
  std::istringstream text(*line);
  text.imbue(std::locale::classic());
  std::vector<double> numbers;
  for (double number = 0; text >> number;) numbers.push_back(number);
  if (numbers.size() != count || !text.eof()) return std::nullopt;
  return numbers;
}

}  // namespace

std::string memo_key(std::string_view what, const Ask& ask, const judge::Valuation& v) {
  return fmt::format("{} | {} {} {} {} {} {} {} | {}", version(), what, v.base, v.win, v.win_gammon,
                     v.win_backgammon, v.lose_gammon, v.lose_backgammon, to_text(ask.position()));
}

std::vector<double> remembered(const Ask& ask, const std::string& key, std::size_t count,
                               const std::function<std::vector<double>()>& compute) {
  Memo* memo = ask.help().memo;
  if (memo != nullptr) {
    if (auto known = found(*memo, key, count)) return *known;
  }
  std::vector<double> numbers = compute();
  if (memo != nullptr) memo->keep(key, fmt::format("{:.9g}", fmt::join(numbers, " ")));
  return numbers;
}

}  // namespace pointwright::lesson
