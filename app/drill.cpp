#include "finder/drill.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <memory>
#include <vector>

#include "app/deck.hpp"
#include "app/draw_parts.hpp"
#include "app/files.hpp"
#include "app/judging.hpp"
#include "app/options.hpp"
#include "app/sheet.hpp"
#include "app/suggest.hpp"
#include "app/verbs.hpp"
#include "rules/text.hpp"

namespace pointwright::app {
namespace {

using finder::Choice;
using finder::Exercise;

constexpr int most_exercises = 100;  // a chapter holds no more questions

const Guide guide{
    .name = "drill",
    .summary = "Make a set of exercises on a topic, or practise with a deck.",
    .text =
        "Makes exercises: positions with a question, the answer, its proof, and wrong answers each "
        "of which breaks a rule that is named. They are made from a topic, such as larger-die or "
        "shots (`pointwright drill --topics` lists them; opening plays, best plays and cubes are "
        "among "
        "them, judged by a search two rolls ahead or by exact tables), or with --query from "
        "whatever a query "
        "finds (docs/queries.md). The simplest come first, and no two are alike, not even in "
        "mirror image. The same command always makes the same set; --seed makes another.\n\n"
        "--as lesson (the default) writes a lesson file, which `pointwright check` proves and "
        "`pointwright build` makes into a page to practise on. --as sheet writes a page to print, "
        "with the answers on a sheet of their own. --as json writes {\"exercises\": [{\"topic\", "
        "\"grade\", \"position\", \"kind\": \"play\", \"choice\" or \"number\", \"ask\", "
        "\"right\" and \"wrong\" or \"number\", \"claim\", \"why\"}, …]}.\n\n"
        "--deck FILE keeps exercises in a file and asks those that are due, here on the command "
        "line: first any new ones of the topic are added, then each is asked. What is answered "
        "comes back after 1, 2, 4, 8 and 16 days, what is missed tomorrow. Without a topic only "
        "what is in the deck is asked. An empty line shows the answer and counts as missed.",
    .examples = {
        {.command = "pointwright drill larger-die --count 5",
         .shows = "Five exercises on a rule, as a lesson:"},
        {.command = "pointwright drill shots --count 20 --as sheet --output shots.html",
         .shows = "A sheet of twenty to print:"},
        {.command = "pointwright drill --query \"illegal hit because both-dice\" --as json",
         .shows = "Exercises on what a query finds:"},
        {.command = "pointwright drill entering --deck evenings.deck",
         .shows = "Practise what is due:"}}};

struct DrillOptions {
  std::optional<std::string> topic;
  std::optional<std::string> query;
  std::optional<std::string> count;
  std::optional<std::string> seed;
  std::optional<std::string> names;
  std::optional<std::string> title;
  std::optional<std::string> form;
  std::optional<std::string> output;
  std::optional<std::string> deck;
  std::optional<std::string> today;
  bool topics = false;
};

/// A set that was made, with what stands above it.
struct Set {
  std::vector<Exercise> exercises;
  std::string title;
  std::string says;
};

Failure unknown_topic(const std::string& word) {
  std::vector<std::string> known;
  for (const finder::Topic& topic : finder::drill_topics()) known.push_back(topic.id);
  return failure("unknown-topic", fmt::format("there is no topic `{}`", harmless(word)),
                 did_you_mean(word, known, "`pointwright drill --topics` lists the topics"));
}

Result<Set, Failure> make_set(const DrillOptions& given, const finder::DrillOptions& options) {
  if (given.topic && given.query) {
    return failure("topic-and-query", "a set is made from a topic or from a query, not both",
                   "leave out one of them");
  }
  if (given.query) {
    const auto query = finder::read_query(*given.query);
    if (!query.ok())
      return Failure{.text = *given.query, .origin = "--query", .faults = query.error()};
    return Set{finder::drill(*query, options), "Exercises",
               fmt::format("Positions with: {}.", to_text(*query))};
  }
  const finder::Topic* topic = finder::find_topic(*given.topic);
  if (topic == nullptr) return unknown_topic(*given.topic);
  const auto search = make_search(judge::most_depth, threads_by_default());
  finder::DrillOptions shared = options;
  shared.search = search.get();
  return Set{finder::drill(*topic, shared), topic->title, topic->says};
}

std::string list_of_topics() {
  std::string text;
  std::size_t widest = 0;
  for (const finder::Topic& topic : finder::drill_topics())
    widest = std::max(widest, topic.id.size());
  for (const finder::Topic& topic : finder::drill_topics())
    text += fmt::format("{:<{}}  {}\n", topic.id, widest, topic.title);
  return text;
}

std::string command_of(const DrillOptions& given) {
  std::string text = "pointwright drill";
  if (given.topic) text += " " + *given.topic;
  if (given.query) text += fmt::format(" --query \"{}\"", *given.query);
  if (given.count) text += " --count " + *given.count;
  if (given.seed) text += " --seed " + *given.seed;
  if (given.names) text += " --names " + *given.names;
  if (given.title) text += fmt::format(" --title \"{}\"", *given.title);
  return text;
}

std::string written(const Set& set, const DrillOptions& given, const SideNames& names) {
  if (given.form == "sheet") return exercise_sheet(set.exercises, set.title, names);
  if (given.form == "json") {
    Json list = Json::array();
    for (const Exercise& exercise : set.exercises) list.push_back(exercise_object(exercise));
    return to_line({{"title", set.title}, {"exercises", std::move(list)}}) + "\n";
  }
  return finder::as_lesson(set.exercises, set.title, set.says, "Made by " + command_of(given),
                           names);
}

/// Whether an answer that somebody typed is right, and what to say to it.
struct Verdict {
  bool right = false;
  std::string says;
};

Verdict judge_play(const Exercise& exercise, const std::string& answer) {
  const auto attempt = read_play(answer);
  if (!attempt.ok()) return {false, attempt.error().front().reason + "."};
  const Ruling ruling = rule_on(exercise.position, *attempt);
  if (!ruling.allowed) return {false, ruling.proof};
  return {true, ruling.proof};
}

Verdict judge(const Exercise& exercise, std::size_t number, const std::string& answer) {
  switch (exercise.kind) {
    case Exercise::Kind::play:
      return judge_play(exercise, answer);
    case Exercise::Kind::number:
      return {answer == std::to_string(exercise.number),
              fmt::format("It is {}. {}", exercise.number, exercise.why)};
    case Exercise::Kind::choice: {
      const Answers answers = answers_of(exercise, number);
      const auto letter =
          static_cast<std::size_t>(answer.empty() ? 99 : text::lower(answer[0]) - 'a');
      const bool right = answer.size() == 1 && letter == answers.right;
      if (answer.size() == 1 && letter < answers.shown.size())
        return {right, answers.shown[letter]->reply};
      return {false, exercise.why};
    }
  }
  return {};
}

void ask(const Exercise& exercise, std::size_t number, Io& io) {
  io.out << '\n'
         << painted(Ink::strong, to_text(exercise.position), io.colour_out) << '\n'
         << wrapped(exercise.ask, io.width);
  if (exercise.kind != Exercise::Kind::choice) return;
  char letter = 'a';
  for (const Choice* choice : answers_of(exercise, number).shown)
    io.out << wrapped(fmt::format("{}) {}", letter++, choice->text), io.width, 2);
}

int practise(const DrillOptions& given, const finder::DrillOptions& options, Io& io) {
  const auto day = given.today ? day_of(*given.today) : std::optional(today());
  if (!day) {
    return complain(failure("not-a-date", fmt::format("`{}` is not a date", harmless(*given.today)),
                            "write it like 2026-03-14"),
                    io);
  }
  std::vector<Exercise> fresh;
  if (given.topic || given.query) {
    const auto set = make_set(given, options);
    if (!set.ok()) return complain(set.error(), io);
    fresh = set->exercises;
  }
  auto opened = Deck::open(*given.deck);
  if (!opened.ok()) return complain(opened.error(), io);
  Deck& deck = opened.value();
  const auto added = deck.add(fresh, *day);
  if (!added.ok()) return complain(added.error(), io);
  const auto due = deck.due(*day);
  if (!due.ok()) return complain(due.error(), io);
  for (const std::string& id : due->damaged) {
    io.err << wrapped(fmt::format("note: the card {} of the deck is damaged and is not asked; the "
                                  "others are",
                                  harmless(id)),
                      io.width);
  }
  const std::vector<DeckCard>& cards = due->cards;
  io.out << fmt::format("{} new, {} due of {}.\n", *added, cards.size(), deck.state().cards);
  std::size_t number = 0;
  int right = 0;
  int asked = 0;
  for (const DeckCard& card : cards) {
    ask(card.exercise, ++number, io);
    io.out << "> ";
    io.out.flush();
    std::string answer;
    if (!std::getline(io.in, answer)) break;
    const Verdict verdict = judge(card.exercise, number, answer);
    if (const auto wrong = deck.note(card, verdict.right, *day)) return complain(*wrong, io);
    ++asked;
    right += verdict.right ? 1 : 0;
    io.out << painted(verdict.right ? Ink::good : Ink::bad, verdict.right ? "Right." : "No.",
                      io.colour_out)
           << '\n'
           << wrapped(verdict.right || verdict.says.empty() ? card.exercise.why : verdict.says,
                      io.width, 2);
  }
  io.out << fmt::format("\n{} of {} right.", right, asked);
  if (const auto next = deck.state().next; next && *next > *day)
    io.out << fmt::format(" Next in {}.", text::counted(static_cast<int>(*next - *day), "day"));
  io.out << '\n';
  return exit_fine;
}

int run_drill(const DrillOptions& given, Io& io) {
  const bool json = given.form == "json";
  if (given.topics) {
    io.out << list_of_topics();
    return exit_fine;
  }
  finder::DrillOptions options;
  const auto count = number_of(given.count, "--count", 10, 1, most_exercises);
  if (!count.ok()) return complain(count.error(), json, io);
  const auto seed = number_of(given.seed, "--seed", options.seed, 0, 1'000'000'000'000);
  if (!seed.ok()) return complain(seed.error(), json, io);
  options.seed = *seed;
  options.count = static_cast<int>(*count);
  if (given.names) {
    const auto names = read_side_names(*given.names);
    if (!names.ok()) return complain(names.error(), json, io);
    options.names = *names;
  }
  if (given.deck) return practise(given, options, io);
  if (!given.topic && !given.query) {
    return complain(failure("missing-topic", "there is no topic to make exercises on",
                            "`pointwright drill --topics` lists the topics; or give a --query"),
                    json, io);
  }
  auto set = make_set(given, options);
  if (!set.ok()) return complain(set.error(), json, io);
  if (given.title) set.value().title = *given.title;
  const auto made = static_cast<int>(set->exercises.size());
  if (made == 0) {
    return complain(failure("no-exercises", "no position was found to make an exercise of",
                            "`pointwright find` with the same query says why"),
                    json, io);
  }
  if (made < options.count) {
    io.err << fmt::format("note: {} of {} could be made; another --seed may make more\n", made,
                          options.count);
  }
  const std::string text = written(*set, given, options.names);
  if (!given.output) {
    io.out << text;
    return exit_fine;
  }
  if (const auto wrong = write_file(*given.output, text)) return complain(*wrong, json, io);
  return exit_fine;
}

}  // namespace

void declare_drill(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<DrillOptions>();
  OptionList& list = verb.options;
  std::vector<std::string> ids;
  for (const finder::Topic& topic : finder::drill_topics()) ids.push_back(topic.id);
  list.argument("TOPIC", options->topic, "What to practise; --topics lists the topics.", ids);
  list.flag("--topics", options->topics, "List the topics.");
  list.value("--query", "QUERY", options->query, "Make exercises of what this query finds.");
  list.value("-n,--count", "N", options->count, "How many exercises; 10 if left out.");
  list.value("--seed", "N", options->seed, "Another number makes another set; 1 if left out.");
  list.value("--names", "LIGHT,DARK", options->names,
             "What the sides are called, such as Ivory,Walnut.");
  list.value("--title", "TEXT", options->title, "The title of the set.");
  list.choice("--as", {"lesson", "sheet", "json"}, options->form,
              "A lesson file, a page to print, or an object for other programs.");
  list.value("-o,--output", "FILE", options->output, "Write to this file.");
  list.value("--deck", "FILE", options->deck, "Practise: ask what is due in this deck.");
  list.value("--today", "DATE", options->today,
             "With --deck: the day that counts as today, such as 2026-03-14.");
  verb.act = [options](Io& io) { return run_drill(*options, io); };
}

}  // namespace pointwright::app
