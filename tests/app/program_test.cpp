#include "app/program.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/help.hpp"
#include "tests/app/command_line.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(Program, ShowsHelpOnRequestAndWithoutArguments) {
  const Outcome asked = command({"--help"});
  EXPECT_EQ(asked.exit, exit_fine);
  const Program program;
  for (const Verb& verb : program.verbs()) {
    EXPECT_THAT(asked.out, HasSubstr(std::string{verb.guide.name}));
  }
  const Outcome bare = command({});
  EXPECT_EQ(bare.exit, exit_bad_input);
  EXPECT_EQ(bare.out, "");
  EXPECT_EQ(bare.err, asked.out);
}

TEST(Program, TellsItsVersion) {
  const Outcome version = command({"--version"});
  EXPECT_EQ(version.exit, exit_fine);
  EXPECT_EQ(version.out, version_line() + "\n");
}

TEST(Program, EveryVerbTeaches) {
  const Program program;
  for (const Verb& verb : program.verbs()) {
    const std::string name{verb.guide.name};
    const Outcome help = command({name, "--help"});
    EXPECT_EQ(help.exit, exit_fine) << name;
    EXPECT_EQ(help.out, command({"help", name}).out);
    EXPECT_THAT(help.out, HasSubstr("Examples")) << name;
    // A game is a conversation, which has no one answer.
    if (name != "play") EXPECT_THAT(help.out, HasSubstr("json")) << name;
    ASSERT_FALSE(verb.guide.examples.empty()) << name;
    for (const Example& example : verb.guide.examples) {
      EXPECT_THAT(std::string{example.command}, HasSubstr("pointwright " + name));
    }
    for (const Parameter& parameter : verb.options.parameters()) {
      EXPECT_FALSE(parameter.text.empty()) << name << " " << parameter.names.front();
    }
  }
}

TEST(Program, SuggestsTheVerbThatWasMeant) {
  const Outcome typo = command({"palys"});
  EXPECT_EQ(typo.exit, exit_bad_input);
  EXPECT_EQ(typo.out, "");
  EXPECT_THAT(typo.err, HasSubstr("did you mean `plays`?"));
  const Outcome far = command({"zzzzzzzz"});
  EXPECT_EQ(far.exit, exit_bad_input);
  EXPECT_THAT(far.err, Not(HasSubstr("did you mean")));
}

TEST(Program, SuggestsTheOptionThatWasMeant) {
  const Outcome typo = command({"plays", "start; light to play 3-1", "--jsn"});
  EXPECT_EQ(typo.exit, exit_bad_input);
  EXPECT_THAT(typo.err, HasSubstr("did you mean `--json`?"));
  EXPECT_THAT(command({"--versoin"}).err, HasSubstr("did you mean `--version`?"));
}

TEST(Program, RefusesWhatIsLeftOver) {
  const Outcome extra = command({"plays", "start; light to play 3-1", "8/5"});
  EXPECT_EQ(extra.exit, exit_bad_input);
  EXPECT_THAT(extra.err, HasSubstr("`8/5` was not expected"));
}

TEST(Program, ReportsAnAnswerThatCannotBeWritten) {
  std::istringstream in;
  std::ostringstream out;
  std::ostringstream err;
  out.setstate(std::ios::badbit);
  Io io{.in = in, .out = out, .err = err};
  EXPECT_EQ(Program{}.run({"--version"}, io), exit_bad_input);
  EXPECT_THAT(err.str(), HasSubstr("cannot be written"));
}

}  // namespace
}  // namespace pointwright::app
