#include "app/batch.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdint>
#include <random>

#include "app/plays.hpp"
#include "rules/play.hpp"
#include "tests/app/command_line.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;

/// Positions from games in which every play is picked at random.
std::vector<Position> random_positions(std::size_t count, std::uint32_t seed) {
  std::mt19937 random(seed);
  const auto die = [&] { return static_cast<int>(random() % 6U) + 1; };
  std::vector<Position> positions;
  Position position;
  position.board = starting_board();
  position.turn = Side::light;
  while (positions.size() < count) {
    position.roll = Roll{die(), die()};
    positions.push_back(position);
    const auto plays = legal_plays(position.board, *position.turn, *position.roll);
    if (!plays.empty()) position.board = plays[random() % plays.size()].after;
    if (has_won(position.board, *position.turn)) position.board = starting_board();
    position.turn = opponent(*position.turn);
  }
  return positions;
}

TEST(Batch, AThousandRandomPositionsGiveTheAnswersOfThisProcess) {
  const auto positions = random_positions(1000, 20'000);
  std::string input;
  for (const Position& position : positions) input += to_text(position) + "\n";
  const Outcome answer = command({"plays", "--batch"}, input);
  EXPECT_EQ(answer.exit, exit_fine);
  EXPECT_EQ(answer.err, "");
  const auto lines = answer.lines();
  ASSERT_EQ(lines.size(), positions.size());
  for (std::size_t i = 0; i < positions.size(); ++i) {
    EXPECT_EQ(lines[i], plays_object(positions[i])) << to_text(positions[i]);
  }
}

TEST(Batch, ErrorsStandInPlaceAndTheOtherLinesAreAnswered) {
  const std::string good = "light 6x1; dark 6x1; light to play 2-1";
  const std::string bad = "light 6x1; dark 6x1; light to play 2-9";
  const Outcome answer = command({"plays", "--batch"}, good + "\n" + bad + "\n" + good + "\n");
  EXPECT_EQ(answer.exit, exit_bad_input);
  EXPECT_EQ(answer.err, "");
  const auto lines = answer.lines();
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[0], lines[2]);
  EXPECT_TRUE(lines[0].contains("plays"));
  EXPECT_EQ(lines[1]["input"], bad);
  EXPECT_EQ(lines[1]["error"]["at"]["line"], 2);
  for (const char* key : {"id", "reason", "fix"}) {
    EXPECT_FALSE(lines[1]["error"][key].get<std::string>().empty()) << key;
  }
}

TEST(Batch, ReadsCrlfBlankLinesAndALastLineWithoutItsEnd) {
  const std::string line = "light 6x1; dark 6x1; light to play 2-1";
  const Outcome plain = command({"plays", "--batch"}, line + "\n" + line + "\n");
  const Outcome windows = command({"plays", "--batch"}, "\r\n" + line + "\r\n \t\r\n\n" + line);
  EXPECT_EQ(windows.exit, exit_fine);
  EXPECT_EQ(windows.out, plain.out);
  EXPECT_EQ(command({"plays", "--batch"}, "").out, "");
}

TEST(Batch, AnEndlessLineIsAnErrorInPlace) {
  const std::string good = "light 6x1; dark 6x1; light to play 2-1";
  for (const std::size_t size : {longest_line + 1, longest_line + 2, longest_line + 3,
                                 longest_line + 4, std::size_t{3'000'000}}) {
    const Outcome answer =
        command({"plays", "--batch"}, good + "\n" + std::string(size, 'x') + "\n" + good + "\n");
    EXPECT_EQ(answer.exit, exit_bad_input);
    const auto lines = answer.lines();
    ASSERT_EQ(lines.size(), 3U) << size;
    EXPECT_EQ(lines[1]["error"]["id"], "line-too-long") << size;
    EXPECT_LT(lines[1].dump().size(), 1000U);
    EXPECT_EQ(lines[2], lines[0]);
  }
  const Outcome last = command({"plays", "--batch"}, std::string(longest_line * 2, 'x'));
  EXPECT_EQ(last.lines().at(0)["error"]["id"], "line-too-long");
}

TEST(Batch, TheLongestLineIsRead) {
  for (const char* end : {"\n", "\r\n", ""}) {
    std::istringstream in(std::string(longest_line, 'x') + end);
    LineReader reader{in};
    const auto line = reader.next();
    ASSERT_TRUE(line);
    EXPECT_FALSE(line->too_long);
    EXPECT_EQ(line->text.size(), longest_line);
    EXPECT_FALSE(reader.next());
  }
}

TEST(Batch, AnyBytesAreAnsweredWithValidJson) {
  std::mt19937 random(7);
  std::string input;
  std::size_t expected = 0;
  for (int i = 0; i < 500; ++i) {
    std::string line = i % 2 == 0 ? "light 6x1; dark 6x1; light to play 2-1" : "";
    const std::size_t size = random() % 40U;
    for (std::size_t k = 0; k < size; ++k) {
      const char byte = static_cast<char>(random() % 256U);
      if (byte == '\n' || byte == '\r' || byte == ' ' || byte == '\t') continue;
      line.insert(line.begin() + static_cast<std::ptrdiff_t>(random() % (line.size() + 1)), byte);
    }
    if (!line.empty()) ++expected;
    input += line + "\n";
  }
  EXPECT_EQ(command({"plays", "--batch"}, input).lines().size(), expected);
}

/// A source that fails the test if it is asked for more while answers are still held back.
class OneAtATime : public std::streambuf {
 public:
  OneAtATime(std::vector<std::string> lines, const std::ostringstream& out)
      : lines_(std::move(lines)), out_(out) {}
  [[nodiscard]] bool always_answered() const { return always_answered_; }

 protected:
  int_type underflow() override {
    const std::string text = out_.str();
    const auto answers = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
    always_answered_ = always_answered_ && answers == given_;
    if (given_ == lines_.size()) return traits_type::eof();
    current_ = lines_[given_++] + "\n";
    setg(current_.data(), current_.data(), current_.data() + current_.size());
    return traits_type::to_int_type(current_.front());
  }

 private:
  std::vector<std::string> lines_;
  const std::ostringstream& out_;
  std::string current_;
  std::size_t given_ = 0;
  bool always_answered_ = true;
};

TEST(Batch, EachLineIsAnsweredBeforeTheNextIsAskedFor) {
  std::ostringstream out;
  std::ostringstream err;
  OneAtATime source(std::vector<std::string>(20, "light 6x1; dark 6x1; light to play 2-1"), out);
  std::istream in(&source);
  Io io{.in = in, .out = out, .err = err};
  EXPECT_EQ(Program{}.run({"plays", "--batch"}, io), exit_fine);
  EXPECT_TRUE(source.always_answered());
}

TEST(Batch, StopsWhenNobodyCanReadTheAnswers) {
  std::istringstream in("light 6x1; dark 6x1; light to play 2-1\n");
  std::ostringstream out;
  std::ostringstream err;
  out.setstate(std::ios::badbit);
  Io io{.in = in, .out = out, .err = err};
  EXPECT_EQ(Program{}.run({"plays", "--batch"}, io), exit_bad_input);
  EXPECT_THAT(err.str(), HasSubstr("cannot be written"));
}

}  // namespace
}  // namespace pointwright::app
