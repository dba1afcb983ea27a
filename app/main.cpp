#include <csignal>
#include <exception>
#include <iostream>
#include <string>
#include <vector>

#include "app/io.hpp"
#include "app/program.hpp"

int main(int argc, char** argv) {
  std::ios::sync_with_stdio(false);
  std::cin.tie(nullptr);
  // A file that may grow no more is an error to be reported, not the end of the program.
  std::signal(SIGXFSZ, SIG_IGN);
  try {
    pointwright::app::Io io = pointwright::app::process_io();
    pointwright::app::Program program;
    return program.run(std::vector<std::string>(argv + (argc > 0 ? 1 : 0), argv + argc), io);
  } catch (const std::exception& error) {
    // Out of memory, or a mistake of ours: say so instead of dying without a word.
    std::cerr << "error: pointwright stopped: " << error.what() << '\n';
    return pointwright::app::exit_bad_input;
  }
}
