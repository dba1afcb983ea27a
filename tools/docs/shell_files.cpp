// Writes what is installed beside the program: its manual page and its completions for shells.
// usage: pointwright_shell_files FOLDER

#include <filesystem>
#include <iostream>
#include <string>
#include <string_view>

#include "app/files.hpp"
#include "app/reference/reference.hpp"

int main(int argc, char** argv) {
  namespace app = pointwright::app;
  struct ShellFile {
    std::string_view name;
    std::string (*text)(const app::Program&);
  };
  constexpr ShellFile files[] = {
      {"pointwright.1", app::manual_page},
      {"pointwright.bash", app::bash_completion},
      {"_pointwright", app::zsh_completion},
      {"pointwright.fish", app::fish_completion},
  };
  if (argc != 2) {
    std::cerr << "usage: pointwright_shell_files FOLDER\n";
    return 2;
  }
  try {
    const app::Program program;
    for (const ShellFile& file : files) {
      const auto wrong =
          app::write_file(std::filesystem::path{argv[1]} / file.name, file.text(program));
      if (!wrong) continue;
      std::cerr << app::described(*wrong, false, 100);
      return 1;
    }
  } catch (const std::exception& error) {
    std::cerr << "pointwright_shell_files: " << error.what() << '\n';
    return 1;
  }
  return 0;
}
