#include "film/voice.hpp"

#include <algorithm>

#include "rules/text.hpp"

namespace pointwright::film {

namespace {

constexpr std::size_t bytes_a_sample = 2;

std::uint32_t number_at(std::string_view bytes, std::size_t at, std::size_t length) {
  std::uint32_t number = 0;
  for (std::size_t i = length; i-- > 0;) {
    number = number << 8U | static_cast<unsigned char>(bytes[at + i]);
  }
  return number;
}

std::string little_endian(std::size_t number, int length) {
  std::string bytes;
  for (int i = 0; i < length; ++i) {
    bytes += static_cast<char>(number & 0xFFU);
    number >>= 8U;
  }
  return bytes;
}

std::string chunk(std::string_view name, const std::string& contents) {
  std::string bytes(name);
  bytes += little_endian(contents.size(), 4) + contents;
  // Chunks begin at even places.
  if (contents.size() % 2 != 0) {
    bytes += '\0';
  }
  return bytes;
}

std::size_t samples_in(Milliseconds time, int rate) {
  return static_cast<std::size_t>(time.count() * rate / 1000);
}

}  // namespace

Milliseconds Sound::length() const {
  return rate == 0 ? Milliseconds{0}
                   : Milliseconds{static_cast<long>(samples.size()) * 1000 / rate};
}

std::string words_to_read(std::string_view words) {
  std::string spoken;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const char c = words[i];
    const bool after_digit = i > 0 && text::is_digit(words[i - 1]);
    const bool before_digit = i + 1 < words.size() && text::is_digit(words[i + 1]);
    const bool in_a_play = after_digit || (i >= 3 && words.substr(i - 3, 3) == "bar");
    if (c == '/' && in_a_play) {
      spoken += " to ";
    } else if (c == '-' && after_digit && before_digit) {
      spoken += ' ';
    } else if (c == '*' && after_digit) {
      spoken += ", hitting";
    } else {
      // Control characters could be commands to a synthesiser.
      spoken += static_cast<unsigned char>(c) < 0x20 || c == 0x7F ? ' ' : c;
    }
  }
  return spoken;
}

std::optional<Sound> read_wave(std::string_view bytes) {
  constexpr std::size_t head = 12;
  constexpr std::size_t chunk_head = 8;
  constexpr std::size_t format_size = 16;
  if (bytes.size() < head || bytes.substr(0, 4) != "RIFF" || bytes.substr(8, 4) != "WAVE") {
    return std::nullopt;
  }
  Sound sound;
  for (std::size_t at = head; at + chunk_head <= bytes.size();) {
    const std::string_view name = bytes.substr(at, 4);
    const std::size_t told = number_at(bytes, at + 4, 4);
    at += chunk_head;
    const std::size_t size = std::min(told, bytes.size() - at);
    if (name == "fmt ") {
      constexpr std::uint32_t pcm = 1;
      const bool known = size >= format_size && number_at(bytes, at, 2) == pcm &&
                         number_at(bytes, at + 2, 2) == 1 && number_at(bytes, at + 14, 2) == 16;
      constexpr std::uint32_t highest_rate = 192'000;
      const std::uint32_t rate = known ? number_at(bytes, at + 4, 4) : 0;
      if (rate == 0 || rate > highest_rate) {
        return std::nullopt;
      }
      sound.rate = static_cast<int>(rate);
    } else if (name == "data") {
      if (sound.rate == 0) {
        return std::nullopt;
      }
      sound.samples.reserve(size / bytes_a_sample);
      for (std::size_t i = 0; i + bytes_a_sample <= size; i += bytes_a_sample) {
        sound.samples.push_back(
            static_cast<std::int16_t>(number_at(bytes, at + i, bytes_a_sample)));
      }
      return sound;
    }
    at += size + size % 2;
  }
  return std::nullopt;
}

std::string to_wave(const Sound& sound, std::string_view comment) {
  const auto rate = static_cast<std::size_t>(sound.rate);
  const std::string format = little_endian(1, 2) + little_endian(1, 2) + little_endian(rate, 4) +
                             little_endian(rate * bytes_a_sample, 4) +
                             little_endian(bytes_a_sample, 2) + little_endian(16, 2);
  std::string data;
  data.reserve(sound.samples.size() * bytes_a_sample);
  for (const std::int16_t sample : sound.samples) {
    data += static_cast<char>(static_cast<std::uint16_t>(sample) & 0xFFU);
    data += static_cast<char>(static_cast<std::uint16_t>(sample) >> 8U);
  }
  const std::string words = std::string(comment) + '\0';
  return chunk("RIFF", "WAVE" + chunk("fmt ", format) +
                           chunk("LIST", "INFO" + chunk("ICMT", words)) + chunk("data", data));
}

void lay(Sound& track, const Sound& piece, Milliseconds at, Milliseconds at_most) {
  const std::size_t begin = samples_in(at, track.rate);
  if (begin >= track.samples.size()) {
    return;
  }
  const std::size_t count = std::min(
      {piece.samples.size(), samples_in(at_most, track.rate), track.samples.size() - begin});
  std::copy_n(piece.samples.begin(), count,
              track.samples.begin() + static_cast<std::ptrdiff_t>(begin));
}

}  // namespace pointwright::film
