#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <thread>
#include <vector>

#include "app/cards.hpp"
#include "app/ending_tables.hpp"
#include "app/files.hpp"
#include "app/interrupt.hpp"
#include "app/json.hpp"
#include "app/numbers.hpp"
#include "app/options.hpp"
#include "app/suggest.hpp"
#include "app/verbs.hpp"
#include "rules/text.hpp"
#include "table_store/parallel_host.hpp"
#include "table_store/table_store.hpp"

namespace pointwright::app {
namespace {

namespace fs = std::filesystem;

struct TablesOptions {
  std::optional<std::string> name;
  std::optional<std::string> checked;  ///< the file after `check`
  std::optional<std::string> html;
  std::optional<std::string> svg;
  std::optional<std::string> checkers;
  std::optional<std::string> file;
  bool three_checker = false;
  bool json = false;
};

constexpr int fewest_built = 6;
constexpr int most_built = 10;

const Guide guide{
    .name = "tables",
    .summary = "Print reference cards, and build the large tables of endings.",
    .text =
        "`pointwright tables NAME` prints a card: shots, entering, last-two, stacked, match or "
        "rules; `all` prints every one, and without a name the cards are listed. Every card says "
        "how its numbers are known; they are counted or solved when the card is made. --html "
        "writes a page that opens from disk, fetches nothing and prints one card a sheet, from "
        "which a browser also makes a PDF; --svg writes a picture of one card; --json answers with "
        "the card's title, columns, rows and note.\n\n"
        "`pointwright tables build` solves every race of up to 7 checkers a side, or as many as "
        "--checkers says (6 to 10; ten take 1.03 GB of disk and some minutes), for `race` and "
        "`cube`. With --three-checker it solves the endgame with contact in which each side has at "
        "most three checkers left (172 MB). The file goes where the verbs look for it, or to "
        "--file. It is written beside its place and put there when whole, so that an interrupted "
        "build changes nothing.\n\n"
        "`pointwright tables check FILE` reads such a file to its end and compares its checksums. "
        "The exit code is 0 if it is sound and 1 if it is not.",
    .examples = {
        {.command = "pointwright tables shots", .shows = "Chances of hitting a blot:"},
        {.command = "pointwright tables all --html numbers.html",
         .shows = "All cards as a page to print:"},
        {.command = "pointwright tables match --svg match.svg", .shows = "One card as a picture:"},
        {.command = "pointwright tables build --checkers 8", .shows = "A larger table of races:"}}};

Json card_object(const Card& card) {
  return {{"name", card.name},
          {"title", card.title},
          {"columns", card.columns},
          {"rows", card.rows},
          {"note", card.note}};
}

void list_cards(Io& io) {
  for (const CardMaker& maker : card_makers()) {
    io.out << fmt::format("{:<9}  {}\n", maker.name, maker.shows);
  }
  io.out << fmt::format("{:<9}  every one of these\n", "all");
}

int write(const std::string& path, const std::string& contents, const TablesOptions& options,
          Io& io) {
  if (const auto failed = write_file(path, contents)) return complain(*failed, options.json, io);
  return exit_fine;
}

int print_cards(const TablesOptions& options, Io& io) {
  std::vector<Card> cards;
  std::vector<std::string> names{"all", "build", "check"};
  for (const CardMaker& maker : card_makers()) {
    names.emplace_back(maker.name);
    if (*options.name == "all" || *options.name == maker.name) cards.push_back(maker.make());
  }
  if (cards.empty()) {
    return complain(failure("no-such-card", fmt::format("there is no card `{}`", *options.name),
                            did_you_mean(*options.name, names, "`pointwright tables` lists them")),
                    options.json, io);
  }
  if (options.svg && cards.size() > 1) {
    return complain(failure("one-card-a-picture", "a picture holds one card",
                            "name one card, or write a page with --html"),
                    options.json, io);
  }
  if (options.html) {
    if (const int exit = write(*options.html, cards_page(cards), options, io); exit != exit_fine) {
      return exit;
    }
  }
  if (options.svg) {
    const int exit = write(*options.svg, card_svg(cards.front()), options, io);
    if (exit != exit_fine) return exit;
  }
  if (options.json) {
    Json result = Json::array();
    for (const Card& card : cards) result.push_back(card_object(card));
    io.out << to_line(cards.size() == 1 ? result.front() : result) << '\n';
  } else if (!options.html && !options.svg) {
    for (std::size_t i = 0; i < cards.size(); ++i) {
      io.out << (i == 0 ? "" : "\n\n") << card_text(cards[i], io.width);
    }
  }
  return exit_fine;
}

/// Draws how much is done on a terminal, one line that is written again and again; says to stop
/// once somebody has asked for it.
std::function<bool(double)> progress_bar(Io& io) {
  return [&io, last = -1](double done) mutable {
    if (InterruptWatch::interrupted()) return false;
    if (!io.colour_err) return true;  // nobody watches: a log needs no bar
    const int now = static_cast<int>(100 * done);
    if (now == last) return true;
    last = now;
    const auto filled = static_cast<std::size_t>(now) * 40 / 100;
    io.err << fmt::format("\r[{}{}] {:>3}%", std::string(filled, '#'),
                          std::string(40 - filled, ' '), now)
           << std::flush;
    return true;
  };
}

int build(const TablesOptions& options, Io& io) {
  std::uint64_t checkers = fewest_built + 1;
  if (options.checkers) {
    const auto number = text::number(*options.checkers, most_built);
    if (!number || *number < fewest_built) {
      return complain(
          failure("no-such-size", fmt::format("--checkers cannot be `{}`", *options.checkers),
                  fmt::format("write a number from {} to {}", fewest_built, most_built)),
          options.json, io);
    }
    checkers = *number;
  }
  const int size = static_cast<int>(checkers);
  const fs::path path =
      options.file
          ? fs::path(*options.file)
          : tables_folder() / (options.three_checker ? three_checker_name() : two_sided_name(size));
  std::error_code ignored;  // what cannot be made shows when the file is
  if (path.has_parent_path()) fs::create_directories(path.parent_path(), ignored);
  const auto began = std::chrono::steady_clock::now();
  const BuildHost host =
      parallel_host(std::max(1U, std::thread::hardware_concurrency()), progress_bar(io));
  const InterruptWatch watch;
  const std::string wrong =
      options.three_checker ? build_three_checker(path, host) : build_two_sided(path, size, host);
  if (io.colour_err) io.err << '\n';
  if (InterruptWatch::interrupted() && !wrong.empty()) {
    complain(failure("interrupted", wrong, "run the command again to build it from the beginning"),
             options.json, io);
    return exit_interrupted;
  }
  if (!wrong.empty()) {
    return complain(failure("not-built", wrong, "see that the folder can be written and has room"),
                    options.json, io);
  }
  const double seconds =
      std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  const auto bytes = fs::file_size(path, ignored);
  if (options.json) {
    io.out << to_line({{"file", path.string()}, {"bytes", bytes}, {"seconds", rounded(seconds, 1)}})
           << '\n';
  } else {
    io.out << fmt::format("{}: {} bytes, {:.1f} s\n", path.string(),
                          with_commas(static_cast<long long>(bytes)), seconds);
  }
  return exit_fine;
}

/// What is in a table file, or the last reason why it is none.
int check(const TablesOptions& options, Io& io) {
  if (!options.checked) {
    return complain(failure("missing-file", "there is no file to check",
                            "write its name: `pointwright tables check FILE`"),
                    options.json, io);
  }
  std::error_code unreadable;
  if (!fs::is_regular_file(*options.checked, unreadable)) {
    return complain(failure("cannot-read", fmt::format("`{}` is no file", *options.checked),
                            "name a file that `pointwright tables build` made"),
                    options.json, io);
  }
  std::string holds;
  std::string reason;
  const auto other = [](const StoreFault& fault) {
    return fault.damage == TableDamage::other_kind || fault.damage == TableDamage::other_dimensions;
  };
  for (int checkers = 1; checkers <= most_built && holds.empty(); ++checkers) {
    const auto opened = StoredTwoSided::open(*options.checked, checkers);
    if (opened.ok()) {
      holds = fmt::format("races of up to {} checkers a side", checkers);
    } else if (reason.empty() || !other(opened.error())) {
      reason = opened.error().reason;
      if (!other(opened.error())) break;
    }
  }
  if (holds.empty()) {
    const auto opened = StoredThreeChecker::open(*options.checked);
    if (opened.ok()) {
      holds = "the endgame of three checkers a side";
    } else if (!other(opened.error())) {
      reason = opened.error().reason;
    }
  }
  const bool sound = !holds.empty();
  if (options.json) {
    Json result{{"file", *options.checked}, {"sound", sound}};
    result[sound ? "holds" : "reason"] = sound ? holds : reason;
    io.out << to_line(result) << '\n';
  } else {
    io.out << wrapped(
        sound ? fmt::format("sound: {}", holds) : fmt::format("damaged: {}", harmless(reason)),
        io.width);
  }
  return sound ? exit_fine : exit_no;
}

int run_tables(const TablesOptions& options, Io& io) {
  if (!options.name) {
    list_cards(io);
    return exit_fine;
  }
  if (*options.name == "build") return build(options, io);
  if (*options.name == "check") return check(options, io);
  return print_cards(options, io);
}

}  // namespace

void declare_tables(Program& program) {
  Verb& verb = program.declare(guide);
  auto options = std::make_shared<TablesOptions>();
  OptionList& list = verb.options;
  list.argument("NAME", options->name,
                "A card: shots, entering, last-two, stacked, match, rules, or all; or build, or "
                "check.");
  list.argument("FILE", options->checked, "The file to check.");
  list.value("--html", "FILE", options->html, "Write the cards as a page to print.");
  list.value("--svg", "FILE", options->svg, "Write one card as a picture.");
  list.value("--checkers", "NUMBER", options->checkers,
             "For build: the most checkers a side, 6 to 10.");
  list.flag("--three-checker", options->three_checker,
            "For build: the endgame of three checkers a side, with contact.");
  list.value("--file", "FILE", options->file, "For build: where the table goes.");
  list.flag("--json", options->json, "Answer with JSON.");
  verb.act = [options](Io& io) { return run_tables(*options, io); };
}

}  // namespace pointwright::app
