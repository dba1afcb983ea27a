#include "film/captions.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>

#include "rules/text.hpp"

namespace pointwright::film {

namespace {

int code_points(std::string_view text) {
  return static_cast<int>(std::ranges::count_if(
      text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

// The words between white space, without control characters.
std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  bool inside = false;
  for (const char c : text) {
    const bool gap = text::is_space(c) || static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
    if (!gap) {
      if (!inside) {
        words.emplace_back();
      }
      words.back() += c;
    }
    inside = !gap;
  }
  return words;
}

std::string joined(const std::vector<std::string>& words, std::size_t from, std::size_t to) {
  std::string text;
  for (std::size_t i = from; i < to; ++i) {
    text += (i == from ? "" : " ") + words[i];
  }
  return text;
}

// How unwelcome a break after a word is: none at the end of a sentence, little at a comma, much
// after a small word that leans on the next one.
double break_cost(const std::string& word, const std::string& next) {
  static constexpr std::array<std::string_view, 24> leaning{
      "a",  "an",  "the", "of",   "to",  "in", "on",  "at", "by",  "for", "with", "from",
      "is", "are", "was", "were", "and", "or", "but", "no", "its", "his", "her",  "their"};
  static constexpr std::array<std::string_view, 10> opening{
      "and", "or", "but", "so", "because", "that", "which", "when", "where", "if"};
  const auto stripped = [](const std::string& text) {
    std::string lower;
    for (const char c : text) {
      lower += text::lower(c);
    }
    return lower;
  };
  const char last = word.back();
  if (last == '.' || last == '?' || last == '!') {
    return 0;
  }
  if (last == ',' || last == ';' || last == ':') {
    return 40;
  }
  if (std::ranges::find(leaning, stripped(word)) != leaning.end()) {
    return 260;
  }
  return std::ranges::find(opening, stripped(next)) != opening.end() ? 70 : 120;
}

// Cuts words into pieces of at most `length` characters: as few pieces as can be, then at the best
// places, then of like length. Returns where each piece ends.
std::vector<std::size_t> cuts(const std::vector<std::string>& words, int length) {
  struct Best {
    double cost = std::numeric_limits<double>::infinity();
    std::size_t from = 0;
  };
  constexpr double cost_of_a_piece = 10'000;
  const std::size_t n = words.size();
  std::vector<Best> best(n + 1);
  best[0].cost = 0;
  for (std::size_t to = 1; to <= n; ++to) {
    int characters = -1;
    for (std::size_t from = to; from-- > 0;) {
      characters += 1 + code_points(words[from]);
      if (characters > length && from + 1 < to) {
        break;
      }
      const double slack = std::max(0, length - characters);
      double cost = best[from].cost + cost_of_a_piece + slack * slack / length * 4;
      if (to < n) {
        cost += break_cost(words[to - 1], words[to]);
      }
      if (cost < best[to].cost) {
        best[to] = {cost, from};
      }
    }
  }
  std::vector<std::size_t> ends;
  for (std::size_t at = n; at > 0; at = best[at].from) {
    ends.push_back(at);
  }
  std::ranges::reverse(ends);
  return ends;
}

// The words of a beat as pieces that fit into one caption each, every one already in lines.
std::vector<std::vector<std::string>> pieces(std::string_view text, const CaptionRules& rules) {
  std::vector<std::string> lines = caption_lines(text, rules.line_length);
  if (lines.size() <= static_cast<std::size_t>(rules.lines)) {
    using Pieces = std::vector<std::vector<std::string>>;
    return lines.empty() ? Pieces{} : Pieces{std::move(lines)};
  }
  // Cut into captions first, so that a sentence is not broken where lines happen to end. Lines can
  // come out fuller than a half, so the piece is made smaller until it fits.
  const std::vector<std::string> words = words_of(text);
  std::vector<std::vector<std::string>> result;
  for (int length = rules.line_length * rules.lines; length >= rules.line_length; length -= 4) {
    result.clear();
    std::size_t from = 0;
    bool fits = true;
    for (const std::size_t to : cuts(words, length)) {
      result.push_back(caption_lines(joined(words, from, to), rules.line_length));
      fits = fits && result.back().size() <= static_cast<std::size_t>(rules.lines);
      from = to;
    }
    if (fits) {
      return result;
    }
  }
  result.clear();
  for (std::string& line : lines) {
    result.push_back({std::move(line)});
  }
  return result;
}

void add_beat(std::vector<Cue>& cues, const Beat& beat, Milliseconds shot_begin,
              const CaptionRules& rules) {
  const auto parts = pieces(beat.words(), rules);
  if (parts.empty()) {
    return;
  }
  // Each piece gets the share of the speaking time that its characters have.
  std::vector<int> weight;
  int all = 0;
  for (const auto& lines : parts) {
    int characters = 0;
    for (const std::string& line : lines) {
      characters += code_points(line);
    }
    weight.push_back(characters);
    all += characters;
  }
  Milliseconds at = shot_begin + beat.begin;
  int before = 0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    before += weight[i];
    const bool last = i + 1 == parts.size();
    const Milliseconds end =
        last ? shot_begin + beat.end() : shot_begin + beat.begin + beat.speech * before / all;
    cues.push_back({at, end, parts[i]});
    at = end;
  }
  Cue& last = cues.back();
  const Milliseconds spoken = shot_begin + beat.begin + beat.speech + rules.linger;
  last.end = std::min(last.end, std::max(spoken, last.begin + rules.shortest));
}

std::string timestamp(Milliseconds time, char point) {
  const long ms = static_cast<long>(time.count());
  return fmt::format("{:02}:{:02}:{:02}{}{:03}", ms / 3'600'000, ms / 60'000 % 60, ms / 1000 % 60,
                     point, ms % 1000);
}

// Only these three: many players of WebVTT show an escaped quotation mark as it is written.
std::string vtt_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

// Players of SubRip text take angle brackets for markup and an arrow for a time: they are turned
// into their single quotation forms, which look alike.
std::string srt_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    out += c == '<' ? "‹" : c == '>' ? "›" : std::string(1, c);
  }
  return out;
}

std::string one_line(std::string_view text) {
  const auto words = words_of(text);
  return joined(words, 0, words.size());
}

}  // namespace

int Cue::characters() const {
  int all = 0;
  for (const std::string& line : lines) {
    all += code_points(line);
  }
  return all;
}

double Cue::characters_a_second() const {
  const double seconds = static_cast<double>((end - begin).count()) / 1000;
  return seconds > 0 ? characters() / seconds : std::numeric_limits<double>::infinity();
}

std::vector<std::string> caption_lines(std::string_view text, int length) {
  const std::vector<std::string> words = words_of(text);
  std::vector<std::string> lines;
  std::size_t from = 0;
  for (const std::size_t to : cuts(words, length)) {
    lines.push_back(joined(words, from, to));
    from = to;
  }
  return lines;
}

std::vector<Cue> captions(const std::vector<Shot>& shots, const CaptionRules& rules) {
  std::vector<Cue> cues;
  Milliseconds begin{0};
  for (const Shot& shot : shots) {
    for (const Beat& beat : shot.beats) {
      add_beat(cues, beat, begin, rules);
    }
    begin += shot.length;
  }
  std::erase_if(cues, [](const Cue& cue) { return cue.end <= cue.begin; });
  return cues;
}

std::vector<Cue> captions(const Shot& shot, const CaptionRules& rules) {
  std::vector<Cue> cues;
  for (const Beat& beat : shot.beats) {
    add_beat(cues, beat, Milliseconds{0}, rules);
  }
  std::erase_if(cues, [](const Cue& cue) { return cue.end <= cue.begin; });
  return cues;
}

std::vector<Mark> chapter_marks(const std::vector<Shot>& shots) {
  std::vector<Mark> marks;
  Milliseconds begin{0};
  const Chapter* chapter = nullptr;
  for (const Shot& shot : shots) {
    if (shot.chapter != chapter) {
      marks.push_back({begin, begin, shot.chapter->title});
      chapter = shot.chapter;
    }
    begin += shot.length;
    marks.back().end = begin;
  }
  return marks;
}

int too_fast(const std::vector<Cue>& cues, const CaptionRules& rules) {
  return static_cast<int>(std::ranges::count_if(
      cues, [&](const Cue& cue) { return cue.characters_a_second() > rules.fastest; }));
}

std::string to_vtt(const std::vector<Cue>& cues) {
  std::string out = "WEBVTT\n\n";
  int number = 0;
  for (const Cue& cue : cues) {
    out += fmt::format("{}\n{} --> {}\n", ++number, timestamp(cue.begin, '.'),
                       timestamp(cue.end, '.'));
    for (const std::string& line : cue.lines) {
      out += vtt_text(line) + "\n";
    }
    out += "\n";
  }
  return out;
}

std::string to_srt(const std::vector<Cue>& cues) {
  std::string out;
  int number = 0;
  for (const Cue& cue : cues) {
    out += fmt::format("{}\n{} --> {}\n", ++number, timestamp(cue.begin, ','),
                       timestamp(cue.end, ','));
    for (const std::string& line : cue.lines) {
      out += srt_text(line) + "\n";
    }
    out += "\n";
  }
  return out;
}

std::string to_vtt(const std::vector<Mark>& marks) {
  std::string out = "WEBVTT\n\n";
  int number = 0;
  for (const Mark& mark : marks) {
    out += fmt::format("{}\n{} --> {}\n{}\n\n", ++number, timestamp(mark.begin, '.'),
                       timestamp(mark.end, '.'), vtt_text(one_line(mark.title)));
  }
  return out;
}

}  // namespace pointwright::film
