#pragma once

#include "rules/suggest.hpp"

namespace pointwright::lesson {

using text::did_you_mean;
using text::edit_distance;
using text::one_of;

}  // namespace pointwright::lesson
