#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "chance/match_cube.hpp"
#include "lesson/claim.hpp"

/// Turns of phrase that several kinds of claim share.
namespace pointwright::lesson {

/// "Light", "Ivory": a side's name at the beginning of a sentence.
std::string Name(const Ask& ask, Side side);

/// The text with a capital first letter (ASCII).
std::string capitalised(std::string text);

/// "1 legal play", "12 legal plays".
std::string counted(std::int64_t n, std::string_view singular);

/// "a, b and c", at most `most` of them, then "and 9 more".
std::string listed(const std::vector<std::string>& items, std::size_t most = 6);

/// The legal plays of the ask's roll. Precondition: it has one.
std::vector<LegalPlay> plays_of(const Ask& ask);

/// The plays as a list for a sentence: "13/7 8/7, 24/18 and 13/9".
std::string list_of(const std::vector<LegalPlay>& plays, std::size_t most = 6);

/// Where the numbers of a match score come from.
inline constexpr std::string_view match_model_note =
    "The match table is the computed one of docs/match-table.md.";

/// Whether the match table reaches as far as this score.
bool covered_by_table(const chance::Needs& needs);

/// Proved if the exact `truth` lies within the stated tolerance of what stands for `blank`.
/// Without a tolerance the two must agree to twelve digits.
Answer judged(const Ask& ask, std::string_view blank, double truth, std::string sentence,
              std::string proof, std::string correction);

}  // namespace pointwright::lesson
