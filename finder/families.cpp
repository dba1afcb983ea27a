#include "finder/families.hpp"

#include <algorithm>

namespace pointwright::finder {
namespace {

/// n over k, small numbers.
std::int64_t choose(int n, int k) {
  std::int64_t result = 1;
  for (int i = 1; i <= k; ++i) result = result * (n - k + i) / i;
  return result;
}

/// Calls `with(camp)` for every way to put `checkers` on the places from `from` down to 1; stops
/// when it returns false. `free` says which places may be used.
template <class Free, class With>
bool each_camp(Camp& camp, int checkers, int from, const Free& free, const With& with) {
  if (checkers == 0) return with();
  for (int place = from; place >= 1; --place) {
    if (!free(place)) continue;
    ++camp[static_cast<std::size_t>(place)];
    const bool on = each_camp(camp, checkers - 1, place, free, with);
    --camp[static_cast<std::size_t>(place)];
    if (!on) return false;
  }
  return true;
}

/// The checkers that a side may have by one predicate, or any number.
Range in_play_by(const Predicate& p) {
  const std::string_view kind = p.kind->name;
  if (kind == "checkers") return p.range;
  if (kind == "off") return {checkers_per_side - p.range.most, checkers_per_side - p.range.least};
  if (kind == "pips") return {(p.range.least + bar_place - 1) / bar_place, p.range.most};
  if (kind == "on" || kind == "bar") {
    if (p.place == off_place)
      return {checkers_per_side - p.range.most, checkers_per_side - p.range.least};
    return {p.range.least, boundless};
  }
  if (kind == "blots" || kind == "stack") return {p.range.least, boundless};
  if (kind == "points" || kind == "home points" || kind == "prime")
    return {2 * p.range.least, boundless};
  return {-boundless, boundless};
}

}  // namespace

std::int64_t boards_in(Family family) {
  // Light on j different points, dark on the 24 - j others and the bar.
  std::int64_t boards = 0;
  for (int on_points = 0; on_points <= family.light; ++on_points) {
    for (int points = on_points == 0 ? 0 : 1; points <= on_points; ++points) {
      const std::int64_t ways =
          on_points == 0 ? 1 : choose(24, points) * choose(on_points - 1, points - 1);
      boards += ways * choose(24 - points + family.dark, family.dark);
    }
  }
  return boards;
}

Bounds bounds_of(const Query& query, Side mover) {
  Bounds bounds;
  const auto narrow = [&](const Query& part) {
    if (part.form() != Query::Form::simple) return;
    const Predicate& p = part.predicate();
    Range& range = bounds.in_play[index(p.side.value_or(mover))];
    const Range by = in_play_by(p);
    range.least = std::max(range.least, by.least);
    range.most = std::min(range.most, by.most);
  };
  if (query.form() == Query::Form::both) {
    for (const Query& part : query.parts()) narrow(part);
  } else {
    narrow(query);
  }
  return bounds;
}

std::vector<Family> families_of_size(int size, const Bounds& bounds) {
  std::vector<Family> families;
  const auto inside = [&](Side side, int n) { return bounds.in_play[index(side)].gap(n) == 0; };
  for (int light = 1; light < size; ++light) {
    if (inside(Side::light, light) && inside(Side::dark, size - light))
      families.push_back({light, size - light});
  }
  return families;
}

bool each_in_family(const Wanted& wanted, Family family, Facts& facts, const Take& take,
                    const std::function<bool()>& stop) {
  if (family.light > checkers_per_side || family.dark > checkers_per_side) return true;
  const auto rolls = open_rolls(wanted);
  if (rolls.empty()) return true;
  Board board;
  board.camps[0][off_place] = static_cast<std::uint8_t>(checkers_per_side - family.light);
  board.camps[1][off_place] = static_cast<std::uint8_t>(checkers_per_side - family.dark);
  const auto ruled_out = [&](std::uint8_t known) {
    facts.look_at(board, rolls.front(), known);
    return wanted.query.truth(facts) == Truth::no;
  };
  unsigned boards = 0;
  const auto look = [&] {
    if (stop && (++boards & 255U) == 0 && stop()) return false;
    if (ruled_out(knows_board)) return true;
    for (const auto& roll : rolls) {
      facts.look_at(board, roll);
      if (wanted.query.truth(facts) == Truth::yes) return take({board, roll});
    }
    return true;
  };
  const auto anywhere = [](int) { return true; };
  return each_camp(board.camps[0], family.light, bar_place, anywhere, [&] {
    if (ruled_out(knows_light)) return true;
    const auto open = [&](int place) {
      return place == bar_place || board.camps[0][static_cast<std::size_t>(25 - place)] == 0;
    };
    return each_camp(board.camps[1], family.dark, bar_place, open, look);
  });
}

}  // namespace pointwright::finder
