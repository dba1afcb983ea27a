#pragma once

#include <string>
#include <vector>

#include "press/document.hpp"
#include "storyboard/storyboard.hpp"

/// Prose, claims and shows as they are printed.
namespace pointwright::press {

/// Words as Pango's markup.
std::string markup(const std::vector<Inline>& words);

/// One block of prose.
void set_prose(Document& document, const Prose& prose);

/// The board of a scene as it begins, with its caption, its steps and what was proved beside it.
/// `where` names the scene in a fault.
Result<bool, PressFault> set_scene(Document& document, const Scene& scene, const SideNames& names);

/// What was proved, in small type.
void set_claims(Document& document, const std::vector<ProvedClaim>& claims);

/// Share of the column that a board takes when words stand beside it.
inline constexpr double board_share = 0.46;

}  // namespace pointwright::press
