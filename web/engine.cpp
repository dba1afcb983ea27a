#include "web/engine.hpp"

#include <array>

#include "web/answers.hpp"

namespace pointwright::web {
namespace {

struct Question {
  std::string_view verb;
  Json (*answer)(const Request&);
};

constexpr std::array<Question, 16> questions{{
    {"position", answer_position},
    {"picture", answer_picture},
    {"ground", answer_ground},
    {"diagram", answer_diagram},
    {"plays", answer_plays},
    {"rule", answer_rule},
    {"turn", answer_turn},
    {"chances", answer_chances},
    {"evaluation", answer_evaluation},
    {"ranking", answer_ranking},
    {"cube", answer_cube},
    {"table", answer_table},
    {"decision", answer_decision},
    {"sealed", answer_sealed},
    {"verify", answer_verify},
    {"throws", answer_throws},
}};

}  // namespace

std::string answer(std::string_view question) {
  const Request request = read_request(question);
  for (const Question& each : questions)
    if (each.verb == request.verb) return each.answer(request).text();
  return error_object("unknown-question", "There is no question of that name.").text();
}

}  // namespace pointwright::web
