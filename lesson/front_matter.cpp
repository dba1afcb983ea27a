#include "lesson/front_matter.hpp"

#include <fmt/format.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>

#include "lesson/lesson.hpp"
#include "lesson/suggest.hpp"
#include "rules/text.hpp"

namespace pointwright::lesson {
namespace {

/// The longest value of a key, in bytes, and the longest name of a side.
constexpr std::size_t longest_value = 2000;
constexpr std::size_t longest_side_name = 40;

/// Reads one YAML map of known keys. yaml-cpp reports by exceptions; none leaves this class's
/// users.
class MapReader {
 public:
  MapReader(TextSpan where, Report& report) : where_(where), report_(report) {}

  /// The keys and values of `node`, those that are not `known` reported.
  std::vector<std::pair<std::string, YAML::Node>> entries(const YAML::Node& node,
                                                          const std::vector<std::string>& known) {
    std::vector<std::pair<std::string, YAML::Node>> result;
    for (const auto& item : node) {
      const YAML::Node& key_node = item.first;
      const std::string key = key_node.IsScalar() ? key_node.Scalar() : "";
      const TextSpan at = span_of(key_node);
      if (std::ranges::find(known, key) == known.end()) {
        unknown(key, at, known);
      } else if (std::ranges::any_of(result,
                                     [&](const auto& entry) { return entry.first == key; })) {
        report_.add(kinds::duplicate_key, at, fmt::format("`{}` is written twice", key));
      } else {
        result.emplace_back(key, item.second);
      }
    }
    return result;
  }

  std::string text(const std::string& key, const YAML::Node& value) {
    if (!value.IsScalar()) {
      bad(value, fmt::format("`{}` needs a line of text", key));
      return {};
    }
    if (value.Scalar().size() > longest_value) {
      bad(value, fmt::format("`{}` is longer than {} bytes", key, longest_value));
      return {};
    }
    return value.Scalar();
  }

  std::string language(const YAML::Node& value) {
    constexpr std::size_t longest = 35;
    std::string tag = text("language", value);
    const bool plain =
        !tag.empty() && tag.size() <= longest && std::ranges::all_of(tag, [](char c) {
          return pointwright::text::is_digit(c) || c == '-' ||
                 (pointwright::text::lower(c) >= 'a' && pointwright::text::lower(c) <= 'z');
        });
    if (plain) return tag;
    bad(value, fmt::format("{} is not a language tag", pointwright::text::quoted(tag)))
        .hints.emplace_back("write a tag like en, de or pt-BR");
    return "en";
  }

  std::optional<SideNames> sides(const YAML::Node& value) {
    if (!value.IsMap()) {
      bad(value, "`sides` needs a name for each side")
          .hints.emplace_back("write it like: sides: {light: Ivory, dark: Walnut}");
      return std::nullopt;
    }
    SideNames names;
    for (const auto& [key, name] : entries(value, {"light", "dark"})) {
      const std::string word = text(key, name);
      if (word.empty() || word.size() > longest_side_name) {
        bad(name, fmt::format("the name of {} has {} bytes; it needs 1 to {}", key, word.size(),
                              longest_side_name));
      } else {
        names.of[key == "light" ? 0 : 1] = word;
      }
    }
    if (pointwright::text::same_word(names.of[0], names.of[1]))
      bad(value, fmt::format("both sides are called {}", pointwright::text::quoted(names.of[0])));
    return names;
  }

  /// Whether every key was known.
  [[nodiscard]] bool understood() const { return understood_; }

  Diagnostic& bad(const YAML::Node& node, std::string message) {
    return report_.add(kinds::bad_value, span_of(node), std::move(message));
  }

  [[nodiscard]] TextSpan span_of(const YAML::Node& node) const {
    const TextSpan line = line_from(node.Mark());
    if (!node.IsScalar()) return line;
    const std::size_t size = node.Scalar().size();
    const bool plain = report_.source().text({line.begin, line.begin + size}) == node.Scalar();
    return plain && size > 0 ? TextSpan{line.begin, line.begin + size} : line;
  }

  /// From a mark to the end of its line.
  [[nodiscard]] TextSpan line_from(const YAML::Mark& mark) const {
    const SourceText& source = report_.source();
    const int first = source.line_of(where_.begin);
    const int number = std::clamp(first + std::max(mark.line, 0), first, source.line_count());
    const TextSpan line = source.line(number);
    const auto column = static_cast<std::size_t>(std::max(mark.column, 0));
    return {std::min(line.begin + column, line.end), line.end};
  }

 private:
  void unknown(const std::string& key, TextSpan at, const std::vector<std::string>& known) {
    understood_ = false;
    Diagnostic& diagnostic =
        report_.add(kinds::unknown_key, at,
                    fmt::format("{} is not a key here", pointwright::text::quoted(key)));
    if (const auto meant = did_you_mean(key, known)) {
      diagnostic.hints.push_back(fmt::format("did you mean `{}`?", *meant));
      diagnostic.fix = Fix{at, *meant};
    } else {
      diagnostic.hints.push_back("the keys are " + one_of(known));
    }
  }

  TextSpan where_;
  Report& report_;
  bool understood_ = true;
};

/// Loads the YAML at `where` and calls `read` with it, if it is a map. Returns whether what is
/// missing then is missing indeed: not if the YAML is broken or a key was not understood.
template <class Read>
bool with_map(TextSpan where, Report& report, const Read& read) {
  const SourceText& source = report.source();
  MapReader reader(where, report);
  try {
    const YAML::Node root = YAML::Load(std::string(source.text(where)));
    if (root.IsNull()) return true;
    if (!root.IsMap()) {
      report.add(kinds::bad_yaml, source.line(source.line_of(where.begin)),
                 "this is not a list of `key: value` lines");
      return false;
    }
    read(reader, root);
    return reader.understood();
  } catch (const YAML::Exception& problem) {
    const TextSpan at = reader.line_from(problem.mark);
    report.add(kinds::bad_yaml, at, fmt::format("this is not YAML: {}", problem.msg))
        .hints.emplace_back("put the value in double quotes if it holds a colon or a brace");
    return false;
  }
}

void require(const std::string& value, std::string_view key, TextSpan where, Report& report) {
  if (!value.empty()) return;
  const TextSpan line = report.source().line(report.source().line_of(where.begin));
  report.add(kinds::missing_key, line, fmt::format("there is no `{}`", key))
      .hints.push_back(fmt::format("add a line like: {}: ...", key));
}

void read_chapters(MapReader& reader, const YAML::Node& list, Course& course, Report& report) {
  if (!list.IsSequence()) {
    reader.bad(list, "`chapters` needs a list of files")
        .hints.emplace_back("write it like: chapters: [01-the-board.md, 02-setting-up.md]");
    return;
  }
  if (list.size() == 0 || list.size() > most_chapters) {
    report.add(
        kinds::chapter_count, reader.span_of(list),
        fmt::format("the course lists {} chapters; it needs 1 to {}", list.size(), most_chapters));
    return;
  }
  for (const YAML::Node& item : list) {
    const std::string file = item.IsScalar() ? item.Scalar() : "";
    const TextSpan at = reader.span_of(item);
    const auto same = [&](const ChapterEntry& entry) {
      return chapter_id(entry.file) == chapter_id(file);
    };
    if (!is_plain_name(file)) {
      report
          .add(kinds::chapter_name, at,
               fmt::format("{} is not a plain file name", pointwright::text::quoted(file)))
          .hints.emplace_back(
              "chapters stand beside course.yaml; their names are letters, digits, `-`, `_` and "
              "`.`");
    } else if (std::ranges::any_of(course.chapters, same)) {
      report.add(kinds::duplicate_chapter, at,
                 fmt::format("a chapter called {} is listed above",
                             pointwright::text::quoted(chapter_id(file))));
    } else {
      course.chapters.push_back({file, at});
    }
  }
}

}  // namespace

bool is_plain_name(std::string_view name) {
  constexpr std::size_t longest = 100;
  const auto plain = [](char c) {
    return pointwright::text::is_digit(c) ||
           (pointwright::text::lower(c) >= 'a' && pointwright::text::lower(c) <= 'z') || c == '-' ||
           c == '_' || c == '.';
  };
  return !name.empty() && name.size() <= longest && name.front() != '.' &&
         std::ranges::all_of(name, plain);
}

std::string chapter_id(std::string_view file) {
  return std::string(file.substr(0, std::min(file.rfind('.'), file.size())));
}

FrontMatter read_front_matter(TextSpan where, Report& report) {
  FrontMatter result;
  const bool readable = with_map(where, report, [&](MapReader& reader, const YAML::Node& root) {
    for (const auto& [key, value] : reader.entries(root, {"title", "summary", "sides"})) {
      if (key == "title") result.title = reader.text(key, value);
      if (key == "summary") result.summary = reader.text(key, value);
      if (key == "sides") result.sides = reader.sides(value);
    }
  });
  if (readable) require(result.title, "title", where, report);
  return result;
}

Course read_course(Report& report) {
  Course course;
  bool has_chapters = false;
  const TextSpan where{0, report.source().text().size()};
  const bool readable = with_map(where, report, [&](MapReader& reader, const YAML::Node& root) {
    const std::vector<std::string> known{"title",    "summary", "author",
                                         "language", "sides",   "chapters"};
    for (const auto& [key, value] : reader.entries(root, known)) {
      if (key == "title") course.title = reader.text(key, value);
      if (key == "summary") course.summary = reader.text(key, value);
      if (key == "author") course.author = reader.text(key, value);
      if (key == "language") course.language = reader.language(value);
      if (key == "sides") course.sides = reader.sides(value);
      if (key == "chapters") {
        has_chapters = true;
        read_chapters(reader, value, course, report);
      }
    }
  });
  if (!readable) return course;
  require(course.title, "title", where, report);
  if (!has_chapters) {
    report.add(kinds::chapter_count, report.source().line(1), "the course lists no chapters")
        .hints.emplace_back("add a line like: chapters: [01-the-board.md]");
  }
  return course;
}

}  // namespace pointwright::lesson
