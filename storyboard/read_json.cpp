#include <cmath>
#include <nlohmann/json.hpp>

#include "storyboard/fields.hpp"
#include "storyboard/json.hpp"

namespace pointwright {
namespace {

using Json = nlohmann::ordered_json;
using Problem = std::optional<StoryboardFault>;

/// Where reading has come to: a chain of names and numbers back to the whole.
struct Path {
  const Path* parent = nullptr;
  std::string step;
  int depth = 0;

  [[nodiscard]] Path at(std::string_view name) const {
    return {this, std::string(name), depth + 1};
  }
  [[nodiscard]] std::string pointer() const {
    return parent == nullptr ? "" : parent->pointer() + "/" + step;
  }
};

Problem expected(const Path& path, std::string_view what, const Json& seen) {
  return StoryboardFault{
      path.pointer(), "expected " + std::string(what) + ", found " + std::string(seen.type_name())};
}

/// Visits the fields of one struct and fills them from an object. Stops at the first fault.
class Reader {
 public:
  Reader(const Json& object, const Path& path) : object_(object), path_(path) {}

  template <class T>
  void field(std::string_view name, T& value, std::string_view /*description*/) {
    if (fault_) return;
    const auto found = object_.find(name);
    if (found == object_.end()) {
      fault_ =
          StoryboardFault{path_.pointer(), "the member \"" + std::string(name) + "\" is missing"};
      return;
    }
    fault_ = read(*found, value, path_.at(name));
  }
  template <class T>
  void field(std::string_view name, std::optional<T>& value, std::string_view /*description*/) {
    if (fault_) return;
    const auto found = object_.find(name);
    if (found != object_.end()) fault_ = read(*found, value.emplace(), path_.at(name));
  }
  [[nodiscard]] const Problem& fault() const { return fault_; }

  static Problem read(const Json& json, std::string& value, const Path& path) {
    if (!json.is_string()) return expected(path, "a string", json);
    value = json.get<std::string>();
    return std::nullopt;
  }
  static Problem read(const Json& json, bool& value, const Path& path) {
    if (!json.is_boolean()) return expected(path, "true or false", json);
    value = json.get<bool>();
    return std::nullopt;
  }
  static Problem read(const Json& json, int& value, const Path& path) {
    constexpr std::int64_t largest = 1'000'000'000;
    if (!json.is_number_integer()) return expected(path, "a whole number", json);
    if (json.get<double>() < 0 || json.get<double>() > largest)
      return StoryboardFault{path.pointer(), "expected a whole number from 0 to 1000000000"};
    value = json.get<int>();
    return std::nullopt;
  }
  static Problem read(const Json& json, double& value, const Path& path) {
    if (!json.is_number()) return expected(path, "a number", json);
    value = json.get<double>();
    if (!std::isfinite(value)) return StoryboardFault{path.pointer(), "the number is too large"};
    return std::nullopt;
  }
  static Problem read(const Json& json, Place& value, const Path& path) {
    int number = 0;
    if (Problem fault = read(json, number, path)) return fault;
    if (number > bar_place) return StoryboardFault{path.pointer(), "expected a place from 0 to 25"};
    value = static_cast<Place>(number);
    return std::nullopt;
  }
  template <class Enum>
    requires std::is_enum_v<Enum>
  static Problem read(const Json& json, Enum& value, const Path& path) {
    std::string word;
    if (Problem fault = read(json, word, path)) return fault;
    std::string all;
    std::size_t i = 0;
    for (const std::string_view name : storyboard_form::EnumNames<Enum>::list) {
      if (word == name) {
        value = static_cast<Enum>(i);
        return std::nullopt;
      }
      all += (i++ == 0 ? "" : ", ") + std::string(name);
    }
    return StoryboardFault{path.pointer(), "expected one of " + all};
  }
  template <class T>
  static Problem read(const Json& json, std::vector<T>& values, const Path& path) {
    if (!json.is_array()) return expected(path, "a list", json);
    if (path.depth > storyboard_form::deepest)
      return StoryboardFault{path.pointer(), "lists are nested too deeply"};
    values.reserve(json.size());
    for (const Json& item : json) {
      if (Problem fault =
              read(item, values.emplace_back(), path.at(std::to_string(values.size() - 1))))
        return fault;
    }
    return std::nullopt;
  }
  template <class T>
    requires(!storyboard_form::struct_name<T>.empty())
  static Problem read(const Json& json, T& value, const Path& path) {
    if (!json.is_object()) return expected(path, "an object", json);
    Reader reader(json, path);
    storyboard_form::fields(reader, value);
    if (reader.fault()) return reader.fault();
    return whole(value, path);
  }

 private:
  /// What no single member shows.
  template <class T>
  static Problem whole(const T& /*value*/, const Path& /*path*/) {
    return std::nullopt;
  }
  static Problem whole(const Part& part, const Path& path) {
    if (part.prose.has_value() + part.scene.has_value() + part.question.has_value() == 1)
      return std::nullopt;
    return StoryboardFault{path.pointer(), "expected exactly one of prose, scene and question"};
  }

  const Json& object_;
  const Path& path_;
  Problem fault_;
};

}  // namespace

Result<Storyboard, StoryboardFault> storyboard_from_json(std::string_view json) {
  const Json whole = Json::parse(json, nullptr, false);
  if (whole.is_discarded()) return StoryboardFault{"", "the text is not JSON"};
  if (!whole.is_object()) return *expected({}, "an object", whole);
  const auto version = whole.find("version");
  if (version == whole.end()) return StoryboardFault{"", "the member \"version\" is missing"};
  if (*version != Storyboard::version) {
    return StoryboardFault{"/version", "this program reads version " +
                                           std::to_string(Storyboard::version) +
                                           " of the storyboard; build the course again with it"};
  }
  Storyboard storyboard;
  if (const Problem fault = Reader::read(whole, storyboard, {})) return *fault;
  return storyboard;
}

}  // namespace pointwright
