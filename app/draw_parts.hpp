#pragma once

#include <string>

#include "app/failure.hpp"
#include "rules/result.hpp"
#include "storyboard/storyboard.hpp"

/// What the options of `draw` hold, read from text.
namespace pointwright::app {

/// Reads "light 22": a place as that side counts.
Result<Mark, Failure> read_mark(const std::string& text);

/// Reads "light bar/22": an arrow as that side counts.
Result<Arrow, Failure> read_arrow(const std::string& text);

/// Reads "Ivory,Walnut": what light and dark are called.
Result<SideNames, Failure> read_side_names(const std::string& text);

}  // namespace pointwright::app
