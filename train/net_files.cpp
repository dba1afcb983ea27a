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

judge::Weights net_or(const std::string& path, std::span<const std::uint8_t> shipped) {
  return path.empty() ? *judge::weights_from_bytes(shipped) : load_net(path);
}

std::uint64_t fingerprint(const judge::Weights& weights) {
  Fingerprint print;
  for (const std::uint8_t byte : judge::to_bytes(weights)) print.add_byte(byte);
  return print.value();
}

}  // namespace

void fail(const std::string& reason) {
  std::fprintf(stderr, "%s\n", reason.c_str());
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

Nets::Nets(const std::string& contact_file, const std::string& race_file)
    : contact(net_or(contact_file, judge::shipped_contact_net())),
      race(net_or(race_file, judge::shipped_race_net())) {}

std::string Nets::text() const {
  return fmt::format("nets: contact {:016x} ({} hidden), race {:016x} ({} hidden)",
                     fingerprint(contact), contact.hidden, fingerprint(race), race.hidden);
}

}  // namespace pointwright::train
