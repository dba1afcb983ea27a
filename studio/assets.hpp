#pragma once

#include <string_view>

/// Files of studio/assets/, built into the library by cmake/EmbedText.cmake.
namespace pointwright::assets {

extern const std::string_view base_css;
extern const std::string_view page_css;
extern const std::string_view page_js;

}  // namespace pointwright::assets
