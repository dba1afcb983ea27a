#include "app/templates.hpp"

#include "app/json.hpp"

namespace pointwright::app {
namespace {

/// The title as a quoted YAML scalar. A JSON string is one (YAML 1.2, section 1.3).
std::string quoted(std::string_view text) {
  return to_line(Json(text));
}

constexpr std::string_view lesson_front =
    R"(summary: One line on what the learner will be able to do.
sides: {light: Ivory, dark: Walnut}
---

Text between the blocks is Markdown. A `board` block sets up a position and gives it a name; each
side's checkers are listed as that side counts, from its 24-point, farthest away, down to its
1-point.

```board first-roll
start; light to play 3-1
caption: Ivory has won the opening roll with a three and a one.
```

A `show` block is what happens on the board, with the words that you speak.

```show
say       "Ivory rolled a three and a one."
8/5       "The three brings a checker from the eight-point."
6/5       "The one joins it: the five-point is made."
```

A `claims` block says what is true of the board above. `pointwright check` proves each claim, or
says what is true instead.

```claims
pips light 167
legal 8/5 6/5
illegal 6/5 because both-dice
after 8/5 6/5: light 24x2 13x5 8x2 6x4 5x2; dark 24x2 13x5 8x3 6x5
```

A `question` block is for the learner to answer; the right answer is proved as well.

```question make-the-five-point
ask: How does Ivory make the five-point with this roll?
on: first-roll
play: 8/5 6/5
why: Two checkers on a point hold it. One comes from the eight-point, one from the six-point.
```
)";

constexpr std::string_view second_chapter =
    R"(summary: A checker that was hit comes in before anything else moves.
---

```board at-the-door
light barx1 6x3 5x2; dark 24x1 6x2 5x2; light to play 5-2
caption: One checker waits on the bar.
```

Walnut holds its five-point, so the five is no way in; nobody stands where the two leads.

```show
try 6/4      "Not yet: the checker on the bar comes first."
try bar/20   "The five is blocked."
bar/23       "The two is open, and the checker is in."
```

```claims
illegal 6/4 6/1 because bar-first
pips light 53
contact
```
)";

std::string with_title(std::string_view title, std::string_view rest) {
  return "---\ntitle: " + quoted(title) + "\n" + std::string{rest};
}

}  // namespace

std::string lesson_template(std::string_view title) {
  return with_title(title, lesson_front);
}

std::vector<FileText> course_template(std::string_view title) {
  std::string course = "title: " + quoted(title) + "\n";
  course +=
      "summary: One line on what the course teaches.\n"
      "author: Your name\n"
      "language: en\n"
      "sides: {light: Ivory, dark: Walnut}\n"
      "chapters: [01-the-opening-roll.md, 02-coming-in.md]\n";
  return {{.name = "course.yaml", .contents = std::move(course)},
          {.name = "01-the-opening-roll.md", .contents = lesson_template("The opening roll")},
          {.name = "02-coming-in.md", .contents = with_title("Coming in", second_chapter)}};
}

}  // namespace pointwright::app
