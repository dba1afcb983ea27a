#pragma once

#include <string_view>

/// Files of film/assets/, built into the library by cmake/EmbedText.cmake.
namespace pointwright::film::assets {

extern const std::string_view slides_css;
extern const std::string_view slides_js;

}  // namespace pointwright::film::assets
