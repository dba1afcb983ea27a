#include "finder/proof.hpp"

#include <algorithm>

#include "rules/text.hpp"

namespace pointwright::finder {

Shown show(const Query& query, const Finding& finding, Side side) {
  Facts facts(side);
  facts.look_at(finding.board, finding.roll);
  Shown shown;
  shown.position = facts.position();
  for (const Statement& statement : query.proof(facts)) {
    shown.sentences.push_back(statement.sentence);
    for (const TextSpan line : text::split(statement.claim, {0, statement.claim.size()}, '\n')) {
      const std::string claim = statement.claim.substr(line.begin, line.end - line.begin);
      const bool known =
          std::find(shown.claims.begin(), shown.claims.end(), claim) != shown.claims.end();
      if (!claim.empty() && !known) shown.claims.push_back(claim);
    }
  }
  return shown;
}

std::string as_blocks(const Shown& shown, std::string_view name) {
  std::string text = "```board " + std::string(name) + "\n";
  text += to_text(shown.position) + "\n```\n";
  if (shown.claims.empty()) return text;
  text += "\n```claims\n";
  for (const std::string& claim : shown.claims) text += claim + "\n";
  return text + "```\n";
}

std::string name_for(const Query& query) {
  constexpr std::size_t longest = 30;
  std::string name;
  for (const char c : to_text(query)) {
    const char letter = text::lower(c);
    const bool plain = text::is_digit(letter) || (letter >= 'a' && letter <= 'z');
    if (plain)
      name += letter;
    else if (!name.empty() && name.back() != '-')
      name += '-';
    if (name.size() >= longest && !plain) break;
  }
  if (name.size() > longest) name.resize(longest);
  while (!name.empty() && name.back() == '-') name.pop_back();
  const bool letter_first = !name.empty() && !text::is_digit(name.front());
  return letter_first ? name : "board-" + name;
}

}  // namespace pointwright::finder
