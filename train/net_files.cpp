#include "train/net_files.hpp"

#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>

#include "judge/shipped.hpp"
#include "rules/fingerprint.hpp"

namespace pointwright::train {
namespace {

std::uint64_t fingerprint(const judge::Weights& weights) {
  Fingerprint print;
  for (const std::uint8_t byte : judge::to_bytes(weights)) print.add_byte(byte);
  return print.value();
}

}  // namespace

void fail(const std::string& reason) {
  fmt::print(stderr, "{}\n", reason);
  std::exit(2);
}

std::string read_file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) fail("cannot read " + path);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

void write_file(const std::string& path, const std::string& text) {
  const std::string temporary = path + ".new";
  std::ofstream out(temporary, std::ios::binary);
  out << text;
  out.close();
  if (!out || std::rename(temporary.c_str(), path.c_str()) != 0) fail("cannot write " + path);
}

judge::Weights load_net(const std::string& path) {
  const std::string raw = read_file(path);
  const std::vector<std::uint8_t> bytes(raw.begin(), raw.end());
  const auto weights = judge::weights_from_bytes(bytes);
  if (!weights) fail(path + ": " + weights.error().reason);
  return *weights;
}

void save_net(const std::string& path, const judge::Weights& weights) {
  const auto bytes = judge::to_bytes(weights);
  write_file(path, std::string(bytes.begin(), bytes.end()));
}

std::string net_path(const std::string& folder, judge::Phase phase) {
  return folder + "/" + std::string(name(phase)) + ".net";
}

Nets::Nets(const std::string& folder) : by_phase(judge::shipped_weights()) {
  if (folder.empty()) return;
  for (const judge::Phase phase : judge::all_phases)
    by_phase[static_cast<std::size_t>(phase)] = load_net(net_path(folder, phase));
}

std::string Nets::text() const {
  std::string text = "nets:";
  for (const judge::Phase phase : judge::all_phases) {
    const judge::Weights& net = of(phase);
    text += fmt::format("{} {} {:016x} ({} hidden)", phase == judge::Phase::open ? "" : ",",
                        name(phase), fingerprint(net), net.hidden);
  }
  return text;
}

}  // namespace pointwright::train
