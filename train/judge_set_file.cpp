#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <sstream>

#include "rules/notation.hpp"
#include "rules/position.hpp"
#include "train/judge_set.hpp"

namespace pointwright::train {
namespace {

constexpr std::string_view columns =
    "decision,kind,part,position,play,one_step,trials,equity,error,behind,behind_error,even,odd,"
    "win,win_gammon,win_backgammon,lose_gammon,lose_backgammon,win_error,gammon_error";
constexpr std::size_t column_count = 20;

std::vector<std::string> fields_of(const std::string& line) {
  std::vector<std::string> fields;
  std::istringstream in(line);
  for (std::string field; std::getline(in, field, ',');) fields.push_back(field);
  return fields;
}

bool read_number(const std::string& text, double& number) {
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, number);
  return read.ec == std::errc{} && read.ptr == end;
}

/// Reads one line into the last decision, or into a new one. Returns what is wrong, or "".
std::string read_line(const std::string& line, std::vector<Judged>& decisions) {
  const auto fields = fields_of(line);
  if (fields.size() != column_count)
    return fmt::format("has {} fields, not {}", fields.size(), column_count);
  std::array<double, column_count> numbers{};
  for (std::size_t i = 0; i < column_count; ++i) {
    const bool text = i >= 1 && i <= 4;
    if (!text && !read_number(fields[i], numbers[i]))
      return fmt::format("field {}, \"{}\", is not a number", i + 1, fields[i]);
  }
  const auto id = static_cast<std::uint64_t>(numbers[0]);
  if (decisions.empty() || decisions.back().id != id) {
    const auto kind = kind_named(fields[1]);
    if (!kind) return fmt::format("\"{}\" is no kind of position", fields[1]);
    if (fields[2] != "tuning" && fields[2] != "reporting")
      return fmt::format("\"{}\" is neither tuning nor reporting", fields[2]);
    const auto position = read_position(fields[3]);
    if (!position || position->turn != Side::light || !position->roll)
      return fmt::format("\"{}\" is not a position with light to play", fields[3]);
    Judged decision;
    decision.id = id;
    decision.kind = *kind;
    decision.part = fields[2] == "tuning" ? Part::tuning : Part::reporting;
    decision.board = position->board;
    decision.roll = *position->roll;
    decisions.push_back(std::move(decision));
  }
  Judged& decision = decisions.back();
  const auto plays = legal_plays(decision.board, Side::light, decision.roll);
  const auto play = std::find_if(plays.begin(), plays.end(), [&](const LegalPlay& legal) {
    return to_text(legal.play) == fields[4];
  });
  if (play == plays.end()) return fmt::format("{} is not a legal play", fields[4]);
  JudgedPlay judged;
  judged.text = fields[4];
  judged.after = play->after;
  judged.one_step = numbers[5];
  judged.trials = static_cast<std::uint64_t>(numbers[6]);
  judged.equity = numbers[7];
  judged.error = numbers[8];
  judged.behind = numbers[9];
  judged.behind_error = numbers[10];
  judged.even = numbers[11];
  judged.odd = numbers[12];
  const auto chance = [&](std::size_t i) { return static_cast<float>(numbers[i]); };
  judged.chances = {chance(13), chance(14), chance(15), chance(16), chance(17)};
  judged.win_error = numbers[18];
  judged.gammon_error = numbers[19];
  decision.plays.push_back(std::move(judged));
  return "";
}

}  // namespace

std::string to_csv(const std::vector<Judged>& decisions, const std::vector<std::string>& comments) {
  std::string csv;
  for (const std::string& comment : comments) csv += "# " + comment + "\n";
  csv += std::string(columns) + "\n";
  for (const Judged& decision : decisions) {
    Position position;
    position.board = decision.board;
    position.turn = Side::light;
    position.roll = decision.roll;
    const std::string line = to_text(position);
    for (const JudgedPlay& play : decision.plays) {
      csv += fmt::format("{},{},{},{},{},{:.5f},{},{:.5f},{:.5f},{:.5f},{:.5f},{:.5f},{:.5f}",
                         decision.id, name(decision.kind),
                         decision.part == Part::tuning ? "tuning" : "reporting", line, play.text,
                         play.one_step, play.trials, play.equity, play.error, play.behind,
                         play.behind_error, play.even, play.odd);
      const judge::Chances& c = play.chances;
      csv += fmt::format(",{:.5f},{:.5f},{:.5f},{:.5f},{:.5f},{:.5f},{:.5f}\n", c.win, c.win_gammon,
                         c.win_backgammon, c.lose_gammon, c.lose_backgammon, play.win_error,
                         play.gammon_error);
    }
  }
  return csv;
}

Result<std::vector<Judged>, std::string> read_csv(const std::string& csv) {
  std::vector<Judged> decisions;
  std::istringstream in(csv);
  bool after_columns = false;
  int number = 0;
  for (std::string line; std::getline(in, line);) {
    ++number;
    if (line.empty() || line[0] == '#') continue;
    if (!after_columns) {
      if (line != columns)
        return fmt::format("line {}: these are not the columns of a set", number);
      after_columns = true;
      continue;
    }
    if (const std::string wrong = read_line(line, decisions); !wrong.empty())
      return fmt::format("line {}: {}", number, wrong);
  }
  if (decisions.empty()) return std::string("there are no decisions in it");
  return decisions;
}

}  // namespace pointwright::train
