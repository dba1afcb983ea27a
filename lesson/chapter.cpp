#include "lesson/chapter.hpp"

#include <fmt/format.h>

#include <map>

#include "lesson/blocks.hpp"
#include "lesson/board.hpp"
#include "lesson/claim_check.hpp"
#include "lesson/question.hpp"
#include "lesson/show.hpp"

namespace pointwright::lesson {
namespace {

class ChapterCompiler {
 public:
  ChapterCompiler(Chapter& chapter, Tally& claims, Tally& answers, const Help& help, Report& report)
      : chapter_(chapter),
        report_(report),
        claims_(chapter.names, claims, help, report),
        questions_(chapter.names, boards_, answers, help, report) {}

  void add(const Prose& prose) { chapter_.parts.push_back({prose, std::nullopt, std::nullopt}); }

  void add(const Fenced& block) {
    switch (block.kind) {
      case Fenced::Kind::board:
        add_board(block);
        break;
      case Fenced::Kind::show:
        add_show(block);
        break;
      case Fenced::Kind::claims:
        add_claims(block);
        break;
      case Fenced::Kind::question:
        add_question(block);
        break;
    }
  }

 private:
  void add_question(const Fenced& block) {
    if (asked_++ < most_questions) {
      chapter_.parts.push_back({std::nullopt, std::nullopt, questions_.read(block)});
    } else if (asked_ == most_questions + 1) {
      report_.add(kinds::too_long, block.opening,
                  fmt::format("from here on questions are not read: a chapter has at most {}",
                              most_questions));
    }
  }

  void add_board(const Fenced& block) {
    Scene scene = read_board(block, boards_, chapter_.parts.size(), report_);
    chapter_.parts.push_back({std::nullopt, std::move(scene), std::nullopt});
  }

  void add_show(const Fenced& block) {
    const NamedBoard* board = board_of_block(block, boards_, report_);
    if (board == nullptr || !board->position) return;
    // A second show of a board goes on where the first one ended.
    auto stage = stages_.find(board->part);
    if (stage == stages_.end())
      stage = stages_.emplace(board->part, Stage(*board->position, chapter_.names)).first;
    stage->second.run(block, boards_, *chapter_.parts[board->part].scene, report_);
  }

  void add_claims(const Fenced& block) {
    const NamedBoard* board = board_of_block(block, boards_, report_);
    const std::vector<ProvedClaim> proved =
        claims_.check_block(block, board == nullptr ? std::nullopt : board->position);
    if (board == nullptr) return;
    auto& claims = chapter_.parts[board->part].scene->claims;
    claims.insert(claims.end(), proved.begin(), proved.end());
  }

  Chapter& chapter_;
  Report& report_;
  Boards boards_;
  std::map<std::size_t, Stage> stages_;  ///< by the scene's part
  ClaimChecker claims_;
  QuestionReader questions_;
  std::size_t asked_ = 0;
};

}  // namespace

Chapter compile_chapter(const SideNames& sides, Tally& claims, Tally& answers, const Help& help,
                        Report& report, std::vector<int>& part_lines) {
  const SourceText& source = report.source();
  Chapter chapter;
  chapter.file = source.name();
  chapter.id = chapter_id(source.name());
  chapter.names = sides;
  const Blocks blocks = read_blocks(source, report);
  if (blocks.front_matter) {
    FrontMatter front = read_front_matter(*blocks.front_matter, report);
    chapter.title = std::move(front.title);
    chapter.summary = std::move(front.summary);
    if (front.sides) chapter.names = *front.sides;
  }
  ChapterCompiler compiler(chapter, claims, answers, help, report);
  for (const Block& block : blocks.blocks) {
    std::visit([&](const auto& content) { compiler.add(content); }, block.content);
    part_lines.resize(chapter.parts.size(), block.line);
  }
  return chapter;
}

}  // namespace pointwright::lesson
