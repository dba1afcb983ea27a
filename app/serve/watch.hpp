#pragma once

#include <filesystem>
#include <string>

namespace pointwright::app {

/// Something that changes whenever a file of the folder is written, added or taken away: names,
/// sizes and times of its ordinary files. Hidden ones are left out, as are those in folders within.
/// Looking is what works on every file system, those of other computers included.
std::string state_of(const std::filesystem::path& folder);

}  // namespace pointwright::app
