#include <fmt/format.h>

#include <numeric>

#include "film/filming_order.hpp"
#include "film/shot_list.hpp"
#include "press/prose.hpp"
#include "press/script.hpp"
#include "studio/svg.hpp"
#include "studio/wording.hpp"

namespace pointwright::press {

namespace {

constexpr double stage_board_share = 0.46;  // three sheets to a page

/// How a board is seen from a seat. From across the table the other side sits at the bottom and the
/// home boards are on the other hand; a mirror exchanges the hands alone.
View seen_from(View view, const StageOptions& options) {
  if (options.seat == Seat::opposite) {
    view.bottom = opponent(view.bottom);
    view.home_on_left = !view.home_on_left;
  }
  if (options.mirrored) {
    view.home_on_left = !view.home_on_left;
  }
  return view;
}

struct Plan {
  std::vector<std::size_t> order;
  long script_touched = 0;
  film::FilmingOrder best;
};

Plan plan_of(const std::vector<film::Shot>& shots, const StageOptions& options) {
  const film::TransferCosts costs = film::transfer_costs(shots);
  Plan plan;
  plan.order.resize(shots.size());
  std::iota(plan.order.begin(), plan.order.end(), std::size_t{0});
  plan.script_touched = film::touched_in(costs, plan.order);
  plan.best = film::filming_order(costs);
  if (options.best_order) {
    plan.order = plan.best.order;
  }
  return plan;
}

film::Change change_to(const std::vector<film::Shot>& shots, const Plan& plan, std::size_t at) {
  const film::Shot& shot = shots[plan.order[at]];
  return at == 0 ? film::first_set_up(shot) : film::change_between(shots[plan.order[at - 1]], shot);
}

/// Dice and cube, which are laid down last.
std::string beside_checkers(const film::Shot& shot) {
  const Position& position = shot.start;
  const SideNames& names = shot.chapter->names;
  std::string text;
  if (position.turn && position.roll) {
    text += fmt::format("{}'s dice: {}.", names[*position.turn], to_text(*position.roll));
  } else {
    text += "No dice on the board.";
  }
  if (position.house.cube) {
    text += position.cube.holder ? fmt::format(" Cube: {}, with {}.", position.cube.value,
                                               names[*position.cube.holder])
                                 : fmt::format(" Cube: {}, in the middle.", position.cube.value);
  }
  return text;
}

std::string counted(int n) {
  return n == 1 ? "1 checker" : fmt::format("{} checkers", n);
}

std::string order_words(const Plan& plan, const StageOptions& options) {
  const film::FilmingOrder& best = plan.best;
  const std::string in_best =
      best.is_best() ? fmt::format("{}, which is the fewest that any order needs", best.touched)
                     : fmt::format("{}; no order needs fewer than {}", best.touched, best.at_least);
  return options.best_order
             ? fmt::format(
                   "These sheets are in the best order found: {} checkers are touched "
                   "from shot to shot. In the order of the script it would be {}.",
                   in_best, plan.script_touched)
             : fmt::format(
                   "These sheets are in the order of the script: {} checkers are touched "
                   "from shot to shot. In the best order found it would be {}.",
                   plan.script_touched, in_best);
}

void set_sheet(Document& document, const film::Shot& shot, const film::Change& change,
               const film::Shot* before, const StageOptions& options) {
  BoardPicture picture;
  picture.view = seen_from(shot.opening.view, options);
  picture.names = shot.chapter->names;
  document.begin_beside(board_frame(shot.start, picture), picture.view, picture.margins,
                        document.column_width() * stage_board_share);
  document.text(fmt::format("Shot {}", shot.number),
                {.size = 8, .tint = Tint::pointer, .after = 1, .tag = "H3"});
  document.text(escaped(shot.title()), {.size = 10, .bold = true, .after = 4});
  const std::string from =
      before == nullptr ? "From the empty board" : fmt::format("From shot {}", before->number);
  if (change.carries.empty()) {
    document.text(from + ": no checker to touch.");
  } else {
    std::string head = fmt::format("{}: {} to touch", from, counted(change.touched));
    if (change.laid_aside > 0) {
      head += fmt::format(", {} of them laid aside on the way", change.laid_aside);
    }
    document.text(head + ".", {.size = 9, .after = 3, .stay_with_next = true});
  }
  for (const film::Carry& carry : change.carries) {
    document.text(escaped(film::carry_text(carry, shot.chapter->names[carry.side])),
                  {.size = 9.5, .indent = 18, .after = 1.5, .label = "\xE2\x96\xA1"});
  }
  if (before != nullptr && before->opening.view.bottom != shot.opening.view.bottom) {
    document.text(fmt::format("The camera goes to {}'s side of the table.",
                              escaped(shot.chapter->names[shot.opening.view.bottom])),
                  {.bold = true, .before = 3});
  }
  document.text(escaped(beside_checkers(shot)), {.size = 9, .before = 3, .after = 3});
  if (const film::Change again = film::once_more(shot); again.touched > 0) {
    std::string words = fmt::format("To film it once more, touch {}: ", again.touched);
    for (const film::Carry& carry : again.carries) {
      const bool first = &carry == &again.carries.front();
      words += (first ? "" : "; ") + film::carry_text(carry, shot.chapter->names[carry.side]);
    }
    document.text(escaped(words + "."), {.size = 8, .tint = Tint::soft_ink});
  }
  document.end_beside();
}

}  // namespace

Result<std::string, PressFault> stage_sheets_pdf(const Storyboard& course,
                                                 const std::vector<film::Shot>& shots,
                                                 const StageOptions& options) {
  Document document({.paper = options.print.paper,
                     .theme = options.print.theme,
                     .title = course.title + ": stage sheets",
                     .author = course.author,
                     .language = course.language});
  document.bookmark(1, "stage", "Stage sheets");
  document.text(escaped(course.title), {.size = 22, .bold = true, .after = 3, .tag = "H1"});
  const Plan plan = plan_of(shots, options);
  document.text(order_words(plan, options), {.size = 10.5, .tint = Tint::soft_ink, .after = 4});
  document.text(
      fmt::format("The boards are drawn as seen from {}{}. Places are counted as each side counts "
                  "them; checkers that are borne off, or not in play, lie beside the board.",
                  options.seat == Seat::camera ? "the camera" : "across the table",
                  options.mirrored ? ", left and right exchanged" : ""),
      {.size = 9, .tint = Tint::soft_ink, .after = 12});
  const film::Shot* before = nullptr;
  for (std::size_t at = 0; at < plan.order.size(); ++at) {
    const film::Shot& shot = shots[plan.order[at]];
    if (before == nullptr || (!options.best_order && before->chapter != shot.chapter)) {
      document.bookmark(2, fmt::format("chapter-{}", at), shot.chapter->title);
    }
    set_sheet(document, shot, change_to(shots, plan, at), before, options);
    before = &shot;
  }
  return document.finish();
}

std::string stage_list_csv(const std::vector<film::Shot>& shots, const StageOptions& options) {
  const Plan plan = plan_of(shots, options);
  std::vector<std::vector<std::string>> rows{
      {"shot", "chapter", "title", "on the table", "checkers to touch", "laid aside", "hands"}};
  for (std::size_t at = 0; at < plan.order.size(); ++at) {
    const film::Shot& shot = shots[plan.order[at]];
    const film::Change change = change_to(shots, plan, at);
    std::string hands;
    for (const film::Carry& carry : change.carries) {
      hands +=
          (hands.empty() ? "" : "; ") + film::carry_text(carry, shot.chapter->names[carry.side]);
    }
    rows.push_back({std::to_string(shot.number), shot.chapter->title, shot.title(),
                    film::on_the_table(shot), std::to_string(change.touched),
                    std::to_string(change.laid_aside), hands});
  }
  return film::to_csv(rows);
}

}  // namespace pointwright::press
