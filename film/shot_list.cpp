#include "film/shot_list.hpp"

#include <fmt/format.h>

namespace pointwright::film {

namespace {

std::string field(const std::string& text) {
  const bool formula =
      !text.empty() && std::string_view("=+-@\t\r").find(text[0]) != std::string_view::npos;
  std::string guarded = formula ? "'" + text : text;
  if (guarded.find_first_of(",\"\r\n") == std::string::npos) {
    return guarded;
  }
  std::string quoted = "\"";
  for (const char c : guarded) {
    quoted += c == '"' ? "\"\"" : std::string(1, c);
  }
  return quoted + "\"";
}

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
  std::string text;
  for (const std::string& part : parts) {
    text += (text.empty() ? "" : std::string(between)) + part;
  }
  return text;
}

std::string seconds_text(Milliseconds time) {
  return fmt::format("{}.{:03}", time.count() / 1000, time.count() % 1000);
}

}  // namespace

std::string to_csv(const std::vector<std::vector<std::string>>& rows) {
  std::string out;
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      out += (i == 0 ? "" : ",") + field(row[i]);
    }
    out += "\r\n";
  }
  return out;
}

std::string on_the_table(const Shot& shot) {
  return to_text(shot.start);
}

std::string hands(const Shot& shot) {
  std::vector<std::string> parts;
  for (const Beat& beat : shot.beats) {
    if (!beat.hands.empty()) {
      parts.push_back(beat.hands);
    }
  }
  return joined(parts, "; ");
}

std::string words(const Shot& shot) {
  std::vector<std::string> parts;
  for (const Beat& beat : shot.beats) {
    if (!beat.words().empty()) {
      parts.push_back(beat.words());
    }
  }
  return joined(parts, " ");
}

std::string shot_list_csv(const std::vector<Shot>& shots) {
  std::vector<std::vector<std::string>> rows{{"shot", "chapter", "title", "name", "begins",
                                              "seconds", "on the table", "hands", "words", "proves",
                                              "file", "line"}};
  Milliseconds begin{0};
  for (const Shot& shot : shots) {
    std::vector<std::string> proves;
    if (shot.opens_scene) {
      for (const ProvedClaim& claim : shot.scene->claims) {
        proves.push_back(claim.statement.empty() ? claim.text : claim.statement);
      }
    }
    const Source& source = shot.opens_scene || shot.beats.empty() ? shot.scene->source
                                                                  : shot.beats.front().step->source;
    rows.push_back({std::to_string(shot.number), shot.chapter->title, shot.title(), shot.id,
                    clock_text(begin), seconds_text(shot.length), on_the_table(shot), hands(shot),
                    words(shot), joined(proves, " "), source.file, std::to_string(source.line)});
    begin += shot.length;
  }
  return to_csv(rows);
}

}  // namespace pointwright::film
