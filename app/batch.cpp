#include "app/batch.hpp"

#include <fmt/format.h>

#include <limits>

namespace pointwright::app {
namespace {

bool is_blank(std::string_view line) {
  return line.find_first_not_of(" \t") == line.npos;
}

Failure too_long(std::string_view beginning) {
  constexpr std::size_t shown = 80;
  Failure result =
      failure("line-too-long", fmt::format("the line is longer than {} bytes", longest_line),
              "write one position a line; it seldom takes more than two hundred");
  result.text = fmt::format("{}…", beginning.substr(0, shown));
  result.faults.front().where = {.begin = 0, .end = shown};
  return result;
}

}  // namespace

std::optional<LineReader::Line> LineReader::next() {
  if (!in_.good()) return std::nullopt;
  // Room for the longest line, its CR, and the terminator that getline writes.
  in_.getline(buffer_.data(), static_cast<std::streamsize>(buffer_.size()));
  const bool cut = in_.fail() && !in_.eof() && !in_.bad() &&
                   in_.gcount() == static_cast<std::streamsize>(buffer_.size()) - 1;
  if (cut) {
    in_.clear();
    in_.ignore(std::numeric_limits<std::streamsize>::max(), '\n');
  } else if (in_.bad() || (in_.eof() && in_.gcount() == 0)) {
    return std::nullopt;
  }
  ++number_;
  if (cut) return Line{{buffer_.data(), longest_line}, number_, true};
  // gcount includes the newline that getline took and did not store.
  auto size = static_cast<std::size_t>(in_.gcount());
  if (!in_.eof()) --size;
  std::string_view text{buffer_.data(), size};
  if (text.ends_with('\r')) text.remove_suffix(1);
  return Line{text, number_, text.size() > longest_line};
}

int answer_batch(Io& io, const AnswerLine& answer) {
  LineReader reader{io.in};
  int exit = exit_fine;
  while (io.out.good()) {
    // Before waiting for more input, pass on what has been answered.
    if (io.in.rdbuf()->in_avail() <= 0) io.out.flush();
    const auto line = reader.next();
    if (!line) break;
    if (!line->too_long && is_blank(line->text)) continue;
    const Result<Json, Failure> result =
        line->too_long ? Result<Json, Failure>{too_long(line->text)} : answer(line->text);
    if (result.ok()) {
      io.out << to_line(*result) << '\n';
      continue;
    }
    Failure why = result.error();
    why.line = line->number;
    io.out << to_line(to_json(why)) << '\n';
    exit = exit_bad_input;
  }
  io.out.flush();
  if (io.in.bad()) {
    return complain(failure("cannot-read", "standard input cannot be read to its end",
                            "give it a file or a pipe of position lines"),
                    io);
  }
  return exit;
}

}  // namespace pointwright::app
