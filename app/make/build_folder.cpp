#include "app/make/build_folder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "app/interrupt.hpp"
#include "app/make/folder.hpp"
#include "app/make/kinds.hpp"
#include "app/make/run_program.hpp"
#include "app/make/voice.hpp"
#include "app/options.hpp"
#include "app/suggest.hpp"
#include "film/captions.hpp"
#include "rules/text.hpp"

namespace pointwright::app {
namespace {

constexpr std::string_view everything = "all";

std::vector<std::string> kind_names() {
  std::vector<std::string> names;
  for (const Kind& kind : kinds()) names.emplace_back(kind.name);
  names.emplace_back(everything);
  return names;
}

Result<std::set<std::string>, Failure> asked_kinds(const std::vector<std::string>& words) {
  const std::vector<std::string> known = kind_names();
  std::set<std::string> asked;
  for (const std::string& list : words) {
    for (const TextSpan span : text::split(list, {0, list.size()}, ',')) {
      std::string word = list.substr(span.begin, span.end - span.begin);
      const auto first = word.find_first_not_of(' ');
      word = first == std::string::npos
                 ? std::string{}
                 : word.substr(first, word.find_last_not_of(' ') - first + 1);
      if (word == everything) {
        asked.insert(known.begin(), known.end() - 1);
      } else if (std::find(known.begin(), known.end(), word) != known.end()) {
        asked.insert(word);
      } else {
        std::string list_of_all;
        for (const std::string& name : known)
          list_of_all += (list_of_all.empty() ? "" : ", ") + name;
        return failure("unknown-product", fmt::format("`{}` cannot be made", harmless(word)),
                       did_you_mean(word, known, "these can: " + list_of_all));
      }
    }
  }
  return asked;
}

Result<MakeOptions, Failure> make_options(const FolderOptions& options) {
  MakeOptions made;
  if (options.pace) {
    const auto words = text::number(*options.pace, film::fastest_pace);
    if (!words || *words < film::slowest_pace) {
      return failure(
          "bad-pace", fmt::format("`{}` is no pace to speak at", harmless(*options.pace)),
          fmt::format("give words a minute from {} to {}; {} is unhurried", film::slowest_pace,
                      film::fastest_pace, film::Pace{}.words_a_minute));
    }
    made.pace.words_a_minute = static_cast<int>(*words);
  }
  if (options.size) made.clips.short_side = std::stoi(*options.size);  // one of the choices
  if (options.fps) made.clips.fps = std::stoi(*options.fps);
  if (options.aspect == "9:16") made.clips.aspect = ClipOptions::Aspect::tall;
  if (options.aspect == "1:1") made.clips.aspect = ClipOptions::Aspect::square;
  press::StageOptions& stage = made.stage;
  if (options.paper == "letter") stage.print.paper = press::Paper::letter;
  if (options.ink == "black") stage.print.theme = Theme::print;
  if (options.seat == "opposite") stage.seat = press::Seat::opposite;
  stage.best_order = options.order == "best";
  stage.mirrored = options.mirror;
  return made;
}

/// What can be asked for, each word with what comes of it.
std::string kinds_text() {
  std::string text;
  for (const Kind& kind : kinds()) {
    text += fmt::format("{}{} ({})", text.empty() ? "" : ", ", kind.name, kind.makes);
  }
  return text;
}

/// Everything has a guide voice in it only where there is somebody to speak.
std::vector<std::string> leave_out_voice(std::set<std::string>& asked,
                                         const std::vector<std::string>& words) {
  const std::string voice = "voice";
  const std::string synthesiser = VoiceOptions{}.program;
  bool by_name = false;
  for (const std::string& list : words) by_name = by_name || list.find(voice) != std::string::npos;
  if (by_name || !asked.contains(voice) || is_installed(synthesiser)) return {};
  asked.erase(voice);
  return {
      fmt::format("there is no guide voice, since `{0}` is not installed; the package {0} has it",
                  synthesiser)};
}

/// A line on a terminal that is written over by the next one.
class Progress {
 public:
  Progress(Io& io, std::size_t all) : io_(io), all_(all) {}
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  ~Progress() { show({}); }

  void operator()(std::size_t done, const Product& next) {
    constexpr std::size_t bar = 20;
    const std::size_t full = all_ == 0 ? bar : done * bar / all_;
    show(fmt::format("[{}{}] {} of {}  {}", std::string(full, '#'), std::string(bar - full, '.'),
                     done + 1, all_, next.path));
  }

 private:
  void show(std::string text) {
    if (!io_.err_is_terminal) return;
    const auto width = static_cast<std::size_t>(std::max(io_.width, 2)) - 1;
    text.resize(std::min(text.size(), width));
    io_.err << '\r' << text << std::string(last_ > text.size() ? last_ - text.size() : 0, ' ')
            << '\r' << std::flush;
    last_ = text.size();
  }

  Io& io_;
  std::size_t all_;
  std::size_t last_ = 0;
};

/// What is worth knowing of the course as a film.
std::vector<std::string> notes_on(const Course& course, const std::set<std::string>& asked) {
  std::vector<std::string> notes;
  if (asked.contains("captions")) {
    if (const int fast = film::too_fast(film::captions(course.shots)); fast > 0) {
      notes.push_back(fmt::format(
          "{} read faster than {:g} characters a second; a slower --pace, or a longer duration "
          "after the words, gives them time",
          text::counted(fast, "caption"), film::CaptionRules{}.fastest));
    }
  }
  return notes;
}

void print_report(const FolderReport& report, const std::vector<std::string>& notes,
                  const std::filesystem::path& folder, Io& io) {
  for (const std::string& path : report.made) io.out << (folder / path).string() << '\n';
  io.err << fmt::format("{} made, {} up to date",
                        text::counted(static_cast<int>(report.made.size()), "file"),
                        report.kept.size());
  if (!report.removed.empty()) io.err << fmt::format(", {} taken away", report.removed.size());
  io.err << '\n';
  if (!report.stale.empty()) {
    io.err << wrapped(
        fmt::format("{} out of date, since not asked for: {}{}",
                    report.stale.size() == 1 ? "1 file is"
                                             : fmt::format("{} files are", report.stale.size()),
                    report.stale.front(), report.stale.size() > 1 ? " and others" : ""),
        io.width);
  }
  for (const std::string& note : notes) io.err << wrapped("note: " + note, io.width);
}

}  // namespace

void add_folder_options(OptionList& list, FolderOptions& options) {
  list.values("--make", "WORDS", options.make,
              fmt::format("Make a folder of things instead of the page alone; --output names it. "
                          "WORDS are one or more of these with commas between them, or all: {}.",
                          kinds_text()));
  list.value("--pace", "WORDS", options.pace,
             "How many words a minute are spoken, for everything that has a length; 140 unless "
             "this says otherwise.");
  list.choice("--size", {"720p", "1080p", "1440p", "2160p"}, options.size,
              "The shorter side of moving pictures and stills, in pixels; 1080p unless this says "
              "otherwise.");
  list.choice("--aspect", {"16:9", "9:16", "1:1"}, options.aspect,
              "Their width to their height; 16:9 unless this says otherwise.");
  list.choice("--fps", {"24", "25", "30", "50", "60"}, options.fps,
              "Frames a second of moving pictures; 30 unless this says otherwise.");
  list.choice("--paper", {"a4", "letter"}, options.paper,
              "The size of everything that is printed; a4 unless this says otherwise.");
  list.choice("--ink", {"colour", "black"}, options.ink,
              "Whether prints have colours or greys alone; colour unless this says otherwise.");
  list.choice("--seat", {"camera", "opposite"}, options.seat,
              "From where the board is set up, for stage sheets: where the camera stands, unless "
              "this says otherwise, or across the table from it.");
  list.flag("--mirror", options.mirror,
            "Draw stage sheets with left and right exchanged, for a camera that shows them so.");
  list.choice("--film-order", {"script", "best"}, options.order,
              "The order of the stage sheets: that of the script, unless this says otherwise, or "
              "the one in which the fewest checkers are touched from shot to shot.");
  list.flag("--afresh", options.afresh,
            "With --make, make everything again, also what has not changed.");
}

int build_folder(const Compiled& compiled, const std::string& name,
                 const std::optional<std::string>& output, const FolderOptions& options, bool json,
                 Io& io) {
  auto asked = asked_kinds(options.make);
  if (!asked.ok()) return complain(asked.error(), json, io);
  std::vector<std::string> notes = leave_out_voice(asked.value(), options.make);
  const auto how = make_options(options);
  if (!how.ok()) return complain(how.error(), json, io);
  if (!output) {
    return complain(failure("missing-output", "it is not said where the folder goes",
                            "name it, such as --output out/"),
                    json, io);
  }
  auto shots = film::shots_of(compiled.storyboard, how->pace);
  if (!shots.ok()) {
    return complain(failure("no-film",
                            fmt::format("nothing can be made, because of {}: {}",
                                        shots.error().where, shots.error().reason),
                            "this is a mistake in pointwright; the lesson itself is proved"),
                    json, io);
  }
  const Course course{compiled.storyboard, name, std::move(shots.value()), *how};
  FolderRequest request;
  request.afresh = options.afresh;
  for (const Kind& kind : kinds()) {
    kind.add(course, asked->contains(std::string{kind.name}) ? request.products : request.others);
  }
  const std::filesystem::path folder = *output;
  const auto made = [&] {
    const InterruptWatch watch;
    Progress progress(io, request.products.size());
    request.progress = [&](std::size_t done, const Product& next) { progress(done, next); };
    return make_folder(folder, request);
  }();
  if (!made.ok()) {
    const bool stopped = made.error().faults.front().id == "interrupted";
    const int exit = complain(made.error(), json, io);
    return stopped ? exit_interrupted : exit;
  }
  for (std::string& note : notes_on(course, *asked)) notes.push_back(std::move(note));
  if (!json) {
    print_report(*made, notes, folder, io);
    return exit_fine;
  }
  Json answer = compilation_object(compiled);
  answer["folder"] = folder.string();
  answer["made"] = made->made;
  answer["kept"] = made->kept;
  answer["removed"] = made->removed;
  answer["stale"] = made->stale;
  answer["notes"] = notes;
  io.out << to_line(answer) << '\n';
  return exit_fine;
}

}  // namespace pointwright::app
