#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace pointwright::app {

/// A table to print and hand out: what a card says, in plain text, for any form of it.
struct Card {
  std::string_view name;  ///< as it is asked for: "shots"
  std::string title;
  std::vector<std::string> columns;            ///< headings
  std::vector<std::vector<std::string>> rows;  ///< each as long as `columns`
  std::string note;                            ///< what the numbers are, and how they are known
};

/// A card's name, what it shows, and how it is made. Making one counts and solves what it prints.
struct CardMaker {
  std::string_view name;
  std::string_view shows;
  Card (*make)();
};

std::span<const CardMaker> card_makers();

/// The card as text, its columns set right.
std::string card_text(const Card& card, int width);

/// Cards as one HTML page that fetches nothing and prints one card a sheet.
std::string cards_page(const std::vector<Card>& cards);

/// A card as an SVG picture with real text.
std::string card_svg(const Card& card);

}  // namespace pointwright::app
