#include <fmt/format.h>

#include <array>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 2> forms{"contact", "no contact"};

Answer check(const Ask& ask) {
  const Board& board = ask.position().board;
  const bool meets = has_contact(board);
  const std::string& light = ask.names()[Side::light];
  const std::string& dark = ask.names()[Side::dark];
  std::string proof;
  if (has_won(board, Side::light) || has_won(board, Side::dark)) {
    proof = fmt::format("{} has no checker left.",
                        Name(ask, has_won(board, Side::light) ? Side::light : Side::dark));
  } else {
    const int rear_light = rearmost(board, Side::light);
    const int rear_dark = rearmost(board, Side::dark);
    const auto place = [](int at) {
      return at == bar_place ? std::string("on the bar") : fmt::format("on its {}-point", at);
    };
    proof = fmt::format(
        "{}'s rearmost checker is {} and {}'s is {}. The two numbers {} 25, so they {} each other.",
        capitalised(light), place(rear_light), dark, place(rear_dark),
        meets ? "add up to more than" : "do not add up to more than",
        meets ? "have still to pass" : "have passed");
  }
  const std::string sentence =
      meets ? fmt::format("{} and {} can still meet.", capitalised(light), dark)
            : fmt::format("{} and {} can no longer meet: it is a race.", capitalised(light), dark);
  if (meets == (ask.form() == 0)) return Proved{sentence, proof};
  return Refuted{sentence, proof, "", std::string(forms[meets ? 0 : 1])};
}

}  // namespace

const ClaimKind contact_claim{
    .name = "contact",
    .forms = forms,
    .says = "Whether the sides can still hit or block each other.",
    .example_board = "light 6x3 4x2; dark 6x2 3x2",
    .example = "no contact",
    .counterexample = "contact",
    .check = check,
};

}  // namespace pointwright::lesson
