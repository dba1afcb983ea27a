#include <nlohmann/json.hpp>

#include "storyboard/fields.hpp"
#include "storyboard/json.hpp"

namespace pointwright {
namespace {

using Json = nlohmann::ordered_json;

/// Visits the fields of one struct and makes an object of them.
class Writer {
 public:
  template <class T>
  void field(std::string_view name, const T& value, std::string_view /*description*/) {
    object_[std::string(name)] = json_of(value);
  }
  template <class T>
  void field(std::string_view name, const std::optional<T>& value, std::string_view description) {
    if (value) field(name, *value, description);
  }
  Json take() { return std::move(object_); }

  static Json json_of(const std::string& value) { return value; }
  static Json json_of(bool value) { return value; }
  static Json json_of(int value) { return value; }
  static Json json_of(double value) { return value; }
  static Json json_of(Place value) { return static_cast<int>(value); }
  template <class Enum>
    requires std::is_enum_v<Enum>
  static Json json_of(Enum value) {
    return storyboard_form::EnumNames<Enum>::list[static_cast<std::size_t>(value)];
  }
  template <class T>
  static Json json_of(const std::vector<T>& values) {
    Json array = Json::array();
    for (const T& value : values) array.push_back(json_of(value));
    return array;
  }
  template <class T>
    requires(!storyboard_form::struct_name<T>.empty())
  static Json json_of(const T& value) {
    Writer writer;
    storyboard_form::fields(writer, value);
    return writer.take();
  }

 private:
  Json object_ = Json::object();
};

}  // namespace

std::string to_json(const Storyboard& storyboard, int indent) {
  Json whole = {{"version", Storyboard::version}};
  whole.update(Writer::json_of(storyboard));
  return whole.dump(indent, ' ', false, Json::error_handler_t::replace);
}

}  // namespace pointwright
