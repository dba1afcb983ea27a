#pragma once

#include <string>
#include <vector>

#include "lesson/board.hpp"
#include "lesson/claim_check.hpp"

/// Question blocks: what is asked, and what counts as right.
namespace pointwright::lesson {

/// Reads and checks the questions of one chapter.
class QuestionReader {
 public:
  QuestionReader(const SideNames& names, const Boards& boards, Tally& answers, const Help& help,
                 Report& report)
      : names_(names), boards_(boards), answers_(answers), help_(help), report_(report) {}

  Question read(const Fenced& block);

 private:
  struct Entries;  // the block's lines by key

  void read_name(const Fenced& block, Question& question);
  void read_choices(const Entries& entries, const Position* position, Question& question);
  void read_number(TextSpan value, const Position* position, Question& question);
  void read_plays(const Entries& entries, const Fenced& block, const Position* position,
                  Question& question);
  void prove(TextSpan claim, const Position* position, Question& question);
  const NamedBoard* find(const Entries& entries, const Fenced& block, bool needed);

  const SideNames& names_;
  const Boards& boards_;
  Tally& answers_;
  Help help_;
  Report& report_;
  std::vector<std::pair<std::string, TextSpan>> known_;  ///< names of questions so far
};

}  // namespace pointwright::lesson
