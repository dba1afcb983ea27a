// How long the demo course takes from text to checked storyboard, and to JSON.
// usage: bench_course (from the top of the tree)

#include <benchmark/benchmark.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>

#include "lesson/lesson.hpp"
#include "storyboard/json.hpp"

namespace pointwright {
namespace {

/// The files of the demo course, read once, so that the disk is not measured.
const std::map<std::string, std::string>& files() {
  static const std::map<std::string, std::string> all = [] {
    std::map<std::string, std::string> read;
    for (const auto& entry : std::filesystem::directory_iterator("lessons/first-evenings")) {
      std::ifstream file(entry.path(), std::ios::binary);
      read[entry.path().filename().string()] = {std::istreambuf_iterator<char>(file), {}};
    }
    return read;
  }();
  return all;
}

lesson::Host host() {
  return {[](const std::string& name) -> Result<std::string, lesson::ReadFailure> {
    const auto found = files().find(name);
    if (found == files().end()) return lesson::ReadFailure{"there is no such file"};
    return found->second;
  }};
}

void check_course(benchmark::State& state) {
  int claims = 0;
  int chapters = 0;
  for (auto step : state) {
    static_cast<void>(step);
    const lesson::Compilation course = lesson::compile_course(host());
    claims = course.claims.proved;
    chapters = static_cast<int>(course.storyboard.chapters.size());
  }
  state.counters["chapters"] = chapters;
  state.counters["claims"] = claims;
}
BENCHMARK(check_course)->Unit(benchmark::kMillisecond);

void write_storyboard(benchmark::State& state) {
  const lesson::Compilation course = lesson::compile_course(host());
  std::size_t bytes = 0;
  for (auto step : state) {
    static_cast<void>(step);
    bytes = to_json(course.storyboard).size();
  }
  state.counters["bytes"] = static_cast<double>(bytes);
}
BENCHMARK(write_storyboard)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace pointwright

BENCHMARK_MAIN();
