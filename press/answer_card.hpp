#pragma once

#include <string>

#include "press/picture.hpp"

namespace pointwright::press {

/// The answer to a learner's question, as a picture to send back.
struct AnswerCard {
  Position position;
  BoardPicture picture;  ///< with the arrows of the play that was asked about
  std::string answer;    ///< in a few words: "6/2 is refused", "11 of 36 rolls"
  std::string reason;    ///< two or three sentences
};

/// The card as PNG, its words below the board. The words that stand in for the picture are inside
/// the file too, under the keyword Description (W3C, Portable Network Graphics, iTXt). `width` as
/// in PictureOptions.
Result<std::string, PressFault> answer_png(const AnswerCard& card, int width = 1080);

/// What the picture shows, in words, for those who hear it.
std::string answer_description(const AnswerCard& card);

/// A PNG with a text in it, in UTF-8. Precondition: `png` is one; the keyword is plain ASCII.
std::string with_png_text(std::string png, const std::string& keyword, const std::string& text);

}  // namespace pointwright::press
