#pragma once

#include <optional>
#include <set>
#include <string>

#include "studio/board_layout.hpp"
#include "studio/html.hpp"
#include "studio/page.hpp"
#include "studio/svg.hpp"

/// The parts that a page is made of. Each writes HTML to `out`.
namespace pointwright {

/// Collects what the boards of a page have in common, so that it is written once.
class BoardWriter {
 public:
  /// Writes a board as an inline picture: the shared ground and what the position adds.
  /// With `picked_by`, each place can be pointed at, as that side counts.
  void board(std::string& out, const Position& position, const BoardPicture& picture,
             std::string_view id, std::string_view title,
             std::optional<Side> picked_by = std::nullopt);

  /// Writes what the position adds alone, for a step of a scene.
  static void frame(std::string& out, const Position& position, const BoardPicture& picture);

  /// The figures and the grounds that were used. Comes after every board.
  void shared(std::string& out) const;

 private:
  std::set<std::string> grounds_used_;
  std::string grounds_;
};

/// What the writers of scenes and questions need to know of the page around them.
struct PageContext {
  const Chapter& chapter;
  ProseWriter& prose;
  BoardWriter& boards;
};

std::optional<PageFault> write_scene(std::string& out, const Scene& scene, PageContext& context);
std::optional<PageFault> write_question(std::string& out, const Question& question,
                                        PageContext& context);

/// What a question is called in a page.
std::string question_id(const Chapter& chapter, const Question& question);

/// "1 statement proved", with each statement and its proof on request.
void write_claims(std::string& out, const std::vector<ProvedClaim>& claims);

/// What a script needs to know of a board: its position, whose it is and how it is seen, as data
/// attributes.
std::string board_attributes(std::string_view position, const SideNames& names, const View& view);

/// How something is known, in words.
std::string known_words(const HowKnown& known);

}  // namespace pointwright
